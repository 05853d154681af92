import { describe, expect, test } from 'vitest';
import { arrange } from '../../src/geometry/arrange.ts';
import { contours, type Posts } from '../../src/geometry/contour.ts';
import { regionsOfPosts } from '../../src/geometry/outline-regions.ts';
import { stream } from '../../src/geometry/random.ts';
import type { Region } from '../../src/geometry/ring.ts';
import { toWhole } from '../../src/geometry/whole.ts';

/** Grounds that are hard on rounding, on nesting, or on both. Levels that many of their posts lie on, or near. */
const GROUNDS: Record<
  string,
  { height: (next: () => number, column: number, row: number) => number; levels: number[] }
> = {
  'any heights': { height: (next) => 10 * next(), levels: [0.3, 1.5, 4.4, 9.1] },
  'whole heights, on the levels': { height: (next) => Math.floor(4 * next()), levels: [1, 1.5, 2, 3] },
  'a chequerboard': { height: (_, column, row) => 3 * ((column + row) % 2), levels: [0, 1, 1.5, 3] },
  'all equal': { height: () => 2, levels: [1, 2, 2.0000001] },
  'a hair over whole heights': { height: (next) => Math.floor(3 * next()) + 1e-4 * next(), levels: [1, 1.00005, 2] },
  'a hair about the level': { height: (next) => 2 + 1e-6 * (next() - 0.5) + Math.floor(1.2 * next()), levels: [2, 3] },
  'a kilometre high': { height: (next) => 1e6 * next(), levels: [123456.7, 500000, 999000] },
};

/** Rings, holes and regions in any order: where two begin on one height the order is either's. */
const sorted = (regions: readonly Region[]): string =>
  regions
    .map(([outer, ...holes]) => [outer.join(), ...holes.map((hole) => hole.join()).sort()].join(' less '))
    .sort()
    .join('\n');

describe.each(Object.entries(GROUNDS))('%s', (name, { height, levels }) => {
  test.each([
    [14, 11, 5, 7.1],
    [2, 17, 2.7, 3],
    [19, 2, 20, 20],
    [9, 12, 0.05, 0.06],
    [7, 8, 0.004, 0.009],
  ])('%i × %i posts, %f × %f apart: what looking at every edge gives', (columns, rows, stepX, stepY) => {
    let regions = 0;
    for (let seed = 1; seed <= 12; seed++) {
      const next = stream(seed, name, columns);
      const heights = Array.from({ length: columns * rows }, (_, i) =>
        height(next, i % columns, Math.floor(i / columns)),
      );
      const values = seed % 3 === 0 ? Float32Array.from(heights) : Float64Array.from(heights);
      const posts: Posts = { columns, rows, stepX, stepY, originX: seed % 2 === 0 ? 0 : -1.234, originY: 0, values };
      const rings = contours(posts);
      const at = regionsOfPosts(posts);
      for (const level of levels) {
        for (const rule of ['above', 'at least'] as const) {
          const found = at(level, rule);
          regions += found.length;
          expect(sorted(found)).toBe(sorted(arrange(toWhole(rings(level, rule)))));
        }
      }
    }
    expect(regions).toBeGreaterThan(0);
  });
});

test('an outline stays as it was when another level has been asked for', () => {
  const next = stream(4, 'again');
  const values = Float64Array.from({ length: 12 * 9 }, () => 10 * next());
  const at = regionsOfPosts({ columns: 12, rows: 9, stepX: 6, stepY: 5, originX: 0, originY: 0, values });
  const first = at(4.5, 'above');
  const copy = structuredClone(first);
  at(6.5, 'above');
  expect(first).toEqual(copy);
  expect(at(4.5, 'above')).toEqual(copy);
});

test('one row of posts has no ground', () => {
  const posts = {
    columns: 3,
    rows: 1,
    stepX: 1,
    stepY: 1,
    originX: 0,
    originY: 0,
    values: new Float64Array(3).fill(9),
  };
  expect(regionsOfPosts(posts)(1, 'above')).toEqual([]);
});
