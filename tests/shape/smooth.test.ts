import { describe, expect, it } from 'vitest';
import { groundOf, groundRange } from '../../src/model/ground.ts';
import { type Heightfield, heightfield, type Landform } from '../../src/model/landform.ts';
import { crop } from '../../src/shape/crop.ts';
import { smooth } from '../../src/shape/smooth.ts';
import { planeGround, roughGround, wedge } from '../help/grounds.ts';
import { codes, refusal, runPlugin } from '../help/plugin-run.ts';

const smoothed = <T extends Landform>(landform: T, options: Record<string, unknown>) =>
  runPlugin<T>(smooth, landform, options);
/** Of ground of 19 × 10 posts; three times as large for one of 57 × 30. */
const OUTLINE = [
  [31, 20],
  [300, 44],
  [333, 250],
  [190, 180],
  [52, 301],
];
const LARGE = OUTLINE.map(([x, y]) => [3 * x, 3 * y]);

describe('on whole ground, and on ground with an outline', () => {
  it.each([
    ['whole', (field: Heightfield) => field],
    ['outlined', (field: Heightfield) => runPlugin<Heightfield>(crop, field, { outline: OUTLINE }).made],
  ])('%s: a plane stays a plane', (_, form) => {
    const plane = form(planeGround(19, 10));
    const { made } = smoothed(plane, { reach: 75, passes: 4 });
    expect(groundOf(made).volumeMm3 / groundOf(plane).volumeMm3).toBeCloseTo(1, 9);
    expect(groundOf(made).surfaceAreaMm2 / groundOf(plane).surfaceAreaMm2).toBeCloseTo(1, 9);
  });

  it.each([
    ['whole', (field: Heightfield) => field],
    ['outlined', (field: Heightfield) => runPlugin<Heightfield>(crop, field, { outline: LARGE }).made],
  ])('%s: no height leaves the range, the ground gets flatter, its volume stays within 3 %%', (_, form) => {
    const rough = form(roughGround(14, 57, 30));
    const before = structuredClone(rough);
    const { made } = smoothed(rough, { reach: 75, passes: 2 });
    expect(rough).toEqual(before);
    expect(groundRange(made).highMm).toBeLessThanOrEqual(groundRange(rough).highMm);
    expect(groundRange(made).lowMm).toBeGreaterThanOrEqual(groundRange(rough).lowMm);
    expect(groundOf(made).surfaceAreaMm2).toBeLessThan(0.7 * groundOf(rough).surfaceAreaMm2);
    expect(Math.abs(groundOf(made).volumeMm3 / groundOf(rough).volumeMm3 - 1)).toBeLessThan(0.03);
  });
});

it('spreads a lone peak evenly to all sides: lower, in the same place, its volume kept', () => {
  const heights = new Float64Array(21 * 17);
  heights[8 * 21 + 10] = 90;
  const { made, findings } = smoothed(heightfield(21, 17, 20, 35, heights), { reach: 41, passes: 1 });
  // Within 41 mm: two posts to either side west to east, one south to north. A fifteenth each.
  for (let i = 0; i < heights.length; i++) {
    const [x, y] = [(i % 21) - 10, Math.floor(i / 21) - 8];
    expect(made.heightsMm[i]).toBeCloseTo(Math.abs(x) <= 2 && Math.abs(y) <= 1 ? 6 : 0, 6);
  }
  expect(findings[0].message).toContain('from 90 to 6 mm');
});

it('looks at nothing outside the footprint', () => {
  const field = roughGround(3, 19, 10);
  const outline = runPlugin<Heightfield>(crop, field, { outline: OUTLINE }).made;
  const wild = { ...outline, heightsMm: outline.heightsMm.slice() };
  // North-east of the notch no ground hangs on this post.
  const [x, y] = [Math.round((190 - 31) / 20), outline.rows - 1];
  wild.heightsMm[y * outline.columns + x] = 9e5;
  expect(groundRange(wild)).toEqual(groundRange(outline));
  expect(smoothed(wild, { reach: 60 }).made.heightsMm).toEqual(smoothed(outline, { reach: 60 }).made.heightsMm);
});

it('changes nothing when the reach is shorter than a step, and says so; refuses a solid', () => {
  const field = roughGround(8);
  const ran = smoothed(field, { reach: 12 });
  expect(codes(ran)).toEqual(['shape/short-reach']);
  expect(ran.made).toBe(field);
  expect(refusal(() => smoothed(wedge(), { reach: 12 })).code).toBe('shape/solid');
});
