import { describe, expect, test } from 'vitest';
import { intersect } from '../../src/geometry/clip.ts';
import { edgeRuns, edgesMeet, isWithin, overlap } from '../../src/geometry/edge-runs.ts';
import { depth, poles } from '../../src/geometry/poles.ts';
import { stream } from '../../src/geometry/random.ts';
import { areaOf, boxOf, distanceToRings, isInRegion, moved, rectangle, reversed } from '../../src/geometry/ring.ts';
import { simplified } from '../../src/geometry/simplify.ts';
import { lopsided } from '../help/nesting.ts';

const SEEDS = [1, 2, 3, 4, 5, 6];
const regionOf = (seed: number) => lopsided(stream(seed, 'edge runs'), 700);

describe('overlap', () => {
  test.each(SEEDS)('is what clipping says, wherever one is put against the other, seed %i', (seed) => {
    const [a, b] = [regionOf(seed), regionOf(seed + 100)];
    const [runsA, runsB] = [edgeRuns(a), edgeRuns(b)];
    const random = stream(seed, 'put');
    // Wide enough to part them, narrow enough to bring them together.
    const span = 1.4 * (boxOf(a)[2] - boxOf(a)[0] + boxOf(b)[2] - boxOf(b)[0]);
    let [apart, together] = [0, 0];
    for (let i = 0; i < 60; i++) {
      const [dx, dy] = [span * (random() - 0.5), span * (random() - 0.5)];
      const common = areaOf(intersect([a], [b.map((ring) => moved(ring, dx, dy))]));
      // What is smaller than the grid of the clipping may fall either way.
      if (common > 0 && common < 0.1) continue;
      expect(overlap(runsA, runsB, dx, dy)).toBe(common > 0);
      expect(overlap(runsB, runsA, -dx, -dy)).toBe(common > 0);
      common > 0 ? together++ : apart++;
    }
    expect(Math.min(apart, together)).toBeGreaterThan(3);
  });

  test('one in the void of the other is free; in its material, or round it, is not', () => {
    const ring = edgeRuns([rectangle(0, 0, 500, 410), reversed(rectangle(100, 90, 380, 300))]);
    const small = edgeRuns([rectangle(0, 0, 60, 50)]);
    expect(overlap(ring, small, 150, 140)).toBe(false);
    expect(overlap(ring, small, 410, 140)).toBe(true);
    expect(overlap(small, ring, -410, -140)).toBe(true);
    expect(overlap(edgeRuns([rectangle(-9, -9, 600, 500)]), ring, 0, 0)).toBe(true);
  });

  test('touching counts: at an edge and at a corner; a micrometre apart does not', () => {
    const [a, b] = [edgeRuns([rectangle(0, 0, 300, 210)]), edgeRuns([rectangle(0, 0, 120, 70)])];
    for (const [dx, dy] of [
      [300, 30],
      [300, 210],
      [-120, 0],
    ])
      expect(edgesMeet(a, b, dx, dy)).toBe(true);
    for (const [dx, dy] of [
      [300.001, 30],
      [300.001, 210],
      [-120.001, 0],
    ])
      expect(overlap(a, b, dx, dy)).toBe(false);
  });
});

test.each(SEEDS)('a point is within where the even-odd rule says so, seed %i', (seed) => {
  const region = regionOf(seed);
  const runs = edgeRuns(region);
  const random = stream(seed, 'points');
  for (let i = 0; i < 200; i++) {
    const [x, y] = [900 * (random() - 0.5), 900 * (random() - 0.5)];
    expect(isWithin(runs, x, y)).toBe(isInRegion(x, y, region));
    const distance = distanceToRings(x, y, region);
    expect(depth(runs, x, y)).toBeCloseTo(isInRegion(x, y, region) ? distance : -distance, 9);
  }
});

test.each(SEEDS)(
  'every pole lies inside, its centre outside those before it, the first the widest, seed %i',
  (seed) => {
    const region = regionOf(seed);
    const circles = poles(edgeRuns(region), 8);
    expect(circles.length).toBeGreaterThanOrEqual(9);
    for (let i = 0; i < circles.length; i += 3) {
      const [x, y, radius] = circles.subarray(i, i + 3);
      expect(isInRegion(x, y, region)).toBe(true);
      expect(distanceToRings(x, y, region)).toBeGreaterThanOrEqual(radius * (1 - 1e-12));
      for (let j = 0; j < i; j += 3)
        expect(Math.hypot(x - circles[j], y - circles[j + 1])).toBeGreaterThan(circles[j + 2]);
      expect(radius).toBeLessThanOrEqual(circles[2] * 1.02);
    }
  },
);

test('the first pole of a rectangle is half its short side, and nothing has none', () => {
  expect(poles(edgeRuns([rectangle(40, 10, 730, 220)]), 1)[2]).toBeGreaterThan(105 * 0.97);
  expect(poles(edgeRuns([]), 4).length).toBe(0);
});

describe('simplified', () => {
  test.each(SEEDS)('no point of either line is further from the other than the tolerance, seed %i', (seed) => {
    for (const ring of regionOf(seed)) {
      const fewer = simplified(ring, 1.7);
      expect(fewer.length).toBeLessThan(ring.length);
      for (let i = 0; i < ring.length; i += 2)
        expect(distanceToRings(ring[i], ring[i + 1], [fewer])).toBeLessThanOrEqual(1.7);
      for (let i = 0; i < fewer.length; i += 2) expect(distanceToRings(fewer[i], fewer[i + 1], [ring])).toBe(0);
    }
  });

  test('a ring smaller than the tolerance comes back as it is', () => {
    const tiny = new Float64Array([0, 0, 0.4, 0.1, 0.2, 0.3]);
    expect(simplified(tiny, 5)).toBe(tiny);
  });
});
