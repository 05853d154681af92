import { describe, expect, it } from 'vitest';
import { distanceToRings, isInRing } from '../../src/geometry/ring.ts';
import { heightOf } from '../../src/model/ground-height.ts';
import type { Heightfield } from '../../src/model/landform.ts';
import { crop } from '../../src/shape/crop.ts';
import { flatten } from '../../src/shape/flatten.ts';
import { planeGround, roughGround, wedge } from '../help/grounds.ts';
import { codes, refusal, runPlugin } from '../help/plugin-run.ts';

const OUTLINE = [
  [61, 70],
  [190, 95],
  [230, 240],
  [150, 180],
  [80, 260],
];
const RING = Float64Array.from(OUTLINE.flat());
const flattened = (field: Heightfield, options: Record<string, unknown>) =>
  runPlugin<Heightfield>(flatten, field, options);
const postAt = (field: Heightfield, i: number) =>
  [
    field.originMm[0] + (i % field.columns) * field.stepXMm,
    field.originMm[1] + Math.floor(i / field.columns) * field.stepYMm,
  ] as const;

describe('ground brought to a level', () => {
  const rough = roughGround(8, 19, 12);
  const { made } = flattened(rough, { outline: OUTLINE, level: 71.3, ramp: 60 });

  it('is exactly level everywhere inside, between the posts too', () => {
    let inside = 0;
    for (let x = 0.5; x < 360; x += 7.3) {
      for (let y = 0.5; y < 385; y += 8.9) {
        if (!isInRing(x, y, RING)) continue;
        inside++;
        expect(heightOf(made, x, y)).toBeCloseTo(71.3, 10);
      }
    }
    expect(inside).toBeGreaterThan(200);
  });

  it('is untouched beyond the ramp and a cell, and lies between level and ground on the ramp', () => {
    let far = 0;
    for (let i = 0; i < rough.heightsMm.length; i++) {
      const [x, y] = postAt(rough, i);
      const [low, high] = [rough.heightsMm[i], 71.3].sort((a, b) => a - b);
      expect(made.heightsMm[i]).toBeGreaterThanOrEqual(low - 1e-6);
      expect(made.heightsMm[i]).toBeLessThanOrEqual(high + 1e-6);
      if (isInRing(x, y, RING) || distanceToRings(x, y, [RING]) < 60) continue;
      far++;
      expect(made.heightsMm[i]).toBeCloseTo(rough.heightsMm[i], 6);
    }
    expect(far).toBeGreaterThan(80);
  });

  it('either way round, and flattened twice, is the same', () => {
    const again = flattened(rough, { outline: [...OUTLINE].reverse(), level: 71.3, ramp: 60 }).made;
    expect(again.heightsMm).toEqual(made.heightsMm);
    const hard = flattened(rough, { outline: OUTLINE, level: 71.3 }).made;
    expect(flattened(hard, { outline: OUTLINE, level: 71.3 }).made.heightsMm).toEqual(hard.heightsMm);
  });
});

it('on a plane the ramp leads evenly into the level, and the note tells what is dug and built', () => {
  const level = { ...planeGround(40, 12), heightsMm: new Float64Array(480).fill(100) };
  const ran = flattened(level, {
    outline: [
      [0, 0],
      [200, 0],
      [200, 385],
      [0, 385],
    ],
    level: 40,
    ramp: 200,
  });
  const row = ran.made.heightsMm.subarray(5 * 40, 6 * 40);
  for (let column = 0; column < 40; column++) {
    const wanted = Math.max(40, Math.min(100, 40 + (60 * (column * 20 - 200)) / 200));
    expect(row[column]).toBeCloseTo(wanted, 6);
  }
  expect(codes(ran)).toEqual(['shape/flattened']);
  expect(ran.findings[0].message).toContain('dug in by up to 60 mm, built up by up to 0 mm');
});

it('works in the coordinates of ground cut between posts, and keeps its footprint', () => {
  const cut = runPlugin<Heightfield>(crop, roughGround(8, 19, 12), {
    rectangle: [
      [33, 41],
      [321, 350],
    ],
  }).made;
  expect(cut.originMm[0]).toBeLessThan(0);
  const { made } = flattened(cut, { outline: OUTLINE, level: 90, ramp: 20 });
  expect(made.footprint).toBe(cut.footprint);
  expect(heightOf(made, 120, 130)).toBeCloseTo(90, 10);
  expect(heightOf(made, 62, 71)).toBeCloseTo(90, 10);
});

it('refuses what it cannot flatten, each with its place', () => {
  const field = planeGround(9, 7);
  const fault = (options: Record<string, unknown>) => {
    const { code, where } = refusal(() => flattened(field, { level: 5, ...options }));
    return [code, where.path];
  };
  expect(fault({ outline: OUTLINE.map(([x, y]) => [x + 900, y]) })).toEqual(['shape/outside', 'shape.flatten.outline']);
  expect(
    fault({
      outline: [
        [0, 0],
        [50, 50],
        [50, 0],
        [0, 50],
      ],
    }),
  ).toEqual(['shape/crossing', 'shape.flatten.outline']);
  expect(
    fault({
      outline: [
        [0, 0],
        [50, 0],
        [50, 0],
      ],
    }),
  ).toEqual(['shape/no-area', 'shape.flatten']);
  const solid = refusal(() => runPlugin(flatten, wedge(), { outline: OUTLINE, level: 5 }));
  expect([solid.code, solid.where.path]).toEqual(['shape/solid', 'shape.flatten']);
  for (const options of [
    { outline: OUTLINE },
    { level: 5 },
    { outline: OUTLINE.slice(3), level: 5 },
    { outline: OUTLINE, level: 5, ramp: -1 },
  ])
    expect(() => flattened(field, options)).toThrow();
});
