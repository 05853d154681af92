import { describe, expect, test } from 'vitest';
import {
  heightAt,
  leastBetween,
  mostBetween,
  partBetween,
  partsOver,
  upperLines,
} from '../../src/geometry/height-line.ts';
import { simplifiedLine } from '../../src/geometry/simplify.ts';

const line = (...points: number[]) => Float64Array.from(points);

/** A lopsided ridge with a step down at 7, and a foot. */
const ridge = line(-2, 1, 3, 6, 7, 4, 7, 2.5, 11, 0.5);

describe('upper lines', () => {
  test('of one ring are its edges that run to the left, from left to right', () => {
    expect(upperLines([line(0, 0, 9, 0, 9, 3, 4, 7, 0, 1)])).toEqual([line(0, 1, 4, 7, 9, 3)]);
  });

  test('take the highest where rings lie over one another, with steps at their ends, and a line for each run of u', () => {
    const low = line(0, 0, 10, 0, 10, 2, 0, 2);
    const shelf = line(3, 5, 6, 5, 6, 6, 3, 7);
    const apart = line(14, 0, 15, 0, 15, 1, 14, 4);
    expect(upperLines([low, shelf, apart])).toEqual([line(0, 2, 3, 2, 3, 7, 6, 6, 6, 2, 10, 2), line(14, 4, 15, 1)]);
  });

  test('do not look into holes, and of nothing there are none', () => {
    const hole = line(2, 2, 2, 4, 5, 4, 5, 2);
    expect(upperLines([line(0, 0, 9, 0, 9, 6, 0, 6), hole])).toEqual([line(0, 6, 2, 6, 5, 6, 9, 6)]);
    expect(upperLines([])).toEqual([]);
  });

  test('are as high as the highest ring anywhere, in whatever order they come', () => {
    const shelves = Array.from({ length: 9 }, (_, i) => {
      const [from, low] = [(i * 7) % 23, 10 * i];
      return line(from, low, from + 6.3, low, from + 6.3, low + 4, from, low + 2);
    });
    const topAt = (u: number) =>
      Math.max(...shelves.map((s) => (u > s[0] && u < s[2] ? s[7] + ((u - s[0]) / 6.3) * 2 : -1)));
    for (const order of [shelves, [...shelves].reverse()]) {
      const lines = upperLines(order);
      expect(lines.length).toBe(1);
      for (let u = 0.013; u < 27.2; u += 0.31) expect(heightAt(lines[0], u)).toBeCloseTo(topAt(u), 9);
    }
  });
});

describe('a height line', () => {
  test('has heights between its points, the lower of a step, and beyond its ends those of the nearer end', () => {
    expect([-9, -2, 0, 3, 5, 7, 9, 11, 40].map((u) => heightAt(ridge, u))).toEqual([1, 1, 3, 6, 5, 2.5, 1.5, 0.5, 0.5]);
    expect(leastBetween(ridge, 0, 6)).toBe(3);
    expect(leastBetween(ridge, 5, 8)).toBe(2);
    expect(mostBetween(ridge, 0, 6)).toBe(6);
    expect(mostBetween(ridge, -Infinity, Infinity)).toBe(6);
  });

  test('is cut to a part, or to nothing where that is too short', () => {
    expect(partBetween(ridge, 0, 9, 1)).toEqual(line(0, 3, 3, 6, 7, 4, 7, 2.5, 9, 1.5));
    expect(partBetween(ridge, -50, 50, 1)).toEqual(ridge);
    expect(partBetween(ridge, 10, 50, 1.5)).toBeNull();
    expect(partBetween(ridge, 12, 50, 0)).toBeNull();
  });

  test('has stretches over a height, cut exactly there', () => {
    expect(partsOver(ridge, 3, 1)).toEqual([line(0, 3, 3, 6, 7, 4, 7, 3)]);
    expect(partsOver(ridge, 0, 1)).toEqual([ridge]);
    expect(partsOver(ridge, 9, 1)).toEqual([]);
    expect(partsOver(ridge, 5.9, 1)).toEqual([]);
    expect(partsOver(line(0, 4, 2, 0, 4, 4), 2, 0.5)).toEqual([line(0, 4, 1, 2), line(3, 2, 4, 4)]);
  });

  test('keeps its ends and steps when it is simplified, and strays no further than told', () => {
    const wavy = Float64Array.from({ length: 400 }, (_, i) =>
      i % 2 === 0 ? i / 2 : 20 + 9 * Math.sin(i / 61) + 0.004 * Math.sin(i),
    );
    const simple = simplifiedLine(wavy, 0.03);
    expect(simple.length).toBeLessThan(wavy.length / 4);
    expect([...simple.subarray(0, 2), ...simple.subarray(-2)]).toEqual([...wavy.subarray(0, 2), ...wavy.subarray(-2)]);
    for (let i = 0; i < wavy.length; i += 2) {
      expect(Math.abs(heightAt(simple, wavy[i]) - wavy[i + 1])).toBeLessThan(0.031);
    }
    expect(simplifiedLine(ridge, 0.1)).toEqual(ridge);
  });
});
