import { expect, test } from 'vitest';
import { massOf } from '../../src/geometry/mass-of.ts';
import { mapped, prism, together } from '../help/solids.ts';

const surfaceOf = ({ positionsMm, triangles }: ReturnType<typeof prism>) => ({ positions: positionsMm, triangles });

const wedge = prism(
  [
    [10, 20],
    [70, 20],
    [10, 110],
  ],
  5,
  45,
);

test('a prism over a triangle: half its box, its middle over the mean of the corners (Archimedes)', () => {
  const { volume, middle } = massOf(surfaceOf(wedge));
  expect(volume).toBeCloseTo((60 * 90 * 40) / 2, 9);
  expect(middle).toEqual([30, 50, 25]);
});

test('far from the origin no digits are lost', () => {
  const { volume, middle } = massOf(surfaceOf(mapped(wedge, (x, y, z) => [x + 1e8, y - 1e8, z])));
  expect(volume).toBeCloseTo(108_000, 6);
  expect(middle).toEqual([1e8 + 30, 50 - 1e8, 25]);
});

test('two bodies: middles weighed by their volumes', () => {
  const box = prism(
    [
      [200, 0],
      [230, 0],
      [230, 20],
      [200, 20],
    ],
    0,
    60,
  );
  const { volume, middle } = massOf(surfaceOf(together(wedge, box)));
  expect(volume).toBeCloseTo(108_000 + 36_000, 6);
  const mean = [215, 10, 30].map((at, k) => (3 * [30, 50, 25][k] + at) / 4);
  middle.forEach((at, k) => {
    expect(at).toBeCloseTo(mean[k], 9);
  });
});
