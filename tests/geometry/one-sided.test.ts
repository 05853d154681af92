import { describe, expect, test } from 'vitest';
import { Fence } from '../../src/geometry/edge-grid.ts';
import { simplify } from '../../src/geometry/one-sided.ts';
import { type Box, distanceToRings, type Region, type Ring, ringsOf } from '../../src/geometry/ring.ts';
import { crossingIn, nestedRegions, sticksOut } from '../help/random-rings.ts';

const points = (regions: readonly Region[]) => ringsOf(regions).reduce((sum, ring) => sum + ring.length / 2, 0);

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
    const simple = simplify(smooth, { tolerance, moves });
    // Edges that touch a curve of radius R and whose corners stand off by e are √(8 R e) long: 117 of them.
    expect(points(simple)).toBeLessThan(moves === 'either' ? 130 : 125);
    if (moves === 'out') expect(sticksOut(smooth, simple)).toBeNull();
    if (moves === 'in') expect(sticksOut(simple, smooth)).toBeNull();
    expect(furthest(simple, smooth, 3000)).toBeLessThanOrEqual(tolerance);
    expect(furthest(smooth, simple, 3000)).toBeLessThanOrEqual(tolerance);
  });
});

test('no tolerance, no change; nothing, nothing', () => {
  const regions = [[ellipse(9, 1000, 700)]];
  expect(simplify(regions, { tolerance: 0, moves: 'out' })).toEqual(regions);
  expect(simplify([], { tolerance: 9, moves: 'in' })).toEqual([]);
});

test('points in line go, corners stay, a triangle stays', () => {
  const ring = Float64Array.from([0, 0, 400, 0, 900, 0, 900, 300, 900, 700, 0, 700]);
  expect([...simplify([[ring]], { tolerance: 1, moves: 'out' })[0][0]]).toEqual([900, 700, 0, 700, 0, 0, 900, 0]);
  const triangle = Float64Array.from([0, 0, 9, 1, 4, 7]);
  expect(simplify([[triangle]], { tolerance: 1e6, moves: 'out' })).toEqual([[triangle]]);
});

test('a bay is filled outward, a headland is cut inward, never the other way', () => {
  const bay = Float64Array.from([0, 0, 5000, 0, 5200, 90, 5400, 0, 9000, 0, 9000, 7000, 0, 7000]);
  const headland = bay.map((value, i) => (i === 5 ? -90 : value));
  expect(simplify([[bay]], { tolerance: 100, moves: 'out' })[0][0]).toHaveLength(8);
  expect(simplify([[headland]], { tolerance: 100, moves: 'in' })[0][0]).toHaveLength(8);
  expect(simplify([[bay]], { tolerance: 80, moves: 'out' })[0][0]).toHaveLength(14);
  expect(sticksOut([[headland]], simplify([[headland]], { tolerance: 100, moves: 'out' }))).toBeNull();
});

test('a hole beside an outline is not run into', () => {
  // A bay 60 wide runs in beside a hole 20 away: closing the bay would swallow nothing, widening the hole would.
  const outer = Float64Array.from([0, 0, 1000, 0, 1010, 400, 1020, 0, 3000, 0, 3000, 2000, 0, 2000]);
  const hole = Float64Array.from([1000, 430, 1005, 470, 1030, 470, 1040, 430, 1010, 410]);
  for (const moves of ['out', 'in', 'either'] as const) {
    const simple = simplify([[outer, hole]], { tolerance: 500, moves });
    expect(crossingIn(ringsOf(simple))).toBeNull();
    expect(simple[0]).toHaveLength(2);
  }
});

test('along a border outlines stay', () => {
  const border: Box = [0, 0, 9000, 7000];
  const ring = Float64Array.from([0, 0, 9000, 0, 9000, 3000, 8900, 3040, 8800, 3010, 4000, 6800, 4020, 7000, 0, 7000]);
  for (const moves of ['out', 'in', 'either'] as const) {
    const [[simple]] = simplify([[ring]], { tolerance: 300, moves, border });
    const corners = Array.from({ length: simple.length / 2 }, (_, i) => `${simple[2 * i]},${simple[2 * i + 1]}`);
    for (const kept of ['0,0', '9000,0', '9000,3000', '4020,7000', '0,7000']) expect(corners).toContain(kept);
    for (const value of simple) expect(value).toBeGreaterThanOrEqual(0);
  }
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
        made[k] = simplify(raw[k], { tolerance, moves, border, around, within });
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
