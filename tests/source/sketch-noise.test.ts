import { expect, test } from 'vitest';
import { gradientNoise } from '../../src/source/sketch/noise.ts';

const along = (seed: number, size: number, octaves: number, y: number, count: number, step: number) => {
  const row = gradientNoise(seed, size, octaves)(y);
  return Array.from({ length: count }, (_, i) => row(i * step));
};

test('it comes near ±1 and never passes it', () => {
  let high = -Infinity;
  let low = Infinity;
  for (let seed = 0; seed < 40; seed++) {
    for (const value of along(seed, 10, 1, seed * 7.3, 3000, 0.9)) {
      high = Math.max(high, value);
      low = Math.min(low, value);
    }
  }
  expect(high).toBeLessThanOrEqual(1);
  expect(low).toBeGreaterThanOrEqual(-1);
  expect(high).toBeGreaterThan(0.75);
  expect(low).toBeLessThan(-0.75);
});

test('most of it lies within a quarter of the bound: its mean square says how rough the ground is', () => {
  const values = along(3, 40, 4, 211, 6000, 3.1);
  const meanSquare = values.reduce((sum, value) => sum + value * value, 0) / values.length;
  expect(Math.sqrt(meanSquare)).toBeGreaterThan(0.12);
  expect(Math.sqrt(meanSquare)).toBeLessThan(0.3);
});

test('it goes through 0 about once a lump: the size is that of lumps', () => {
  for (const [seed, size] of [
    [1, 25],
    [2, 60],
    [5, 143],
  ]) {
    const values = along(seed, size, 1, 88.8, 40000, size / 40);
    const crossings = values.filter((value, i) => i > 0 && value > 0 !== values[i - 1] > 0).length;
    expect(crossings).toBeGreaterThan(600);
    expect(crossings).toBeLessThan(1300);
  }
});

test('neither the field nor its slope jumps between cells, in either direction', () => {
  const noise = gradientNoise(9, 8, 3);
  const step = 1e-4;
  const slopes = (at: (t: number) => number) =>
    Array.from({ length: 4000 }, (_, i) => (at(i * 0.01 + step) - at(i * 0.01)) / step);
  for (const at of [(t: number) => noise(3.3)(t), (t: number) => noise(t)(3.3)]) {
    const found = slopes(at);
    for (let i = 1; i < found.length; i++) expect(Math.abs(found[i] - found[i - 1])).toBeLessThan(0.05);
  }
});

test('octaves are not 0 together at the lattice of the largest', () => {
  const noise = gradientNoise(4, 16, 5);
  const values = Array.from({ length: 200 }, (_, i) => noise(16 * (i % 14))(16 * Math.floor(i / 14)));
  expect(values.filter((value) => Math.abs(value) < 1e-6).length).toBe(0);
});

test('it does not repeat, nor is it the same across and along', () => {
  const first = along(6, 10, 1, 5, 640, 1);
  for (const shift of [10, 640, 2560, 10240]) {
    const row = gradientNoise(6, 10, 1)(5);
    expect(first.filter((value, i) => Math.abs(value - row(i + shift)) < 1e-9).length).toBeLessThan(10);
  }
  expect(gradientNoise(6, 10, 1)(31)(87)).not.toBe(gradientNoise(6, 10, 1)(87)(31));
});

test('it goes on west and south of the origin', () => {
  const values = along(8, 10, 2, -73, 400, -1.7);
  expect(values.every(Number.isFinite)).toBe(true);
  expect(new Set(values).size).toBe(400);
});
