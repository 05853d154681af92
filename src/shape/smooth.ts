import { type Finding, refuse } from '../findings.ts';
import { fillNearest } from '../geometry/grid-fill.ts';
import { groundPosts, groundRange, tidyMm } from '../model/ground.ts';
import { definePlugin } from '../plugin.ts';
import { numberText } from '../units.ts';
import { smoothLines } from './smooth/lines.ts';

/**
 * Even out ground: each pass replaces every height by the mean of those within `reach` to either side, along west–east and
 * then along south–north. Several such passes come close to a Gaussian curve (W. M. Wells, Efficient synthesis of Gaussian
 * filters by cascaded uniform filters, IEEE PAMI 8, 1986). Towards an edge of the ground the reach shrinks on both sides
 * alike: so nothing shifts, a plane stays a plane, edges keep their line, and no height leaves the range there was.
 * Only posts that the ground hangs on are looked at and changed. O(posts × passes), whatever the reach.
 */
export const smooth = definePlugin({
  api: 1,
  stage: 'shape',
  name: 'smooth',
  summary: 'evens out bumps and grey-level steps of heights',
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
    if (acrossX === 0 && acrossY === 0) {
      tell(tooShort(reach, Math.min(stepXMm, stepYMm)));
      return landform;
    }
    const ground = groundPosts(landform);
    let heights = Float64Array.from(landform.heightsMm);
    for (let pass = 0; pass < passes; pass++) {
      heights = smoothLines(heights, ground, { count: rows, from: columns, length: columns, step: 1 }, acrossX);
      yield (pass + 0.5) / passes;
      heights = smoothLines(heights, ground, { count: columns, from: 1, length: rows, step: columns }, acrossY);
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
  fix: 'Take a shorter reach if peaks matter, or bring them back with the shaper fit.',
  where: {},
});

const tooShort = (reachMm: number, stepMm: number): Finding => ({
  level: 'watch',
  code: 'shape/short-reach',
  message: `A reach of ${numberText(reachMm, 1)} mm is less than the ${numberText(stepMm, 1)} mm from post to post: nothing is smoothed.`,
  fix: `Give a reach of ${numberText(stepMm, 1)} mm or more.`,
  where: { path: 'shape.smooth.reach' },
});

const onSolid = (): never =>
  refuse(
    'shape/solid',
    'The shaper smooth works on heights, and this ground is a solid.',
    'Smooth it in the program it was modelled in, and leave the shaper out.',
    { path: 'shape.smooth' },
  );
