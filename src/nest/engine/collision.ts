/**
 * Whether two shapes are in each other's way: the only question that decides what may stand where. Touching counts.
 * The cheapest test first (Gardeyn, Vanden Berghe, Wauters 2025b, arXiv 2508.08341): boxes, which the caller has met
 * already; a few circles of each, since two that overlap prove it; edges; and where no edges meet, whether one lies
 * in the other's material. A shape that lies wholly in a hole is free.
 *
 * Roads not taken: no-fit polygons (one for every pair and turn, and free turns have no end of turns); a tree of boxes over
 * the edges (for 20 to 100 edges it is not quicker than runs of eight: most of the work is edges that really are near).
 */
import { type Posture, RUN } from './posture.ts';

/** Circles of each that are tested against each other before any edge. */
const QUICK = 3;

/** Room for the edges of two shapes that are near each other. */
export interface Nearby {
  a: Float64Array;
  b: Float64Array;
}

export const nearbyFor = (mostEdges: number): Nearby => ({
  a: new Float64Array(4 * mostEdges),
  b: new Float64Array(4 * mostEdges),
});

/** Whether some circles of the two, the second moved by (dx, dy), overlap: then they surely do. */
export function circlesMeet(a: Posture, b: Posture, dx: number, dy: number): boolean {
  const some = a.poles;
  const others = b.poles;
  const aTo = some.length < 3 * QUICK ? some.length : 3 * QUICK;
  const bTo = others.length < 3 * QUICK ? others.length : 3 * QUICK;
  for (let i = 0; i < aTo; i += 3) {
    const x = some[i] - dx;
    const y = some[i + 1] - dy;
    const r = some[i + 2];
    for (let j = 0; j < bTo; j += 3) {
      const ux = others[j] - x;
      const uy = others[j + 1] - y;
      const radii = r + others[j + 2];
      if (ux * ux + uy * uy < radii * radii) return true;
    }
  }
  return false;
}

/** Whether two shapes, the second moved by (dx, dy), overlap or touch; by their outlines alone, exactly. */
export function outlinesMeet(a: Posture, b: Posture, dx: number, dy: number, nearby: Nearby): boolean {
  // In a's frame: what both boxes share, outside which no edges can meet.
  const bMinX = b.minX + dx;
  const bMinY = b.minY + dy;
  const bMaxX = b.maxX + dx;
  const bMaxY = b.maxY + dy;
  const minX = a.minX > bMinX ? a.minX : bMinX;
  const minY = a.minY > bMinY ? a.minY : bMinY;
  const maxX = a.maxX < bMaxX ? a.maxX : bMaxX;
  const maxY = a.maxY < bMaxY ? a.maxY : bMaxY;
  if (minX > maxX || minY > maxY) return false;
  const aCount = gather(a.edges, a.runs, 0, 0, minX, minY, maxX, maxY, nearby.a);
  const bCount = aCount === 0 ? 0 : gather(b.edges, b.runs, dx, dy, minX, minY, maxX, maxY, nearby.b);
  if (bCount > 0 && edgesMeet(nearby.a, aCount, nearby.b, bCount)) return true;
  return holdsSeed(a, b, dx, dy) || holdsSeed(b, a, -dx, -dy);
}

/** Copy the edges, moved by (dx, dy), whose boxes meet a box. Returns how many numbers were written. */
function gather(
  edges: Float64Array,
  runs: Float64Array,
  dx: number,
  dy: number,
  minX: number,
  minY: number,
  maxX: number,
  maxY: number,
  into: Float64Array,
): number {
  let count = 0;
  for (let r = 0, from = 0; r < runs.length; r += 4, from += 4 * RUN) {
    if (runs[r] + dx > maxX || runs[r + 2] + dx < minX || runs[r + 1] + dy > maxY || runs[r + 3] + dy < minY) continue;
    const to = edges.length < from + 4 * RUN ? edges.length : from + 4 * RUN;
    for (let i = from; i < to; i += 4) {
      const x0 = edges[i] + dx;
      const x1 = edges[i + 2] + dx;
      if (x0 < minX ? x1 < minX : x0 > maxX && x1 > maxX) continue;
      const y0 = edges[i + 1] + dy;
      const y1 = edges[i + 3] + dy;
      if (y0 < minY ? y1 < minY : y0 > maxY && y1 > maxY) continue;
      into[count] = x0;
      into[count + 1] = y0;
      into[count + 2] = x1;
      into[count + 3] = y1;
      count += 4;
    }
  }
  return count;
}

function edgesMeet(a: Float64Array, aCount: number, b: Float64Array, bCount: number): boolean {
  for (let i = 0; i < aCount; i += 4) {
    const x0 = a[i];
    const y0 = a[i + 1];
    const x1 = a[i + 2];
    const y1 = a[i + 3];
    const ux = x1 - x0;
    const uy = y1 - y0;
    const left = ux < 0 ? x1 : x0;
    const right = ux < 0 ? x0 : x1;
    const low = uy < 0 ? y1 : y0;
    const high = uy < 0 ? y0 : y1;
    for (let j = 0; j < bCount; j += 4) {
      const x2 = b[j];
      const x3 = b[j + 2];
      if (x2 < left ? x3 < left : x2 > right && x3 > right) continue;
      const y2 = b[j + 1];
      const y3 = b[j + 3];
      if (y2 < low ? y3 < low : y2 > high && y3 > high) continue;
      const side2 = ux * (y2 - y0) - uy * (x2 - x0);
      const side3 = ux * (y3 - y0) - uy * (x3 - x0);
      if ((side2 > 0 && side3 > 0) || (side2 < 0 && side3 < 0)) continue;
      const vx = x3 - x2;
      const vy = y3 - y2;
      const side0 = vx * (y0 - y2) - vy * (x0 - x2);
      const side1 = vx * (y1 - y2) - vy * (x1 - x2);
      if ((side0 > 0 && side1 > 0) || (side0 < 0 && side1 < 0)) continue;
      return true;
    }
  }
  return false;
}

/** Whether a holds a seed of b, moved by (dx, dy): where no edges meet, whether one of b's areas lies in a. */
function holdsSeed(a: Posture, b: Posture, dx: number, dy: number): boolean {
  const { seeds } = b;
  for (let i = 0; i < seeds.length; i += 2) if (isWithin(a.edges, a, seeds[i] + dx, seeds[i + 1] + dy)) return true;
  return false;
}

interface InBox {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

/** Whether a point lies inside edges (even-odd; a point on an edge may fall either way). O(n). */
export function isWithin(edges: Float64Array, box: InBox, x: number, y: number): boolean {
  if (x < box.minX || x > box.maxX || y < box.minY || y > box.maxY) return false;
  let inside = false;
  for (let i = 0; i < edges.length; i += 4) {
    const y0 = edges[i + 1];
    const y1 = edges[i + 3];
    if (y0 > y === y1 > y) continue;
    if (x < ((edges[i + 2] - edges[i]) * (y - y0)) / (y1 - y0) + edges[i]) inside = !inside;
  }
  return inside;
}
