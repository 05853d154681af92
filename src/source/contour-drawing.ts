/**
 * Ground from a plan drawn as SVG: contours with their heights, spots, break lines and an outline. The surface through them is
 * geometry/surface.ts; what gives a line its height or kind is told in contour-drawing/read.ts and words.ts.
 *
 * Decided: a circle no wider than a fiftieth of the drawing is a spot, its height its own or the number beside it; a number
 * that stands alone is a spot at its anchor point, unless a line of that height runs by, whose label it then is. Copies by
 * reference (`use`) are left out and told. Ids count before colours. Lengths without a unit are pixels of 1/96 in (CSS).
 * Without an outline the ground is the box round all heights. Of the curves, points stay within 0.02 mm of the ground's plan.
 */
import { type Finding, refuse } from '../findings.ts';
import { share } from '../geometry/share.ts';
import { type Surface, surfaceThrough } from '../geometry/surface.ts';
import { groundPosts, tidyMm, withNearestBeyond } from '../model/ground.ts';
import { type Heightfield, heightfield } from '../model/landform.ts';
import { gridOf, usualSpacingMm } from '../model/post-layout.ts';
import { definePlugin, type Kit, type Walk } from '../plugin.ts';
import { numberText, UNITS } from '../units.ts';
import { doubts } from './contour-drawing/checks.ts';
import { finer, givenOf, isInDoubt, postsAt, stepsOf } from './contour-drawing/given.ts';
import { pageOf } from './contour-drawing/page.ts';
import { place } from './contour-drawing/place.ts';
import { readDrawing } from './contour-drawing/read.ts';
import { sorted } from './contour-drawing/sort.ts';
import { belowZero, offGiven, tellDoubts, tellPage, tellRead } from './contour-drawing/told.ts';
import { KINDS } from './contour-drawing/words.ts';
import { readXml } from './contour-drawing/xml.ts';

/** Points of curves lie on them, chords no farther off than this: half of what would show in 0.1 mm of height on a steep bank. */
const FLAT_MM = 0.02;
/** Of a plan of whole country a millionth of its longer side. */
const FLAT_SHARE = 1e-6;
/** The surface is solved for all posts at once: so many take a minute or two. */
const MOST_SOLVED = 4_000_000;
/** Of all lines together, from post to post: some forty for each post of the usual ground. */
const MOST_STEPS = 4_000_000;
/** What the ground may miss what is drawn by. */
const EXACT_MM = 0.1;

export const contourDrawing = definePlugin({
  api: 1,
  stage: 'source',
  name: 'contour-drawing',
  summary: 'ground from a plan with contours, drawn in any program that saves SVG',
  options: (kit) =>
    kit.z
      .strictObject({
        file: kit.file().describe('the plan, SVG'),
        unit: kit.z.enum(UNITS).default(kit.unit).describe('what plain numbers for heights in the drawing count in'),
        scale: kit.z
          .number()
          .positive()
          .optional()
          .describe('of the plan, 1 : so many; 1 when left out. Without a real size one of its units counts as 1 mm'),
        size: kit
          .size()
          .optional()
          .describe('of the whole page on the ground; wins over the size that the drawing has'),
        legend: kit.z
          .record(kit.z.string(), meaning(kit))
          .default({})
          .describe(
            'what stroke colours and ids stand for: a height, or contour, spot, footprint, ridge, stream, cliff, nothing',
          ),
        spacing: kit
          .length({ above: 0 })
          .optional()
          .describe(
            'between posts, about; left out, the longest side has 300 steps, or 600 or 1200 where the lines need them',
          ),
      })
      .refine(({ scale, size }) => scale === undefined || size === undefined, {
        error: 'The plan is said in two ways.\nSay scale or size.',
        path: ['scale'],
      }),
  *run(files, { file, unit, scale, size, legend, spacing }, { tell }): Walk<Heightfield> {
    const elements = yield* share(readXml(files.get(file) ?? new Uint8Array(0), file), 0, 0.1);
    const page = pageOf(elements[0], { scale, size }, file);
    const toleranceMm = Math.max(FLAT_MM, FLAT_SHARE * Math.max(...(page.sizeMm ?? [0])));
    const read = yield* share(readDrawing(elements, page.toGround, { file, unit, legend, toleranceMm }), 0.1, 0.2);
    const drawn = sorted(read, page.sizeMm, unit);
    const placed = place(drawn, file);
    tellPage(page, { file, line: elements[0].line }, tell);
    tellRead(read, drawn, placed, file, tell);

    const spacingMm = spacing ?? usualSpacingMm(placed.sizeMm);
    let layout = gridOf(placed.sizeMm, spacingMm);
    if (layout === null || layout.columns * layout.rows > MOST_SOLVED) return tooManyPosts(spacingMm);
    if (stepsOf(placed, layout) > MOST_STEPS) tooLong(file);
    const found = yield* share(doubts(placed, spacingMm), 0.2, 0.4);
    tellDoubts(placed, found, tell);

    const given = givenOf(placed, found);
    const isOff = ({ worst }: Surface) => worst.off > EXACT_MM && !isInDoubt(found, worst, 3 * spacingMm);
    let surface = yield* share(surfaceThrough(given, postsAt(layout)), 0.4, spacing === undefined ? 0.6 : 1);
    for (const [k, parts] of CLOSER.entries()) {
      const closer = spacing === undefined && isOff(surface) ? gridOf(placed.sizeMm, spacingMm / parts) : null;
      if (closer === null || closer.columns * closer.rows > MOST_SOLVED || stepsOf(placed, closer) > MOST_STEPS) break;
      layout = closer;
      const from = 0.6 + (0.4 * k) / CLOSER.length;
      surface = yield* share(surfaceThrough(given, postsAt(closer)), from, from + 0.4 / CLOSER.length);
    }
    const { columns, rows, stepXMm, stepYMm } = layout;
    if (isOff(surface)) {
      const { off, x, y } = surface.worst;
      const wideMm = Math.max(stepXMm, stepYMm);
      tell(offGiven(off, wideMm, finer(placed, surface.worst, wideMm), { file, atMm: [x, y] }));
    }
    const whole = heightfield(columns, rows, stepXMm, stepYMm, surface.values.map(tidyMm));
    const ground = placed.isOutlined ? withNearestBeyond({ ...whole, footprint: placed.footprint }) : whole;
    tellBelowZero(ground, tell);
    return ground;
  },
});

/** Where no spacing is said and a line turns too sharply for the posts, they stand so many times as close, one after the other. */
const CLOSER = [2, 4];

const tooLong = (file: string): never =>
  refuse(
    'source/too-large',
    'The lines are too long altogether to be worked with: they pass the posts of the ground again and again.',
    'Leave out hatching and what else is no contour, or set the posts wider apart (spacing).',
    { file },
  );

const tooManyPosts = (spacingMm: number): never =>
  refuse(
    'source/too-many-posts',
    `Posts ${numberText(spacingMm, 6)} mm apart would be more than ${MOST_SOLVED / 1e6} million.`,
    'Set them wider apart: a five-hundredth of the longest side shows all that hands can cut.',
    { path: 'source.contour-drawing.spacing' },
  );

/** What a colour or id stands for. */
const meaning = ({ z, length }: Kit) =>
  z.union([z.enum(KINDS), length()], {
    error: `Neither a height nor one of ${KINDS.join(', ')}.\nWrite 150, 1.5 m or one of these words.`,
  });

/** Tell of ground below 0, once, where it is lowest. */
function tellBelowZero(ground: Heightfield, tell: (finding: Finding) => void): void {
  const { heightsMm, columns, stepXMm, stepYMm } = ground;
  const posts = groundPosts(ground);
  let lowest = -1;
  for (let i = 0; i < heightsMm.length; i++) {
    if (posts?.[i] !== 0 && heightsMm[i] < (heightsMm[lowest] ?? 0)) lowest = i;
  }
  if (lowest < 0) return;
  const atMm = [(lowest % columns) * stepXMm, Math.floor(lowest / columns) * stepYMm] as const;
  tell(belowZero(heightsMm[lowest], { path: 'source.contour-drawing', atMm }));
}
