import { describe, expect, it } from 'vitest';
import { areaOf } from '../../src/geometry/ring.ts';
import { groundOf } from '../../src/model/ground.ts';
import { heightOf } from '../../src/model/ground-height.ts';
import { extent, type Heightfield, heightfield, isWhole, type Landform } from '../../src/model/landform.ts';
import { crop } from '../../src/shape/crop.ts';
import { join } from '../../src/shape/join.ts';
import { planeGround, roughGround, wedge } from '../help/grounds.ts';
import { codes, refusal, runPlugin } from '../help/plugin-run.ts';

const joined = (first: Landform, second: Landform, options: Record<string, unknown> = {}) =>
  runPlugin<Heightfield>(join, first, { with: { any: {} }, ...options }, { others: { with: second } });
const level = (columns: number, rows: number, step: number, height: number) =>
  heightfield(columns, rows, step, step, new Float64Array(columns * rows).fill(height));
const STAR = {
  outline: [
    [13, 11],
    [150, 32],
    [101, 90],
    [140, 200],
    [37, 180],
  ],
};

describe('two grounds on the same posts', () => {
  const [a, b] = [roughGround(1), roughGround(2)];
  it.each(['highest', 'lowest'])('%s: post by post, and the same whichever comes first, to the byte', (take) => {
    const { made, findings } = joined(a, b, { take });
    expect(findings).toEqual([]);
    expect(isWhole(made)).toBe(true);
    const better = take === 'highest' ? Math.max : Math.min;
    for (let i = 0; i < 63; i++) expect(made.heightsMm[i]).toBeCloseTo(better(a.heightsMm[i], b.heightsMm[i]), 6);
    expect(joined(b, a, { take }).made).toEqual(made);
    expect(joined(a, a, { take }).made.heightsMm.every((height, i) => Math.abs(height - a.heightsMm[i]) < 1e-6)).toBe(
      true,
    );
  });

  it('blend lays the second over all of the first that it covers', () => {
    const { made } = joined(a, b, { take: 'blend', width: 50 });
    made.heightsMm.forEach((height, i) => void expect(height).toBeCloseTo(b.heightsMm[i], 6));
  });

  it('a lift raises the second alone', () => {
    const { made } = joined(a, b, { lift: 500 });
    made.heightsMm.forEach((height, i) => void expect(height).toBeCloseTo(b.heightsMm[i] + 500, 6));
  });
});

describe('a second ground that reaches beyond the first', () => {
  const [a, b] = [level(9, 7, 20, 100), level(8, 8, 20, 60)];
  const ran = joined(a, b, { at: [100, -40] });
  it('makes what either covers: areas, heights, posts that stay, corner told', () => {
    // 160 × 120 and 140 × 140, overlapping in 60 × 100.
    expect(areaOf(ran.made.footprint)).toBeCloseTo(160 * 120 + 140 * 140 - 60 * 100, 3);
    expect(extent(ran.made).box).toEqual([0, 0, 240, 160]);
    expect(codes(ran)).toEqual(['shape/new-corner']);
    expect(ran.findings[0].message).toContain('0, -40 mm');
    const at = (x: number, y: number) => heightOf(ran.made, x, y + 40);
    expect([at(10, 10), at(130, 30), at(159, 50), at(230, -30), at(230, 90)]).toEqual([
      100,
      100,
      expect.any(Number),
      60,
      60,
    ]);
  });

  it('the same landform comes of the other order, moved', () => {
    const { made } = joined(b, a, { at: [-100, 40] });
    expect(made.heightsMm).toEqual(ran.made.heightsMm);
    expect(groundOf(made)).toEqual(groundOf(ran.made));
  });

  it('far away both stand, with nothing between', () => {
    const { made } = joined(a, b, { at: [400, 0] });
    expect(made.footprint).toHaveLength(2);
    expect(groundOf(made).volumeMm3).toBeCloseTo(160 * 120 * 100 + 140 * 140 * 60, 0);
  });
});

describe('grounds with other posts', () => {
  it('a plane in a plane stays one, its posts as close as the closer ones', () => {
    const plane = planeGround(9, 7);
    // The same plane from (40, 70) on, at posts 7 × 9 mm apart.
    const second = heightfield(
      9,
      9,
      7,
      9,
      Float64Array.from(
        { length: 81 },
        (_, i) => 40 + 3 * ((40 + (i % 9) * 7) / 20) - 1.5 * ((70 + Math.floor(i / 9) * 9) / 35),
      ),
    );
    for (const options of [{ take: 'highest' }, { take: 'lowest' }, { take: 'blend', width: 15 }]) {
      const { made, findings } = joined(plane, second, { at: [40, 70], ...options });
      expect(findings.map(({ code }) => code)).toEqual(['shape/closer-posts']);
      expect([made.stepXMm, made.stepYMm]).toEqual([20 / 3, 35 / 4]);
      expect(groundOf(made).volumeMm3 / groundOf(plane).volumeMm3).toBeCloseTo(1, 9);
      expect(groundOf(made).surfaceAreaMm2 / groundOf(plane).surfaceAreaMm2).toBeCloseTo(1, 9);
    }
  });

  it('highest is nowhere lower than either at its posts', () => {
    const [a, b] = [roughGround(3), roughGround(4, 12, 5)];
    const { made } = joined(a, b, { at: [31, 44] });
    for (let i = 0; i < made.heightsMm.length; i++) {
      const [x, y] = [(i % made.columns) * made.stepXMm, Math.floor(i / made.columns) * made.stepYMm];
      if (x <= 160 && y <= 210) expect(made.heightsMm[i]).toBeGreaterThanOrEqual(heightOf(a, x, y) - 1e-6);
      if (x >= 31 && x <= 251 && y >= 44 && y <= 184)
        expect(made.heightsMm[i]).toBeGreaterThanOrEqual(heightOf(b, x - 31, y - 44) - 1e-6);
    }
  });
});

describe('blend', () => {
  const [a, b] = [level(61, 51, 10, 100), level(31, 21, 10, 40)];
  const { made } = joined(a, b, { at: [150, 150], take: 'blend', width: 60 });
  it('leads from the first at the edge of the second to all of it within the width, without a step', () => {
    const along = (x: number) => heightOf(made, x, 250);
    expect([along(100), along(150), along(180), along(210), along(300), along(450)]).toEqual(
      [100, 100, 70, 40, 40, 100].map((height) => expect.closeTo(height, 6)),
    );
    for (let i = 1; i < made.heightsMm.length; i++)
      if (i % 61 > 0)
        expect(Math.abs(made.heightsMm[i] - made.heightsMm[i - 1])).toBeLessThan((60 * 1.5 * 10) / 60 + 1e-6);
  });

  it('leaves no step either where the first ends within the second', () => {
    const ran = joined(level(21, 21, 10, 100), level(41, 11, 10, 40), { at: [100, 50], take: 'blend', width: 50 });
    const steps = Array.from({ length: 40 }, (_, k) =>
      Math.abs(heightOf(ran.made, 110 + k * 10, 100) - heightOf(ran.made, 100 + k * 10, 100)),
    );
    expect(Math.max(...steps)).toBeLessThan((60 * 1.5 * 10) / 50 + 1e-6);
    expect(heightOf(ran.made, 300, 100)).toBeCloseTo(40, 6);
  });
});

describe('grounds with outlines', () => {
  const star = runPlugin<Heightfield>(crop, roughGround(6), STAR).made;
  it('a star within a rectangle changes nothing outside itself, and keeps its own heights inside', () => {
    const low = level(30, 30, 10, 5);
    const { made } = joined(low, star, { at: [60, 50] });
    expect(isWhole(made)).toBe(true);
    const stars = groundOf(star);
    // Ground between the posts inside and those outside the star leads from one to the other: a cell around it.
    const wanted = stars.volumeMm3 + 5 * (290 * 290 - stars.planAreaMm2);
    expect(Math.abs(groundOf(made).volumeMm3 / wanted - 1)).toBeLessThan(0.05);
    expect(heightOf(made, 10, 10)).toBe(5);
    expect(made.heightsMm.every(Number.isFinite)).toBe(true);
  });

  it('cut between posts, beside a rectangle: finite, the area that both cover, no post beyond the range', () => {
    const { made } = joined(star, level(9, 8, 17, 80), { at: [-33.3, 40.7] });
    expect(made.heightsMm.every(Number.isFinite)).toBe(true);
    const [, , width, depth] = extent(made).box;
    expect(width).toBeCloseTo(extent(star).box[2] + 33.3, 3);
    expect(depth).toBeGreaterThan(150);
    for (const axis of [0, 1]) {
      expect(made.originMm[axis]).toBeLessThanOrEqual(0);
      expect(made.originMm[axis]).toBeGreaterThan(-Math.max(made.stepXMm, made.stepYMm));
    }
    const most = Math.max(extent(star).highMm, 80);
    expect(extent(made).highMm).toBeLessThanOrEqual(most + 1e-6);
  });
});

it('refuses solids, grounds too far apart, and a blend without a width', () => {
  const field = planeGround(9, 7);
  const first = refusal(() => joined(wedge(), field));
  expect([first.code, first.where.path]).toEqual(['shape/solid', 'shape.join']);
  const second = refusal(() => joined(field, wedge()));
  expect([second.code, second.where.path]).toEqual(['shape/solid', 'shape.join.with']);
  const far = refusal(() => joined(field, field, { at: [9e7, 9e7] }));
  expect([far.code, far.where.path]).toEqual(['shape/too-many-posts', 'shape.join']);
  for (const options of [{ take: 'blend' }, { width: 5 }, { take: 'both' }, { with: 5 }, { with: undefined }])
    expect(() => joined(field, field, options)).toThrow();
});
