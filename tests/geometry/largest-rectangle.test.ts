import { describe, expect, test } from 'vitest';
import { intersect, offset, subtract } from '../../src/geometry/clip.ts';
import { largestRectangle } from '../../src/geometry/largest-rectangle.ts';
import { stream } from '../../src/geometry/random.ts';
import { areaOf, type Box, type Ring, rectangle, reversed } from '../../src/geometry/ring.ts';
import { lopsided } from '../help/nesting.ts';

const area = (box: Box | null) => (box ? (box[2] - box[0]) * (box[3] - box[1]) : 0);

describe('the largest rectangle found', () => {
  test('all of a rectangle, off the raster and off the origin', () => {
    expect(largestRectangle([rectangle(31.007, -17.3, 541.002, 94.811)])).toEqual([31.007, -17.3, 541.002, 94.811]);
  });

  test('the larger arm of an L, and what a hole leaves', () => {
    const ell = new Float64Array([0, 0, 900, 0, 900, 210, 250, 210, 250, 610, 0, 610]);
    expect(largestRectangle([ell])).toEqual([0, 0, 900, 210]);
    const hole = reversed(rectangle(300, 0.5, 340, 210));
    expect(largestRectangle([rectangle(0, 0, 900, 230), hole])).toEqual([340, 0, 900, 230]);
  });

  test('half of a right-angled triangle (geometry: legs halved)', () => {
    const found = area(largestRectangle([new Float64Array([0, 0, 1000, 0, 0, 600])]));
    expect(found).toBeLessThanOrEqual(150_000);
    expect(found).toBeGreaterThan(0.99 * 150_000);
  });

  test.each([1, 2, 3, 4])(
    'inside lopsided outlines with holes, and not beaten by rectangles at random, seed %i',
    (seed) => {
      const random = stream(seed, 'rectangles');
      for (let round = 0; round < 5; round++) {
        const region = lopsided(random, 700, 60);
        const found = largestRectangle(region);
        if (!found) throw new Error('none found');
        expect(areaOf(subtract([[rectangle(...found)]], offset([region], 0.003)))).toBe(0);
        for (let i = 0; i < 40; i++) {
          const at = () => -350 + 700 * random();
          const [[x0, x1], [y0, y1]] = [[at(), at()].sort((a, b) => a - b), [at(), at()].sort((a, b) => a - b)];
          const other: Ring = rectangle(x0, y0, x1, y1);
          if (area([x0, y0, x1, y1]) <= 1.1 * area(found)) continue;
          expect(areaOf(intersect([[other]], [region]))).toBeLessThan(area([x0, y0, x1, y1]));
        }
      }
    },
  );

  test('none in nothing', () => {
    expect(largestRectangle([])).toBe(null);
    expect(largestRectangle([new Float64Array([0, 0, 100, 0, 50, 0])])).toBe(null);
  });
});
