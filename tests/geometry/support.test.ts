import { expect, test } from 'vitest';
import { rectangle, reversed } from '../../src/geometry/ring.ts';
import { centroidOf, supportOf } from '../../src/geometry/support.ts';

test('the middle of mass of a region with a hole', () => {
  const [x, y] = centroidOf([rectangle(10, 20, 70, 40), reversed(rectangle(10, 20, 40, 40))]);
  expect([x, y]).toEqual([55, 30]);
});

test('a beam on its two ends is steady, on one it tips, in the air it rests on nothing', () => {
  const beam = [rectangle(0, 0, 900, 110)];
  const left = [rectangle(-50, -20, 90, 200)];
  const right = [rectangle(810, 30, 990, 70)];
  const { share, inside } = supportOf(beam, [left, right]);
  expect(share).toBe((90 * 110 + 90 * 40) / (900 * 110));
  expect(inside).toBeGreaterThan(5);
  expect(supportOf(beam, [left]).inside).toBe(-360);
  expect(supportOf(beam, [[rectangle(0, 300, 900, 400)]])).toEqual({ share: 0, inside: -Infinity });
});
