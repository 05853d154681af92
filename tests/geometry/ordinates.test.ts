import { describe, expect, test } from 'vitest';
import { type Ordinate, ordinates } from '../../src/geometry/ordinates.ts';
import { stream } from '../../src/geometry/random.ts';
import { distanceToRings, type Ring } from '../../src/geometry/ring.ts';

/** How far two rings are apart at most: points every tenth of a millimetre or so on both (Hausdorff). */
function apartMost(a: Ring, b: Ring): number {
  const oneWay = (from: Ring, to: Ring) => {
    let most = 0;
    for (let i = 0; i < from.length; i += 2) {
      const j = (i + 2) % from.length;
      const count = Math.max(1, Math.ceil(Math.hypot(from[j] - from[i], from[j + 1] - from[i + 1]) / 0.7));
      for (let k = 0; k < count; k++) {
        const x = from[i] + ((from[j] - from[i]) * k) / count;
        const y = from[i + 1] + ((from[j + 1] - from[i + 1]) * k) / count;
        most = Math.max(most, distanceToRings(x, y, [to]));
      }
    }
    return most;
  };
  return Math.max(oneWay(a, b), oneWay(b, a));
}

const polygon = (marks: readonly Ordinate[]): Ring => new Float64Array(marks.flatMap(({ x, y }) => [x, y]));

/** A lopsided star of n points about (310, 170), rough where it is random. */
function rough(seed: number, points: number): Ring {
  const random = stream(seed, 'ordinates', 0);
  const ring = new Float64Array(2 * points);
  for (let i = 0; i < points; i++) {
    const angle = (2 * Math.PI * i) / points;
    const reach = 120 + 40 * Math.sin(3 * angle + 1) + 30 * random();
    ring[2 * i] = Math.round(1000 * (310 + 1.7 * reach * Math.cos(angle))) / 1000;
    ring[2 * i + 1] = Math.round(1000 * (170 + reach * Math.sin(angle))) / 1000;
  }
  return ring;
}

describe('measuring off', () => {
  test.each([1, 2, 3, 4, 5, 6])(
    'the polygon through the marks is as near as it says, rough ring of seed %d',
    (seed) => {
      const ring = rough(seed, 37 + 40 * seed);
      for (const [tolerance, step] of [
        [3, 1],
        [1.5, 25.4 / 16],
        [9, 1],
      ]) {
        const { marks, deviation } = ordinates(ring, { spacing: 83, tolerance, step });
        expect(deviation).toBeLessThanOrEqual(tolerance);
        expect(apartMost(ring, polygon(marks))).toBeLessThanOrEqual(deviation + 1e-9);
        for (const { x, y } of marks) {
          expect(Math.abs(x / step - Math.round(x / step))).toBeLessThan(1e-9);
          expect(Math.abs(y / step - Math.round(y / step))).toBeLessThan(1e-9);
        }
      }
    },
  );

  test('every station that meets the ring is marked where it crosses it', () => {
    const ring = new Float64Array([12, 8, 431, 30, 390, 260, 205, 141, 40, 233]);
    const { marks } = ordinates(ring, { spacing: 100, tolerance: 3, step: 1 });
    const at = (x: number) =>
      marks
        .filter((mark) => mark.x === x)
        .map(({ y }) => y)
        .sort((a, b) => a - b);
    // Worked by hand: 8 + 22 · 88 / 419; 233 − 92 · 60 / 165 …
    expect(at(100)).toEqual([13, 200]);
    expect(at(300)).toEqual([23, 202]);
    expect(at(400)).toEqual([28, 204]);
    expect(marks.filter(({ isExtra }) => isExtra).map(({ x, y }) => [x, y])).toEqual([
      [12, 8],
      [431, 30],
      [390, 260],
      [205, 141],
      [40, 233],
    ]);
  });

  test('an upright side on a station is marked at both its ends, and points follow the ring', () => {
    const ring = new Float64Array([100, 20, 300, 20, 300, 190, 100, 70]);
    const { marks } = ordinates(ring, { spacing: 100, tolerance: 3, step: 1 });
    expect(marks.map(({ x, y }) => [x, y])).toEqual([
      [100, 20],
      [200, 20],
      [300, 20],
      [300, 190],
      [200, 130],
      [100, 70],
    ]);
  });
});
