/** Upright lines through solids: worked by hand, and against sections taken on the level and the heights of posts. */
import { describe, expect, test } from 'vitest';
import { plumbs } from '../../src/geometry/plumb.ts';
import { stream } from '../../src/geometry/random.ts';
import { isInside } from '../../src/geometry/ring.ts';
import { sections } from '../../src/geometry/sections.ts';
import { heightOf } from '../../src/model/ground-height.ts';
import { heightfield, type Solid } from '../../src/model/landform.ts';
import { walkNow } from '../../src/walk.ts';
import { fieldSolid, MUSHROOM, prism, together } from '../help/solids.ts';

const through = ({ positionsMm, triangles }: Solid, points: readonly (readonly [number, number])[]) =>
  plumbs({ positions: positionsMm, triangles }, points);
const box = (x: number, y: number, low: number, high: number) =>
  prism(
    [
      [x, y],
      [x + 30, y],
      [x + 30, y + 20],
      [x, y + 20],
    ],
    low,
    high,
  );

test('bodies apart, one over the other, overlapping and touching: where the line is inside any', () => {
  const stacked = together(box(0, 0, 0, 10), box(5, 0, 25, 40), box(10, 0, 35, 60), box(15, 0, 60, 71));
  expect(
    through(stacked, [
      [3, 7],
      [7, 7],
      [12, 7],
      [17, 7],
      [33, 7],
      [100, 7],
      [3, 30],
    ]),
  ).toEqual([[0, 10], [0, 10, 25, 40], [0, 10, 25, 60], [0, 10, 25, 71], [25, 71], [], []]);
  expect(through(stacked, [])).toEqual([]);
});

test('lines through corners and edges pass once', () => {
  const field = heightfield(4, 3, 10, 10, Float64Array.of(5, 9, 4, 7, 8, 6, 9, 5, 4, 8, 7, 6));
  for (const runs of through(fieldSolid(field), [
    [10, 10],
    [20, 10],
    [10, 5],
    [15, 15],
    [5, 10],
    [25, 5],
  ])) {
    expect(runs.length).toBe(2);
  }
});

describe('random lines', () => {
  const random = stream(7, 'plumb');
  test('through posts end at the ground', () => {
    const field = heightfield(
      9,
      7,
      13,
      17,
      Float64Array.from({ length: 63 }, () => 20 + 30 * random()),
    );
    const points = Array.from({ length: 300 }, () => [104 * random(), 102 * random()] as const);
    for (const [i, runs] of through(fieldSolid(field), points).entries()) {
      expect(runs.length).toBe(2);
      expect(runs[0]).toBeCloseTo(0, 9);
      expect(runs[1]).toBeCloseTo(heightOf(field, ...points[i]), 9);
    }
  });

  test('through a mushroom are inside where its sections are', () => {
    const points = Array.from({ length: 400 }, () => [2 + 70 * random(), 6 + 70 * random()] as const);
    const levels = [3.3, 20.1, 29.7, 40.9, 52.2];
    const cut = walkNow(sections({ positions: MUSHROOM.positionsMm, triangles: MUSHROOM.triangles }, levels, 'above'));
    const lines = through(MUSHROOM, points);
    let inside = 0;
    for (const [k, z] of levels.entries()) {
      for (const [i, [x, y]] of points.entries()) {
        const isIn = lines[i].some((from, at) => at % 2 === 0 && from < z && lines[i][at + 1] > z);
        expect(isIn, `${x} ${y} at ${z}`).toBe(isInside(x, y, [cut[k]]));
        if (isIn) inside++;
      }
    }
    expect(inside).toBeGreaterThan(200);
  });
});
