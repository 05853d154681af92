import { share } from '../geometry/share.ts';
import { SIMPLIFY_MM } from '../geometry/tolerance.ts';
import { groundRange } from '../model/ground.ts';
import type { Layer, LayerStack } from '../model/layer.ts';
import { definePlugin, type Walk } from '../plugin.ts';
import { CUTS, levelsMm, MOST_LAYERS, wholeUm } from './layers/levels.ts';
import { judgeOpenings } from './layers/openings.ts';
import { layerOutlines } from './layers/outlines.ts';
import { sloped } from './layers/sloped.ts';
import { layerThicknesses, tellList } from './layers/thicknesses.ts';
import { mendThin, THIN, tellThin, thinMm } from './layers/thin.ts';
import { belowZero, endsAbove, endsBelow, floating, nothing } from './layers/told.ts';

/** What is narrower breaks in the hand, and a wire melts it from both sides (common practice, no source). */
const LEAST_WIDTH_MM = 20;

/** Looking for what is thin takes about this share of the work. */
const THIN_SHARE = 0.1;

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
        .enum([...CUTS, 'sloped'])
        .default('proud')
        .describe(
          'proud: foam never below the ground, carved back; shy: never above it; middle: half and half; sloped: the wire leans from the underside to the top outline',
        ),
      lean: z
        .number()
        .min(0)
        .max(85)
        .default(45)
        .describe('for sloped: furthest that the wire may lean from upright, in degrees'),
      reach: length({ above: 0 }).optional().describe('for sloped: length of the wire between its holders'),
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
      least: length({ least: 0 })
        .prefault(`${LEAST_WIDTH_MM} mm`)
        .describe('least width that foam is cut to: what is narrower is thin; 0 does not look for it'),
      thin: z
        .enum(THIN)
        .default('tell')
        .describe('what is thin: only told; thickened to the least width, within the layer beneath; or dropped'),
    }),
  *run(landform, options, { facts, tell }): Walk<LayerStack> {
    const { simplify } = options;
    // A layer whose edges slope is cut from the blank that covers it.
    const cut = options.cut === 'sloped' ? 'proud' : options.cut;
    const { lowMm, highMm } = groundRange(landform);
    if (lowMm < 0) belowZero(lowMm);
    const chosen = options.thickness === 'best' ? CHOICE : 0;
    const choice = layerThicknesses(landform, highMm, cut, options, { facts, tell });
    const thicknessesMm = yield* share(choice, 0, chosen);
    const levels = levelsMm(thicknessesMm);
    judgeOpenings(landform, levels, tell);
    const upTo = options.cut === 'sloped' ? (chosen + 1) / 2 : 1;
    const thinFrom = upTo - THIN_SHARE * (upTo - chosen);
    const outlines = yield* share(layerOutlines(landform, levels, cut, wholeUm(simplify)), chosen, thinFrom);
    while (outlines.at(-1)?.length === 0) outlines.pop();
    if (outlines.length === 0) nothing(cut, landform, highMm, thicknessesMm[0]);
    const rule = { leastMm: options.least, thin: options.thin, cut: options.cut, footprint: landform.footprint };
    const mended = yield* share(mendThin(outlines, rule), thinFrom, upTo);
    const gap = mended.outlines.findIndex((regions) => regions.length === 0);
    if (gap >= 0) floating(gap + 1);
    tellList(options, mended.outlines.length, tell);
    const overMm = levels[mended.outlines.length] - highMm;
    if (Math.abs(overMm) >= TOLD_MM) tell(overMm > 0 ? endsAbove(overMm, cut) : endsBelow(-overMm));
    tellThin(mended, rule, tell);
    const stack = mended.outlines.map((regions, k): Layer => {
      const layer = { number: k + 1, bottomMm: levels[k], thicknessMm: thicknessesMm[k], regions };
      return mended.places[k].length > 0 ? { ...layer, thin: thinMm(mended.places[k]) } : layer;
    });
    if (options.cut !== 'sloped') return { kind: 'flat', layers: stack };
    const lean = { leanDeg: options.lean, reachMm: options.reach, simplifyUm: wholeUm(simplify) };
    return { kind: 'flat', layers: yield* share(sloped(landform, stack, lean, tell), upTo, 1) };
  },
});
