import { describe, expect, test } from 'vitest';
import { turn } from '../../src/geometry/exact-math.ts';
import { convexHull, diameter, extents, roomiestTurn, smallestRectangle } from '../../src/geometry/hull.ts';
import { stream } from '../../src/geometry/random.ts';
import { placed, rectangle, ringArea } from '../../src/geometry/ring.ts';

const cloud = (seed: number, count = 40) => {
  const random = stream(seed, 'cloud');
  return Float64Array.from({ length: 2 * count }, (_, i) =>
    Math.round((i % 2 === 0 ? 900 : 370) * random() * random()),
  );
};
const SEEDS = [1, 2, 3, 4, 5, 6, 7, 8];

describe('convex hull', () => {
  test.each(SEEDS)('turns left at every point and holds all points, seed %i', (seed) => {
    const points = cloud(seed);
    const hull = convexHull([points.subarray(0, 30), points.subarray(30)]);
    for (let i = 0; i < hull.length; i += 2) {
      const [x0, y0] = [hull[i], hull[i + 1]];
      const [x1, y1] = [hull[(i + 2) % hull.length], hull[(i + 3) % hull.length]];
      const [x2, y2] = [hull[(i + 4) % hull.length], hull[(i + 5) % hull.length]];
      expect((x1 - x0) * (y2 - y1) - (y1 - y0) * (x2 - x1)).toBeGreaterThan(0);
      for (let j = 0; j < points.length; j += 2) {
        expect((x1 - x0) * (points[j + 1] - y0) - (y1 - y0) * (points[j] - x0)).toBeGreaterThanOrEqual(0);
      }
    }
  });

  test('of points on a line, of one point and of none', () => {
    expect([...convexHull([new Float64Array([3, 1, 5, 2, 9, 4, 7, 3])])]).toEqual([3, 1, 9, 4]);
    expect(convexHull([new Float64Array([3, 1, 3, 1])]).length).toBeLessThanOrEqual(2);
    expect(convexHull([]).length).toBe(0);
  });
});

describe('smallest rectangle', () => {
  test.each(SEEDS)('is no larger than the box at any turn, and holds the hull, seed %i', (seed) => {
    const hull = convexHull([cloud(seed)]);
    const { long, short, directionDeg } = smallestRectangle(hull);
    const { cos, sin } = turn(directionDeg);
    const [least, most, low, high] = extents(hull, cos, sin);
    expect(most - least).toBeCloseTo(long, 6);
    expect(high - low).toBeCloseTo(short, 6);
    for (let deg = 0; deg < 180; deg += 0.7) {
      const at = turn(deg);
      const [l, m, lo, hi] = extents(hull, at.cos, at.sin);
      expect((m - l) * (hi - lo)).toBeGreaterThanOrEqual(long * short * (1 - 1e-12));
    }
    expect(long * short).toBeGreaterThanOrEqual(ringArea(hull));
  });

  test('of a turned rectangle is the rectangle', () => {
    const leaning = placed(rectangle(0, 0, 640, 210), { turnDeg: 33.3, mirrored: false, xMm: 17, yMm: -5 });
    const found = smallestRectangle(convexHull([leaning]));
    expect(found.long).toBeCloseTo(640, 9);
    expect(found.short).toBeCloseTo(210, 9);
    expect(found.directionDeg).toBeCloseTo(33.3, 9);
  });
});

test.each(SEEDS)('diameter: no two points of the cloud are further apart, seed %i', (seed) => {
  const points = cloud(seed);
  let most = 0;
  for (let i = 0; i < points.length; i += 2)
    for (let j = 0; j < i; j += 2)
      most = Math.max(most, Math.hypot(points[i] - points[j], points[i + 1] - points[j + 1]));
  expect(diameter(convexHull([points]))).toBeCloseTo(most, 9);
});

describe('roomiest turn', () => {
  test('finds a bar its place across a rectangle, where neither side takes it', () => {
    const bar = rectangle(3, 5, 1293, 45);
    const { turnDeg, room } = roomiestTurn(bar, 1110, 820);
    expect(room).toBeGreaterThan(0);
    const { cos, sin } = turn(-turnDeg);
    const [least, most, low, high] = extents(bar, cos, sin);
    expect(most - least).toBeLessThanOrEqual(1110);
    expect(high - low).toBeLessThanOrEqual(820);
  });

  test('keeps an exact fit at a quarter turn, and says by how much the rest stick out', () => {
    expect(roomiestTurn(rectangle(7, 7, 317, 217), 210, 310)).toEqual({ turnDeg: 90, room: 0 });
    expect(roomiestTurn(rectangle(0, 0, 900, 890), 310, 210).room).toBeLessThan(-580);
  });
});
