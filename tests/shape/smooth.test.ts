import { describe, expect, it } from 'vitest';
import { cos } from '../../src/geometry/exact-math.ts';
import { groundOf, groundRange } from '../../src/model/ground.ts';
import { type Heightfield, heightfield, type Landform } from '../../src/model/landform.ts';
import { crop } from '../../src/shape/crop.ts';
import { fitLines } from '../../src/shape/smooth/lines.ts';
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

describe('keeps summits', () => {
  const form = (at: (x: number, y: number) => number) =>
    heightfield(
      31,
      25,
      20,
      35,
      Float64Array.from({ length: 31 * 25 }, (_, i) => at((i % 31) * 20, Math.floor(i / 31) * 35)),
    );

  it.each<[string, (x: number, y: number) => number]>([
    ['a paraboloid', (x, y) => 400 - ((x - 287) * (x - 287)) / 900 - ((y - 431) * (y - 431)) / 2500],
    ['a saddle askew', (x, y) => 300 + ((x - 300) * (y - 400)) / 900 - ((x - 210) * (x - 210)) / 1500],
    ['a third power', (x, y) => 200 + ((x - 300) / 90) * ((x - 300) / 90) * ((x - 300) / 90) + y / 9],
  ])('%s stays what it is, to a ten-millionth of a millimetre', (_, at) => {
    const ground = form(at);
    for (const reach of [75, 180]) {
      const { made } = smoothed(ground, { reach });
      for (let i = 0; i < made.heightsMm.length; i++)
        expect(Math.abs(made.heightsMm[i] - ground.heightsMm[i])).toBeLessThan(2e-7);
    }
  });

  it('a dome of a quarter wave as wide as the reach is lowered by less than a hundredth', () => {
    const dome = form((x, y) => 20 + 200 * cos((x - 300) / 180) * cos((y - 420) / 260));
    const { made, findings } = smoothed(dome, { reach: 140 });
    expect(groundRange(dome).highMm - groundRange(made).highMm).toBeLessThan(2);
    expect(findings[0].message).toMatch(/^Smoothing takes the highest ground from 220 to 2(19|18|20)/);
  });

  it('flat ground beside a cliff stays exactly flat, and no height passes its neighbours within reach', () => {
    const cliff = form((x) => (x < 290 ? 150 : 50));
    const { made } = smoothed(cliff, { reach: 100 });
    expect(groundRange(made)).toMatchObject({ lowMm: 50, highMm: 150 });
    for (let i = 0; i < made.heightsMm.length; i++) {
      const column = i % 31;
      if (Math.abs(column - 14.5) > 16) expect(made.heightsMm[i]).toBe(cliff.heightsMm[i]);
    }
  });

  // A. Savitzky, M. J. E. Golay, Analytical Chemistry 36 (1964) 1627, table I: quadratic and cubic smoothing, 5, 7 and 9 points.
  it.each([
    [2, 35, [17, 12, -3]],
    [3, 21, [7, 6, 3, -2]],
    [4, 231, [59, 54, 39, 14, -21]],
  ])('weighs %i posts to either side as the published table does', (reach, sum, weights) => {
    const rough = roughGround(21, 40, 2);
    const values = Float64Array.from(rough.heightsMm);
    const lines = { count: 2, from: 40, length: 40, step: 1 };
    const fitted = fitLines(values, null, lines, reach);
    let kept = 0;
    for (let line = 0; line < 2; line++) {
      for (let i = reach; i < 40 - reach; i++) {
        const around = [...values.slice(line * 40 + i - reach, line * 40 + i + reach + 1)];
        const wanted = around.reduce((total, value, k) => total + value * weights[Math.abs(k - reach)], 0) / sum;
        const within = Math.max(Math.min(...around), Math.min(Math.max(...around), wanted));
        if (within === wanted) kept++;
        expect(fitted[line * 40 + i]).toBeCloseTo(within, 9);
      }
    }
    expect(kept).toBeGreaterThan(40);
  });

  it('long runs in many blocks weigh as short ones do', () => {
    const n = 1000;
    const values = Float64Array.from(roughGround(2, n, 2).heightsMm.subarray(0, n), (height) => 1e6 + height);
    const fitted = fitLines(values, null, { count: 1, from: n, length: n, step: 1 }, 9);
    for (const i of [9, 63, 64, 65, 500, 990]) {
      const part = fitLines(values.slice(i - 9, i + 10), null, { count: 1, from: 19, length: 19, step: 1 }, 9);
      expect(fitted[i]).toBeCloseTo(part[9], 7);
    }
  });
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

it('changes nothing when the reach is shorter than two steps, and says so; refuses a solid', () => {
  const field = roughGround(8);
  const ran = smoothed(field, { reach: 39 });
  expect(codes(ran)).toEqual(['shape/short-reach']);
  expect(ran.made).toBe(field);
  expect(refusal(() => smoothed(wedge(), { reach: 12 })).code).toBe('shape/solid');
});
