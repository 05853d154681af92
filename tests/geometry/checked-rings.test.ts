import { describe, expect, test } from 'vitest';
import { drawn } from '../../src/geometry/checked-rings.ts';
import { type Box, distanceToRings, type Region, type Ring, ringsOf } from '../../src/geometry/ring.ts';
import { Fence } from '../../src/geometry/steps.ts';
import { crossingIn, nestedRegions, sticksOut } from '../help/random-rings.ts';

const points = (regions: readonly Region[]) => ringsOf(regions).reduce((sum, ring) => sum + ring.length / 2, 0);
const WIDE: Box = [-1e7, -1e7, 1e7, 1e7];

/** Furthest distance of points every so often along the rings of one from the rings of the other. */
function furthest(from: readonly Region[], to: readonly Region[], every: number): number {
  const rings = ringsOf(to);
  let most = 0;
  for (const ring of ringsOf(from)) {
    for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
      const length = Math.max(Math.abs(ring[i] - ring[j]), Math.abs(ring[i + 1] - ring[j + 1]));
      for (let at = 0; at <= length; at += every) {
        const t = length > 0 ? at / length : 0;
        const x = ring[j] + t * (ring[i] - ring[j]);
        const y = ring[j + 1] + t * (ring[i + 1] - ring[j + 1]);
        most = Math.max(most, distanceToRings(x, y, rings));
      }
    }
  }
  return most;
}

const ellipse = (n: number, a: number, b: number): Ring =>
  Float64Array.from({ length: 2 * n }, (_, i) => {
    const turn = (2 * Math.PI * Math.floor(i / 2)) / n;
    return Math.round(i % 2 === 0 ? 2_000_000 + a * Math.cos(turn) : 1_500_000 + b * Math.sin(turn));
  });

describe('a smooth outline of 1.7 by 1.1 m, 2000 points', () => {
  const smooth = [[ellipse(2000, 1_700_000, 1_100_000)]];
  test.each([
    ['out', 500],
    ['in', 500],
    ['either', 250],
  ] as const)('moved %s by half a millimetre at most, needs few points', (moves, tolerance) => {
    const simple = drawn(smooth, { tolerance, moves, border: WIDE });
    // Lines that touch a curve of radius R and whose corners stand off by e are √(8 R e) long; radii here reach 2.6 m.
    expect(points(simple)).toBeLessThan(moves === 'either' ? 240 : 140);
    if (moves === 'out') expect(sticksOut(smooth, simple)).toBeNull();
    if (moves === 'in') expect(sticksOut(simple, smooth)).toBeNull();
    expect(furthest(simple, smooth, 3000)).toBeLessThanOrEqual(tolerance);
    expect(furthest(smooth, simple, 3000)).toBeLessThanOrEqual(tolerance);
  });
});

describe.each(Array.from({ length: 24 }, (_, i) => i + 1))('random outlines one in another, seed %i', (seed) => {
  const levels = [20, 33, 41, 43, 60, 95, 120];
  const raw = nestedRegions(seed, levels);
  const border: Box = [0, 0, Math.round(16 * 7.3 * 1000), Math.round(12 * 1.31 * 7.3 * 1000)];

  test.each([
    ['out', 400],
    ['in', 400],
    ['out', 4000],
    ['in', 4000],
    ['either', 1500],
  ] as const)(
    'moved %s by %i at most: simple, on its side, one in another, within the tolerance',
    (moves, tolerance) => {
      const fence = (regions: readonly Region[] | undefined) =>
        regions && regions.length > 0 ? new Fence(regions) : undefined;
      const made: Region[][] = [];
      const order = raw.map((_, k) => (moves === 'in' ? raw.length - 1 - k : k));
      for (const k of order) {
        const around = moves === 'in' ? undefined : fence(made[k - 1]);
        const within = moves === 'out' ? undefined : fence(moves === 'in' ? made[k + 1] : raw[k + 1]);
        made[k] = drawn(raw[k], { tolerance, moves, border, around, within });
      }
      let fewer = 0;
      for (const [k, regions] of raw.entries()) {
        const simple = made[k];
        expect(crossingIn(ringsOf(simple))).toBeNull();
        if (moves === 'out') expect(sticksOut(regions, simple)).toBeNull();
        if (moves === 'in') expect(sticksOut(simple, regions)).toBeNull();
        if (k > 0) expect(sticksOut(simple, made[k - 1]), 'sticks out over the one beneath').toBeNull();
        expect(furthest(simple, regions, 900)).toBeLessThanOrEqual(tolerance);
        expect(furthest(regions, simple, 900)).toBeLessThanOrEqual(tolerance);
        expect(simple.map((region) => region.length)).toEqual(regions.map((region) => region.length));
        fewer += points(regions) - points(simple);
      }
      expect(fewer).toBeGreaterThan(0);
    },
  );
});
