import fc from 'fast-check';
import { expect, test } from 'vitest';
import { intersect, regionsWherePositive, subtract } from '../../src/geometry/clip.ts';
import { leftEdges } from '../../src/geometry/left-edges.ts';
import { areaOf, rectangle, reversed, ringArea, ringsOf } from '../../src/geometry/ring.ts';

const signed = (rings: readonly Float64Array[]) => rings.reduce((sum, ring) => sum + ringArea(ring), 0);

test('what was divided leaves no edge, in any order and from any corner', () => {
  const left = new Float64Array([0, 0, 3, 0, 4, 7, 0, 7]);
  const right = new Float64Array([4, 7, 3, 0, 10, 0, 10, 7]);
  const whole = new Float64Array([10, 7, 4, 7, 0, 7, 0, 0, 3, 0, 10, 0]);
  expect(leftEdges([whole], [left, right])).toEqual([]);
  expect(leftEdges([whole], [right, left])).toEqual([]);
});

test('nothing of nothing; and no pieces leave the whole, the other way round', () => {
  expect(leftEdges([], [])).toEqual([]);
  expect(signed(leftEdges([rectangle(0, 0, 5, 3)], []))).toBe(-15);
  expect(signed(leftEdges([], [rectangle(0, 0, 5, 3)]))).toBe(15);
});

test('rings that meet in a point close all the same', () => {
  const rings = leftEdges([], [rectangle(0, 0, 2, 2), rectangle(2, 2, 5, 4)]);
  expect(signed(rings)).toBe(10);
});

/** Against clipping: what winds round it is what lies in two pieces, and what lies in none. */
test('it encloses what clipping finds missing and double', () => {
  const side = fc.integer({ min: 0, max: 40 });
  const box = fc
    .tuple(side, side, side, side)
    .filter(([a, b, c, d]) => a !== c && b !== d)
    .map(([a, b, c, d]) => rectangle(Math.min(a, c), Math.min(b, d), Math.max(a, c), Math.max(b, d)));
  fc.assert(
    fc.property(box, box, box, (whole, one, other) => {
      const left = leftEdges([whole], [one, other]);
      const twice = areaOf(intersect([[one]], [[other]]));
      expect(signed(left)).toBeCloseTo(ringArea(one) + ringArea(other) - ringArea(whole), 9);
      // −1 where nothing lies on the whole: as often as it is missing.
      const missing = areaOf(subtract(subtract([[whole]], [[one]]), [[other]]));
      expect(areaOf(regionsWherePositive(left.map(reversed)))).toBeCloseTo(missing, 6);
      const outside = areaOf(subtract([[one]], [[whole]])) + areaOf(subtract([[other]], [[whole]]));
      const outsideTwice = areaOf(subtract(intersect([[one]], [[other]]), [[whole]]));
      expect(areaOf(regionsWherePositive(left))).toBeCloseTo(outside - outsideTwice + twice - outsideTwice, 6);
      expect(ringsOf([left]).every((ring) => ring.length >= 4)).toBe(true);
    }),
    { seed: 11, numRuns: 300 },
  );
});
