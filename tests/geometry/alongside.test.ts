import { expect, test } from 'vitest';
import { alongside } from '../../src/geometry/alongside.ts';

const BELOW = [0, 0, 1000, 0, 2000, 300, 2000, 900];

test('the stretch beside a segment counts, with a distance more at its ends', () => {
  expect(alongside(-500, 40, 700, 40, BELOW, 60)).toEqual({ length: 760, x: 320, y: 40 });
  expect(alongside(400, 61, 700, 61, BELOW, 60).length).toBe(0);
});

test('one that runs away counts as far as it is near', () => {
  const { length } = alongside(100, 0, 900, 80, BELOW, 40);
  expect(length).toBeCloseTo(Math.sqrt(400 * 400 + 40 * 40), 9);
});

test('one that crosses steeply does not count; one that crosses at a slant does', () => {
  expect(alongside(500, -400, 560, 400, BELOW, 60).length).toBe(0);
  expect(alongside(0, -400, 1000, 400, BELOW, 60).length).toBeCloseTo(
    (120 / 800) * Math.sqrt(1000 * 1000 + 800 * 800),
    9,
  );
});

test('the place is in the middle of the longest stretch', () => {
  const { x, y } = alongside(1990, 1000, 1985, 200, BELOW, 50);
  expect([x, Math.round(y)]).toEqual([1987.5, 600]);
});

test('a point has no length', () => {
  expect(alongside(5, 5, 5, 5, BELOW, 60).length).toBe(0);
});
