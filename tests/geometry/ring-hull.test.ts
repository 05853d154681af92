import { describe, expect, test } from 'vitest';
import { convexHull } from '../../src/geometry/hull.ts';
import { stream } from '../../src/geometry/random.ts';
import { reversed } from '../../src/geometry/ring.ts';
import { ringHull } from '../../src/geometry/ring-hull.ts';

/** A star-shaped outline with deep bays, on the grid, its first point anywhere. */
function bays(seed: number): Float64Array {
  const random = stream(seed, 'bays');
  const n = 5 + Math.floor(60 * random());
  const points: number[] = [];
  for (let i = 0; i < n; i++) {
    const angle = (2 * Math.PI * (i + 0.8 * random())) / n;
    const radius = 300 + 900 * random();
    points.push(Math.round(1000 * (700 + radius * Math.cos(angle))) / 1000, Math.round(radius * Math.sin(angle)) / 1);
  }
  return Float64Array.from(points);
}

describe('hull of a ring', () => {
  test.each(Array.from({ length: 200 }, (_, seed) => seed))(
    'is the hull of its points, whichever way it runs, seed %i',
    (seed) => {
      const ring = bays(seed);
      expect(ringHull(ring)).toEqual(convexHull([ring]));
      expect(ringHull(reversed(ring))).toEqual(convexHull([ring]));
    },
  );

  test('points on straight sides, and a straight run at the start, leave no corner', () => {
    const ring = Float64Array.from([30, 0, 70, 0, 110, 0, 110, 25, 110, 60, 40, 60, 10, 33, 0, 0, 10, 0]);
    expect([...ringHull(ring)]).toEqual([0, 0, 110, 0, 110, 60, 40, 60, 10, 33]);
  });

  test('an outline that touches itself at a point has the hull of all of it', () => {
    const ring = Float64Array.from([0, 0, 40, 10, 90, -5, 70, 60, 40, 10, 20, 50]);
    expect(ringHull(ring)).toEqual(convexHull([ring]));
  });

  test('a line has fewer than three points', () => {
    expect(ringHull(Float64Array.from([0, 0, 10, 5, 30, 15])).length).toBeLessThan(6);
  });
});
