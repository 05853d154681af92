import { describe, expect, test } from 'vitest';
import { intersect } from '../../src/geometry/clip.ts';
import { crossingsOf, withCrossings } from '../../src/geometry/crossed.ts';
import { leastBetween } from '../../src/geometry/least-between.ts';
import { areaOf, distanceToRings, type Ring, rectangle, reversed, ringArea } from '../../src/geometry/ring.ts';
import { blob } from '../help/stacks.ts';

const hole = (ring: Ring) => reversed(ring);
const pointsOf = (ring: Ring) => Array.from({ length: ring.length / 2 }, (_, i) => `${ring[2 * i]},${ring[2 * i + 1]}`);

describe('crossings', () => {
  const outer = blob(400, 300, 310, 240, 67, 3);
  const inner = blob(400, 300, 170, 130, 53, 4);
  /** Not square to anything, from outside to outside, and one that stops half way. */
  const lines = [-50, 210.123, 900, 377.001, 401.5, -40, 388.25, 293.4];

  test('both who have an edge get the same points, whichever way they run it', () => {
    const points = crossingsOf([outer, hole(inner), inner], lines);
    const [ring] = withCrossings([inner], points);
    const [same] = withCrossings([hole(inner)], points);
    expect(ring.length).toBeGreaterThan(inner.length + 2);
    expect(pointsOf(ring).sort()).toEqual(pointsOf(same).sort());
    expect(ringArea(ring)).toBeCloseTo(ringArea(inner), 1);
  });

  test('what is cut along the lines then shares every point: nothing overlaps, nothing is lost', () => {
    const line = [-50, 210.123, 900, 377.001];
    const below: Ring = new Float64Array([-50, -500, 900, -500, 900, 377.001, -50, 210.123]);
    const above: Ring = new Float64Array([-50, 210.123, 900, 377.001, 900, 900, -50, 900]);
    const points = crossingsOf([outer, inner], line);
    const rings = [withCrossings([outer, hole(inner)], points), withCrossings([inner], points)];
    const parts = [below, above].flatMap((half) => {
      const within = [withCrossings([half], points)];
      return rings.flatMap((region) => intersect([region], within));
    });
    expect(parts.length).toBe(4);
    expect(areaOf(parts)).toBeCloseTo(ringArea(withCrossings([outer], points)[0]), 6);
    const owners = parts.map((part) => new Set(part.flatMap((ring) => pointsOf(ring))));
    const met = [...points.values()].flat().map(String);
    for (const point of met) expect(owners.filter((set) => set.has(point)).length).toBeGreaterThanOrEqual(2);
  });

  test('a corner on a line, and an end on an edge, are the points themselves', () => {
    const square = rectangle(0, 0, 100, 70);
    const points = crossingsOf([square], [100, 70, 140, 90, 100, 35.5, 150, 20]);
    expect(pointsOf(withCrossings([square], points)[0])).toEqual(['0,0', '100,0', '100,35.5', '100,70', '0,70']);
    // Nothing to put in: the same ring.
    const far = crossingsOf([square], [200, 0, 300, 50]);
    expect(withCrossings([square], far)[0]).toBe(square);
  });
});

describe('the least distance between outlines', () => {
  test.each([1, 2, 3, 4, 5])('of random ones, as every corner against every edge says: %i', (seed) => {
    const outer = [blob(400, 300, 310, 240, 61, seed)];
    const inner = [blob(410, 290, 120, 90, 47, seed + 9)];
    const all = (corners: readonly Ring[], edges: readonly Ring[]) =>
      corners.flatMap((ring) =>
        Array.from({ length: ring.length / 2 }, (_, i) => distanceToRings(ring[2 * i], ring[2 * i + 1], edges)),
      );
    const { distance, at } = leastBetween(inner, outer);
    expect(distance).toBe(Math.min(...all(inner, outer), ...all(outer, inner)));
    expect(Math.min(distanceToRings(...at, inner), distanceToRings(...at, outer))).toBeLessThan(1e-9);
  });

  test('outlines that touch, and none', () => {
    expect(leastBetween([rectangle(0, 0, 9, 9)], [rectangle(9, 2, 20, 7)]).distance).toBe(0);
    expect(leastBetween([], [rectangle(0, 0, 9, 9)]).distance).toBe(Infinity);
  });
});
