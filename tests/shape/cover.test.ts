import { expect, it } from 'vitest';
import { type Heightfield, heightfield, type Landform } from '../../src/model/landform.ts';
import { cover } from '../../src/shape/cover.ts';
import { crop } from '../../src/shape/crop.ts';
import { roughGround, wedge } from '../help/grounds.ts';
import { codes, refusal, runPlugin } from '../help/plugin-run.ts';

const covered = <T extends Landform>(landform: T, depthMm: number | null = 18, options = {}) =>
  runPlugin<T>(cover, landform, options, {
    facts: { cover: depthMm === null ? null : { material: 'sand', depthMm, densityKgM3: null } },
  });

it('takes the depth off every height, and tells nothing when there is enough', () => {
  const ground = roughGround(2);
  const before = structuredClone(ground);
  const { made, findings } = covered(ground);
  expect(findings).toEqual([]);
  expect(ground).toEqual(before);
  for (let i = 0; i < 63; i++) expect(made.heightsMm[i]).toBeCloseTo(ground.heightsMm[i] - 18, 6);
});

it('never goes below 0, and tells how much ground is thinner than the cover', () => {
  const ground = heightfield(4, 3, 500, 400, Float64Array.from([0, 5, 17, 18, 40, -6, 60, 9, 90, 80, 70, 30]));
  const ran = covered(ground);
  expect([...ran.made.heightsMm]).toEqual([0, 0, 0, 0, 22, -6, 42, 0, 72, 62, 52, 12]);
  expect(codes(ran)).toEqual(['shape/thinner-than-cover']);
  // Three posts above 0 and under 18, each for 0.5 × 0.4 m.
  expect(ran.findings[0].message).toContain('0.6 m²');
});

it('counts only what the ground hangs on', () => {
  const thin = heightfield(4, 3, 500, 400, Float64Array.from([90, 80, 3, 3, 90, 80, 3, 3, 70, 60, 3, 3]));
  const west = runPlugin<Heightfield>(crop, thin, {
    outline: [
      [0, 0],
      [480, 30],
      [460, 800],
      [0, 700],
    ],
  }).made;
  expect(codes(covered(west))).toEqual([]);
});

it('refuses a job without a cover, and a solid', () => {
  expect(refusal(() => covered(roughGround(2), null)).code).toBe('shape/no-cover');
  expect(refusal(() => covered(wedge())).fix).toContain('Model the foam');
});

const square = <T extends Landform>(landform: T, depthMm: number) => covered(landform, depthMm, { measured: 'square' });

it('square to a steep plane takes depth ÷ cosine of the slope off, where straight down takes the depth', () => {
  // 1 up to 1 along: 45°. A level strip round it would be lower; the middle sees the plane alone.
  const bank = heightfield(
    41,
    9,
    10,
    10,
    Float64Array.from({ length: 369 }, (_, i) => 100 + 10 * (i % 41)),
  );
  const { made, findings } = square(bank, 30);
  expect(findings).toEqual([]);
  for (let column = 5; column < 36; column++) {
    expect(bank.heightsMm[4 * 41 + column] - made.heightsMm[4 * 41 + column]).toBeCloseTo(30 * Math.SQRT2, 6);
  }
});

it('square is never less than straight down, and the same on level ground; what is below 0 stays, nothing new goes there', () => {
  const rough = roughGround(12, 15, 11);
  const [down, across] = [covered(rough, 40).made, square(rough, 40).made];
  let less = 0;
  for (let i = 0; i < rough.heightsMm.length; i++) {
    expect(across.heightsMm[i]).toBeLessThanOrEqual(down.heightsMm[i]);
    if (across.heightsMm[i] < down.heightsMm[i] - 1) less++;
  }
  expect(less).toBeGreaterThan(100);
  const level = heightfield(5, 4, 30, 20, new Float64Array(20).fill(77));
  expect([...square(level, 20).made.heightsMm]).toEqual(Array(20).fill(57));
  const sunk = heightfield(4, 3, 500, 400, Float64Array.from([0, 5, 17, 18, 40, -6, 60, 9, 90, 80, 70, 30]));
  const ran = square(sunk, 18);
  expect(Math.min(...ran.made.heightsMm)).toBe(-6);
  expect(codes(ran)).toEqual(['shape/thinner-than-cover']);
});

it('square looks at nothing outside the footprint', () => {
  const pit = heightfield(
    9,
    7,
    20,
    20,
    Float64Array.from({ length: 63 }, (_, i) => (i % 9 > 5 ? 0 : 200)),
  );
  const west = runPlugin<Heightfield>(crop, pit, {
    rectangle: [
      [0, 0],
      [100, 120],
    ],
  }).made;
  expect([...square(west, 50).made.heightsMm]).toEqual(Array(42).fill(150));
});

it('knows two ways to measure', () => {
  expect(() => covered(roughGround(2), 18, { measured: 'sideways' })).toThrow();
});
