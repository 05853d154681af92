import { describe, expect, test } from 'vitest';
import { fitsRectangle, flushRectangles, insideHull } from '../../src/geometry/enclosing.ts';
import { convexHull, extents } from '../../src/geometry/hull.ts';
import { stream } from '../../src/geometry/random.ts';
import { placed } from '../../src/geometry/ring.ts';

function cloud(seed: number): Float64Array {
  const random = stream(seed, 'cloud');
  const n = 3 + Math.floor(40 * random());
  return Float64Array.from({ length: 2 * n }, (_, i) => (i % 2 === 0 ? 1900 : 700) * random());
}

describe('rectangles flush with a hull', () => {
  test.each(Array.from({ length: 100 }, (_, seed) => seed))(
    'are what projecting every point gives, seed %i',
    (seed) => {
      const hull = convexHull([cloud(seed)]);
      const flush = flushRectangles(hull);
      for (let i = 0; i < hull.length; i += 2) {
        const next = (i + 2) % hull.length;
        const [dx, dy] = [hull[next] - hull[i], hull[next + 1] - hull[i + 1]];
        const side = Math.sqrt(dx * dx + dy * dy);
        const [least, most, low, high] = extents(hull, dx / side, dy / side);
        expect(flush[i]).toBeCloseTo(most - least, 6);
        expect(flush[i + 1]).toBeCloseTo(high - low, 6);
      }
    },
  );

  test('a turned board fits itself and none a hair smaller', () => {
    const board = placed(Float64Array.from([0, 0, 1240, 0, 1240, 590, 0, 590]), {
      turnDeg: 33,
      mirrored: false,
      xMm: 7,
      yMm: 3,
    });
    const hull = convexHull([board]);
    const flush = flushRectangles(hull);
    expect(fitsRectangle(hull, flush, 1240.001, 590.001)).toBe(true);
    expect(fitsRectangle(hull, flush, 590.001, 1240.001)).toBe(true);
    expect(fitsRectangle(hull, flush, 1239.9, 590.001)).toBe(false);
    expect(fitsRectangle(hull, flush, 1240.001, 589.9)).toBe(false);
  });
});

test('a point lies in a hull by a margin, or does not', () => {
  const hull = Float64Array.from([0, 0, 90, 0, 90, 40, 0, 40]);
  expect(insideHull(hull, 12, 30)).toBeCloseTo(10, 0);
  expect(insideHull(hull, -1, 30)).toBeLessThan(0);
  expect(insideHull(hull.subarray(0, 4), 45, 0)).toBe(-Infinity);
});
