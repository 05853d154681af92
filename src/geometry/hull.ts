import { directionDeg, turn } from './exact-math.ts';
import type { Ring } from './ring.ts';

/**
 * The convex hull of some rings: counter-clockwise, from its leftmost lowest point, no points on straight sides.
 * Monotone chain (Andrew 1979), O(n log n). Two points come back when all lie on a line, none when all are one.
 */
export function convexHull(rings: readonly Ring[]): Ring {
  const points: [number, number][] = [];
  for (const ring of rings) for (let i = 0; i < ring.length; i += 2) points.push([ring[i], ring[i + 1]]);
  points.sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const apart = points.filter(([x, y], i) => i === 0 || x !== points[i - 1][0] || y !== points[i - 1][1]);
  const chain: [number, number][] = [];
  const half = (from: readonly [number, number][]) => {
    const floor = chain.length;
    for (const point of from) {
      while (chain.length >= floor + 2 && !turnsLeft(chain[chain.length - 2], chain[chain.length - 1], point))
        chain.pop();
      chain.push(point);
    }
    // The last point opens the other half.
    chain.pop();
  };
  half(apart);
  half(apart.reverse());
  return Float64Array.from(chain.flat());
}

/** Extent of a hull along the direction (cos, sin) and across it, least and largest. O(n). */
export function extents(
  hull: Ring,
  cos: number,
  sin: number,
): [least: number, most: number, low: number, high: number] {
  let least = Infinity;
  let most = -Infinity;
  let low = Infinity;
  let high = -Infinity;
  for (let i = 0; i < hull.length; i += 2) {
    const along = hull[i] * cos + hull[i + 1] * sin;
    const across = hull[i + 1] * cos - hull[i] * sin;
    if (along < least) least = along;
    if (along > most) most = along;
    if (across < low) low = across;
    if (across > high) high = across;
  }
  return [least, most, low, high];
}

/** The smallest rectangle round a hull: its long side, its short side, and the direction of the long side, 0 ≤ d < 180. */
export interface EnclosingRectangle {
  readonly long: number;
  readonly short: number;
  readonly directionDeg: number;
}

/** The rectangle of least area round a hull; one of its sides lies along a side of the hull (Freeman, Shapira 1975). O(n²). */
export function smallestRectangle(hull: Ring): EnclosingRectangle {
  let best: EnclosingRectangle = { long: Infinity, short: Infinity, directionDeg: 0 };
  let leastArea = Infinity;
  for (let i = 0, j = hull.length - 2; i < hull.length; j = i, i += 2) {
    const dx = hull[i] - hull[j];
    const dy = hull[i + 1] - hull[j + 1];
    const side = Math.sqrt(dx * dx + dy * dy);
    if (side === 0) continue;
    const [least, most, low, high] = extents(hull, dx / side, dy / side);
    const along = most - least;
    const across = high - low;
    if (along * across >= leastArea) continue;
    leastArea = along * across;
    const direction = directionDeg(dx, dy) + (along >= across ? 0 : 90);
    best = { long: Math.max(along, across), short: Math.min(along, across), directionDeg: direction % 180 };
  }
  return best;
}

/** Largest distance between two points of a hull. O(n²). */
export function diameter(hull: Ring): number {
  let most = 0;
  for (let i = 0; i < hull.length; i += 2) {
    for (let j = 0; j < i; j += 2) {
      const dx = hull[i] - hull[j];
      const dy = hull[i + 1] - hull[j + 1];
      most = Math.max(most, dx * dx + dy * dy);
    }
  }
  return Math.sqrt(most);
}

/**
 * The turn, counter-clockwise, at which a hull fits a width × height rectangle with most room to spare, and that room
 * (negative when it sticks out). Quarter turns are tried exactly, the rest on a grid of `stepDeg` that is then refined
 * twice by ten. A turn that fits only within less than that is not found.
 */
export function roomiestTurn(
  hull: Ring,
  width: number,
  height: number,
  stepDeg = 1,
): { turnDeg: number; room: number } {
  let best = { turnDeg: 0, room: roomAt(hull, 0, width, height) };
  const look = (turnDeg: number) => {
    const room = roomAt(hull, turnDeg, width, height);
    if (room > best.room) best = { turnDeg, room };
  };
  const steps = Math.round(180 / stepDeg);
  for (let i = 0; i < steps; i++) look(i * stepDeg);
  for (const finer of [10, 100]) {
    const centre = Math.round((best.turnDeg * finer) / stepDeg);
    for (let i = -10; i <= 10; i++) look(((centre + i) * stepDeg) / finer);
  }
  return best;
}

/** Room that a hull, turned counter-clockwise, leaves in a width × height rectangle: the lesser of both ways. */
export function roomAt(hull: Ring, turnDeg: number, width: number, height: number): number {
  const { cos, sin } = turn(-turnDeg);
  const [least, most, low, high] = extents(hull, cos, sin);
  return Math.min(width - (most - least), height - (high - low));
}

const turnsLeft = (a: readonly [number, number], b: readonly [number, number], c: readonly [number, number]): boolean =>
  (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]) > 0;
