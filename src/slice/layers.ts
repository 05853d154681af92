import { type Finding, refuse } from '../findings.ts';
import { SIMPLIFY_MM } from '../geometry/tolerance.ts';
import { groundRange } from '../model/ground.ts';
import { extent, type Landform } from '../model/landform.ts';
import type { Layer, LayerStack } from '../model/layer.ts';
import { definePlugin, type Walk } from '../plugin.ts';
import { numberText } from '../units.ts';
import { CUTS, type Cut, levelsMm, wholeUm } from './layers/levels.ts';
import { judgeOpenings } from './layers/openings.ts';
import { layerOutlines } from './layers/outlines.ts';
import { portion } from './layers/portion.ts';
import { layerThicknesses, MOST_LAYERS, tellList } from './layers/thicknesses.ts';

/** Ground narrower than this in plan is a slip of a unit or a spacing. */
const LEAST_PLAN_MM = 1;

/** Choosing boards takes about this share of the work. */
const CHOICE = 0.4;

/** A stack that ends nearer than this to the highest ground ends there: no tape shows less. */
const TOLD_MM = 0.1;

/**
 * Slice the ground into layers one board thick. A heightfield's outlines are exact for the ground as its four triangles a
 * cell give it (geometry/contour.ts); a solid's count its overhangs. `proud` keeps foam at or over the ground everywhere,
 * `shy` at or under it; simplifying keeps to that side, and never makes a layer stick out over the one beneath.
 */
export const layers = definePlugin({
  api: 1,
  stage: 'slice',
  name: 'layers',
  summary: 'cuts the ground into layers one board thick',
  options: ({ z, length }) =>
    z.strictObject({
      cut: z
        .enum(CUTS)
        .default('proud')
        .describe('proud: foam never below the ground, carved back; shy: never above it; middle: half and half'),
      thickness: z
        .union([
          z.literal('best'),
          length({ above: 0 }),
          z
            .array(length({ above: 0 }))
            .max(MOST_LAYERS)
            .refine((list) => list.length > 0, { error: 'The list is empty.\nWrite at least one thickness.' })
            .meta({ minItems: 1 }),
        ])
        .optional()
        .describe(
          'of the boards: one, a list from the ground up whose last repeats, or best of those on sale; must be said when there are several',
        ),
      carve: z
        .number()
        .min(0)
        .optional()
        .describe(
          'for best: what a cubic metre between foam and ground counts for, in money; not said, 3 times the foam',
        ),
      lay: z
        .number()
        .min(0)
        .optional()
        .describe('for best: what cutting and laying a square metre of layer counts for; not said, the cheapest board'),
      simplify: length({ least: 0 })
        .prefault(`${SIMPLIFY_MM} mm`)
        .describe('how far outlines may move, to its own side, to have fewer points'),
    }),
  *run(landform, options, { facts, tell }): Walk<LayerStack> {
    const { cut, simplify } = options;
    const { lowMm, highMm } = groundRange(landform);
    if (lowMm < 0) belowZero(lowMm);
    const share = options.thickness === 'best' ? CHOICE : 0;
    const choice = layerThicknesses(landform, highMm, cut, options, { facts, tell });
    const thicknessesMm = yield* portion(0, share, choice);
    const levels = levelsMm(thicknessesMm);
    judgeOpenings(landform, levels, tell);
    const outlines = yield* portion(share, 1, layerOutlines(landform, levels, cut, wholeUm(simplify)));
    while (outlines.at(-1)?.length === 0) outlines.pop();
    if (outlines.length === 0) nothing(cut, landform, highMm, thicknessesMm[0]);
    const gap = outlines.findIndex((regions) => regions.length === 0);
    if (gap >= 0) floating(gap + 1);
    tellList(options, outlines.length, tell);
    const overMm = levels[outlines.length] - highMm;
    if (Math.abs(overMm) >= TOLD_MM) tell(overMm > 0 ? endsAbove(overMm, cut) : endsBelow(-overMm));
    return {
      kind: 'flat',
      layers: outlines.map(
        (regions, k): Layer => ({ number: k + 1, bottomMm: levels[k], thicknessMm: thicknessesMm[k], regions }),
      ),
    };
  },
});

const mm = (value: number): string => `${numberText(value, 3)} mm`;

const endsAbove = (overMm: number, cut: Cut): Finding => ({
  level: 'note',
  code: 'slice/stack-height',
  message: `The stack ends ${numberText(overMm, 1)} mm above the highest ground.`,
  fix: cut === 'proud' ? 'Carve the top layer down by that much.' : 'Carve the top layer down, or cut shy and fill.',
  where: { path: 'slice.layers' },
});

const endsBelow = (underMm: number): Finding => ({
  level: 'watch',
  code: 'slice/stack-height',
  message: `The stack ends ${numberText(underMm, 1)} mm below the highest ground.`,
  fix: 'Build the top up with the cover, use thinner boards, or cut proud.',
  where: { path: 'slice.layers' },
});

const belowZero = (lowMm: number): never =>
  refuse(
    'slice/below-zero',
    `The ground goes down to ${mm(lowMm)}: there is no foam below 0.`,
    'Set it on a base first: add base to shape.',
    { path: 'shape' },
  );

function nothing(cut: Cut, landform: Landform, highMm: number, thicknessMm: number | undefined): never {
  const [minX, minY, maxX, maxY] = extent(landform).box;
  if (Math.min(maxX - minX, maxY - minY) < LEAST_PLAN_MM) {
    const message = `The ground is ${mm(maxX - minX)} × ${mm(maxY - minY)} in plan: no layer of it can be cut.`;
    refuse('slice/nothing', message, 'Check the unit, and the size or the spacing of posts.', { path: 'source' });
  }
  return refuse(
    'slice/nothing',
    `The highest ground is ${mm(highMm)}: ${thicknessMm === undefined ? '' : `cut ${cut} from boards of ${mm(thicknessMm)} `}that gives no layer.`,
    cut === 'proud'
      ? 'Make the ground taller, or take less off it.'
      : 'Use thinner boards, make the ground taller, or cut proud.',
    { path: 'slice.layers' },
  );
}

const floating = (layer: number): never =>
  refuse(
    'slice/floating',
    `Layer ${layer} is empty and there is foam above it, which would float.`,
    'Lower the ground onto z = 0 (shape: [ base: { cut: lowest } ]), or join what floats to the rest.',
    { layer },
  );
