import { type Finding, refuse } from '../findings.ts';
import { fillNearest } from '../geometry/grid-fill.ts';
import { groundPosts, groundRange, tidyMm } from '../model/ground.ts';
import { definePlugin } from '../plugin.ts';
import { numberText } from '../units.ts';
import { fitLines } from './smooth/lines.ts';

/** A parabola through fewer posts to either side meets them all: nothing is evened out. */
const LEAST_POSTS = 2;

/**
 * Even out ground and keep its summits: each pass fits a parabola by least squares to every height and those within `reach` to
 * either side, along west–east and then along south–north, and takes its middle (A. Savitzky, M. J. E. Golay, Smoothing and
 * differentiation of data by simplified least squares procedures, Analytical Chemistry 36, 1964). Ground that is a polynomial up
 * to the third degree each way – planes, rounded summits, saddles – stays what it is; means over the reach, the other usual
 * filter, take about reach² × curvature off a summit in three passes. No height leaves the range of those it is fitted to: so flat
 * ground beside a cliff stays flat. Towards an edge the reach shrinks on both sides alike: the outermost posts keep their heights
 * across it. Only posts that the ground hangs on are looked at and changed. O(posts × passes), whatever the reach.
 */
export const smooth = definePlugin({
  api: 1,
  stage: 'shape',
  name: 'smooth',
  summary: 'evens out bumps and grey-level steps of heights, and keeps summits',
  options: ({ z, length }) =>
    z.strictObject({
      reach: length({ above: 0 }).describe('how far to either side each pass looks'),
      passes: z.int().min(1).max(20).default(3).describe('how often'),
    }),
  *run(landform, { reach, passes }, { tell }) {
    if (landform.kind === 'solid') return onSolid();
    const { columns, rows, stepXMm, stepYMm } = landform;
    const before = groundRange(landform);
    const acrossX = Math.min(columns, Math.floor(reach / stepXMm + 1e-9));
    const acrossY = Math.min(rows, Math.floor(reach / stepYMm + 1e-9));
    if (Math.max(acrossX, acrossY) < LEAST_POSTS) {
      tell(tooShort(reach, LEAST_POSTS * Math.min(stepXMm, stepYMm)));
      return landform;
    }
    const ground = groundPosts(landform);
    let heights = Float64Array.from(landform.heightsMm);
    for (let pass = 0; pass < passes; pass++) {
      heights = fitLines(heights, ground, { count: rows, from: columns, length: columns, step: 1 }, acrossX);
      yield (pass + 0.5) / passes;
      heights = fitLines(heights, ground, { count: columns, from: 1, length: rows, step: columns }, acrossY);
      yield (pass + 1) / passes;
    }
    for (let i = 0; i < heights.length; i++) heights[i] = tidyMm(heights[i]);
    const heightsMm = ground ? fillNearest(heights, ground, columns) : heights;
    const smoothed = { ...landform, heightsMm };
    tell(evened(before.highMm, groundRange(smoothed).highMm));
    return smoothed;
  },
});

const evened = (beforeMm: number, afterMm: number): Finding => ({
  level: 'note',
  code: 'shape/smoothed',
  message: `Smoothing takes the highest ground from ${numberText(beforeMm, 1)} to ${numberText(afterMm, 1)} mm.`,
  fix: 'Take a shorter reach if sharp peaks matter: rounded ones are kept.',
  where: {},
});

const tooShort = (reachMm: number, leastMm: number): Finding => ({
  level: 'watch',
  code: 'shape/short-reach',
  message: `A reach of ${numberText(reachMm, 1)} mm is less than two posts, ${numberText(leastMm, 1)} mm: nothing is smoothed.`,
  fix: `Give a reach of ${numberText(leastMm, 1)} mm or more.`,
  where: { path: 'shape.smooth.reach' },
});

const onSolid = (): never =>
  refuse(
    'shape/solid',
    'The shaper smooth works on heights, and this ground is a solid.',
    'Smooth it in the program it was modelled in, and leave the shaper out.',
    { path: 'shape.smooth' },
  );
