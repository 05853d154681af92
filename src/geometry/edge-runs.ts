import { turn } from './exact-math.ts';
import { type Box, type Ring, ringArea } from './ring.ts';

/** Edges in one run: enough to make boxes worth it, few enough to test one by one. */
export const RUN = 8;

/**
 * The edges of some rings, indexed for one question: does it meet another set of edges? Neighbouring edges of a ring lie
 * near each other, so runs of eight in their order, each with its box, are an index that needs no building. (For
 * outlines of 30 to 300 points two levels are as quick as a tree: most of the work is the edges that really are near.)
 */
export interface EdgeRuns {
  readonly box: Box;
  /** x, y, x, y of each edge, ring by ring. */
  readonly edges: Float64Array;
  /** Least x, least y, largest x, largest y of each run. */
  readonly runs: Float64Array;
  /** One point of each ring that runs counter-clockwise. */
  readonly seeds: Float64Array;
  /** One point of each ring that runs clockwise. */
  readonly holeSeeds: Float64Array;
}

/** Index the edges of rings whose inside is read by even-odd rule. */
export function edgeRuns(rings: readonly Ring[]): EdgeRuns {
  const edges = new Float64Array(rings.reduce((sum, ring) => sum + ring.length, 0) * 2);
  const seeds: number[] = [];
  const holeSeeds: number[] = [];
  let at = 0;
  for (const ring of rings) {
    for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
      edges[at++] = ring[j];
      edges[at++] = ring[j + 1];
      edges[at++] = ring[i];
      edges[at++] = ring[i + 1];
    }
    if (ring.length > 0) (ringArea(ring) < 0 ? holeSeeds : seeds).push(ring[0], ring[1]);
  }
  return { ...boxesOf(edges), edges, seeds: Float64Array.from(seeds), holeSeeds: Float64Array.from(holeSeeds) };
}

/** The same edges turned counter-clockwise about the origin. */
export function turnedRuns({ edges, seeds, holeSeeds }: EdgeRuns, turnDeg: number): EdgeRuns {
  const { cos, sin } = turn(turnDeg);
  const turned = turnedPoints(edges, cos, sin);
  return {
    ...boxesOf(turned),
    edges: turned,
    seeds: turnedPoints(seeds, cos, sin),
    holeSeeds: turnedPoints(holeSeeds, cos, sin),
  };
}

function turnedPoints(points: Float64Array, cos: number, sin: number): Float64Array {
  const turned = new Float64Array(points.length);
  for (let i = 0; i < points.length; i += 2) {
    turned[i] = points[i] * cos - points[i + 1] * sin;
    turned[i + 1] = points[i] * sin + points[i + 1] * cos;
  }
  return turned;
}

/** The boxes of each run of edges and of all. */
function boxesOf(edges: Float64Array): { box: Box; runs: Float64Array } {
  const runs = new Float64Array(Math.ceil(edges.length / (4 * RUN)) * 4);
  let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity];
  for (let r = 0; r < runs.length; r += 4) {
    let [left, low, right, high] = [Infinity, Infinity, -Infinity, -Infinity];
    const to = Math.min(edges.length, (r + 4) * RUN);
    for (let i = r * RUN; i < to; i += 2) {
      const x = edges[i];
      const y = edges[i + 1];
      if (x < left) left = x;
      if (x > right) right = x;
      if (y < low) low = y;
      if (y > high) high = y;
    }
    runs[r] = left;
    runs[r + 1] = low;
    runs[r + 2] = right;
    runs[r + 3] = high;
    minX = Math.min(minX, left);
    minY = Math.min(minY, low);
    maxX = Math.max(maxX, right);
    maxY = Math.max(maxY, high);
  }
  return { box: [minX, minY, maxX, maxY], runs };
}

/** Whether any edge of a and any edge of b, moved by (dx, dy), have a point in common. Touching counts. */
export function edgesMeet(a: EdgeRuns, b: EdgeRuns, dx: number, dy: number): boolean {
  const ar = a.runs;
  const br = b.runs;
  const [minX, minY, maxX, maxY] = b.box;
  for (let i = 0; i < ar.length; i += 4) {
    // In b's frame, so that b stays as it is stored.
    const left = ar[i] - dx;
    const low = ar[i + 1] - dy;
    const right = ar[i + 2] - dx;
    const high = ar[i + 3] - dy;
    if (left > maxX || right < minX || low > maxY || high < minY) continue;
    for (let j = 0; j < br.length; j += 4) {
      if (left > br[j + 2] || right < br[j] || low > br[j + 3] || high < br[j + 1]) continue;
      if (runsMeet(a.edges, i * RUN, b.edges, j * RUN, dx, dy)) return true;
    }
  }
  return false;
}

/** Whether a point lies inside (even-odd; a point on an edge may fall either way). O(n). */
export function isWithin({ edges, box }: EdgeRuns, x: number, y: number): boolean {
  if (x < box[0] || x > box[2] || y < box[1] || y > box[3]) return false;
  let inside = false;
  for (let i = 0; i < edges.length; i += 4) {
    const y0 = edges[i + 1];
    const y1 = edges[i + 3];
    if (y0 > y === y1 > y) continue;
    if (x < ((edges[i + 2] - edges[i]) * (y - y0)) / (y1 - y0) + edges[i]) inside = !inside;
  }
  return inside;
}

/** Whether the inside of a and the inside of b, moved by (dx, dy), have a point in common, or their edges touch. */
export function overlap(a: EdgeRuns, b: EdgeRuns, dx: number, dy: number): boolean {
  return edgesMeet(a, b, dx, dy) || holdsSeed(a, b, dx, dy) || holdsSeed(b, a, -dx, -dy);
}

/** Whether a holds a seed of b, moved by (dx, dy): with no edges meeting, whether any of b's areas lies in a. */
function holdsSeed(a: EdgeRuns, b: EdgeRuns, dx: number, dy: number): boolean {
  for (let i = 0; i < b.seeds.length; i += 2) if (isWithin(a, b.seeds[i] + dx, b.seeds[i + 1] + dy)) return true;
  return false;
}

function runsMeet(a: Float64Array, aFrom: number, b: Float64Array, bFrom: number, dx: number, dy: number): boolean {
  const aTo = Math.min(a.length, aFrom + 4 * RUN);
  const bTo = Math.min(b.length, bFrom + 4 * RUN);
  for (let i = aFrom; i < aTo; i += 4) {
    const x0 = a[i] - dx;
    const y0 = a[i + 1] - dy;
    const x1 = a[i + 2] - dx;
    const y1 = a[i + 3] - dy;
    const ux = x1 - x0;
    const uy = y1 - y0;
    for (let j = bFrom; j < bTo; j += 4) {
      const x2 = b[j];
      const y2 = b[j + 1];
      const x3 = b[j + 2];
      const y3 = b[j + 3];
      if (x0 < x2 ? x1 < x2 && x0 < x3 && x1 < x3 : x0 > x3 && x1 > x2 && x1 > x3 && x0 > x2) continue;
      if (y0 < y2 ? y1 < y2 && y0 < y3 && y1 < y3 : y0 > y3 && y1 > y2 && y1 > y3 && y0 > y2) continue;
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
