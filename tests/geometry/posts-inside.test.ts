import { describe, expect, it } from 'vitest';
import { distancesFromLines, lineAround } from '../../src/geometry/line-distance.ts';
import { postsInside } from '../../src/geometry/posts-inside.ts';
import { stream } from '../../src/geometry/random.ts';
import { distanceToRings, isInside, rectangle, reversed } from '../../src/geometry/ring.ts';
import { starRing } from '../help/star-rings.ts';

const GRID = { across: 30, up: 19, stepX: 7, stepY: 11, originX: -3.5, originY: -2 };
const posts = Array.from({ length: 31 * 20 }, (_, i) => [-3.5 + (i % 31) * 7, -2 + Math.floor(i / 31) * 11] as const);

describe('posts in regions', () => {
  it.each([1, 2, 3, 4])('are those that the even-odd rule finds, edges counted in: star %i with a hole', (seed) => {
    const random = stream(seed, 'star');
    const outer = starRing(random, 90, 100, 40, 95, 24);
    const region = [outer, reversed(starRing(random, 90, 100, 12, 25, 12))];
    const found = postsInside([region], GRID, 0.001);
    posts.forEach(([x, y], i) => {
      if (distanceToRings(x, y, region) > 0.01) expect(found[i] === 1, `${x}, ${y}`).toBe(isInside(x, y, [region]));
    });
  });

  it('on an edge, and at a corner, count as inside, whichever way the edge runs', () => {
    const found = postsInside([[rectangle(3.5, 9, 17.5, 31)]], GRID, 0.001);
    const wanted = posts.map(([x, y]) => (x >= 3.5 && x <= 17.5 && y >= 9 && y <= 31 ? 1 : 0));
    expect([...found]).toEqual(wanted);
  });
});

describe('distances from lines', () => {
  it('are those to the nearest segment within reach, and Infinity beyond', () => {
    const ring = starRing(stream(9, 'star'), 90, 100, 40, 95, 24);
    const found = distancesFromLines([lineAround(ring)], GRID, 12);
    posts.forEach(([x, y], i) => {
      const wanted = distanceToRings(x, y, [ring]);
      if (Math.abs(wanted - 12) > 1e-9) expect(found[i]).toBeCloseTo(wanted <= 12 ? wanted : Infinity, 9);
    });
    expect(found.some((each) => each === Infinity) && found.some((each) => each < 12)).toBe(true);
  });
});
