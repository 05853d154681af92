import { expect, it } from 'vitest';
import { type Heightfield, heightfield, type Landform } from '../../src/model/landform.ts';
import { cover } from '../../src/shape/cover.ts';
import { crop } from '../../src/shape/crop.ts';
import { roughGround, wedge } from '../help/grounds.ts';
import { codes, refusal, runPlugin } from '../help/plugin-run.ts';

const covered = <T extends Landform>(landform: T, depthMm: number | null = 18) =>
  runPlugin<T>(
    cover,
    landform,
    {},
    { facts: { cover: depthMm === null ? null : { material: 'sand', depthMm, densityKgM3: null } } },
  );

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
