import { describe, expect, test } from 'vitest';
import { stream } from '../../src/geometry/random.ts';
import { Triangulation } from '../../src/geometry/triangulation.ts';
import { orient } from '../../src/geometry/whole.ts';

/** Points strewn over a wide plan, some of them in line. */
function strewn(seed: number, count: number) {
  const next = stream(seed, 'triangulation');
  const x = Float64Array.from({ length: count }, (_, i) => (i % 9 === 0 ? 1000 * i : Math.round(4e6 * next())));
  const y = Float64Array.from({ length: count }, (_, i) => (i % 9 === 0 ? 17 : Math.round(18 + 3e6 * next())));
  return { x, y };
}

const crosses = (x: Float64Array, y: Float64Array, a: number, b: number, c: number, d: number) =>
  new Set([a, b, c, d]).size === 4 &&
  Math.sign(orient(x[a], y[a], x[b], y[b], x[c], y[c])) * Math.sign(orient(x[a], y[a], x[b], y[b], x[d], y[d])) < 0 &&
  Math.sign(orient(x[c], y[c], x[d], y[d], x[a], y[a])) * Math.sign(orient(x[c], y[c], x[d], y[d], x[b], y[b])) < 0;

const areaOf = ({ triangles }: Triangulation, x: Float64Array, y: Float64Array) => {
  let sum = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = triangles.subarray(t, t + 3);
    const twice = orient(x[a], y[a], x[b], y[b], x[c], y[c]);
    expect(twice).toBeGreaterThan(0);
    sum += twice;
  }
  return sum;
};

describe.each([1, 2, 3, 4, 5, 6])('strewn points, seed %i', (seed) => {
  const { x, y } = strewn(seed, 90);
  const triangulation = new Triangulation(x, y);
  const before = areaOf(triangulation, x, y);
  const next = stream(seed, 'edges');
  const kept: [number, number][] = [];
  for (let i = 0; i < 40; i++) {
    const [a, b] = [Math.floor(90 * next()), Math.floor(90 * next())];
    const isInWay = kept.some(([c, d]) => crosses(x, y, a, b, c, d));
    if (a !== b && triangulation.fix(a, b)) {
      test(`${a}–${b} crosses none that stays`, () => expect(isInWay).toBe(false));
      kept.push([a, b]);
    }
  }

  test('all edges put in are in it, and turning others keeps them', () => {
    expect(kept.length).toBeGreaterThan(10);
    for (let e = 0; e < triangulation.triangles.length; e++) triangulation.turn(e);
    for (const [a, b] of kept) {
      expect(triangulation.isFixed(a, b)).toBe(true);
      expect(triangulation.isFixed(b, a)).toBe(true);
    }
  });

  test('its triangles still run counter-clockwise and cover the same', () => {
    expect(areaOf(triangulation, x, y)).toBe(before);
    const { triangles, twins } = triangulation;
    for (let e = 0; e < triangles.length; e++) if (twins[e] >= 0) expect(twins[twins[e]]).toBe(e);
  });
});

test('corners seen from a point, both ways round, up to an edge that stays', () => {
  // A lopsided wheel about (0, 0), its spokes to 1 … 6 counter-clockwise.
  const x = Float64Array.of(0, 50, 31, -20, -55, -18, 22);
  const y = Float64Array.of(0, 3, 40, 47, -6, -44, -39);
  const wheel = new Triangulation(x, y);
  for (const [a, b] of [
    [0, 1],
    [0, 4],
  ])
    expect(wheel.fix(a, b)).toBe(true);
  expect(wheel.cornersAfter(0, 1)).toEqual([2, 3, 4]);
  expect(wheel.cornersBefore(0, 1)).toEqual([6, 5, 4]);
});

test('an edge through a third point is not taken', () => {
  const row = new Triangulation(Float64Array.of(0, 7, 20, 9), Float64Array.of(0, 0, 0, 11));
  expect(row.fix(0, 2)).toBe(false);
});
