/**
 * Fewer vertices without losing any of the material: an outline may only grow (Gardeyn, Vanden Berghe, Wauters 2025b,
 * section on simplification). Two steps are possible, each adding one triangle: leave out a vertex that is turned inward,
 * or let the neighbours of an edge run on until they meet. The smallest triangle is added first.
 *
 * Roads not taken: growing by the tolerance and then simplifying to both sides (Douglas, Peucker): as many vertices, and
 * the outline is everywhere half a tolerance larger than it need be.
 */
import { type Ring, ringArea } from '../../geometry/ring.ts';

/** How far it may go. */
export interface Coarseness {
  /** No triangle that is added is higher than this. */
  readonly highest: number;
  /** What may be added in all, as a share of the ring's area; and the vertices at which it is enough. */
  readonly mostShare: number;
  readonly enough: number;
}

/**
 * A ring with fewer vertices that holds all that lay on its left (the inside of one that runs counter-clockwise; a hole that
 * runs clockwise shrinks). It stays simple if it was. O(vertices²).
 */
export function outward(ring: Ring, { highest, mostShare, enough }: Coarseness): Ring {
  let n = ring.length / 2;
  const xs = Float64Array.from({ length: n }, (_, i) => ring[2 * i]);
  const ys = Float64Array.from({ length: n }, (_, i) => ring[2 * i + 1]);
  const next = Int32Array.from({ length: n }, (_, i) => (i + 1) % n);
  const before = Int32Array.from({ length: n }, (_, i) => (i + n - 1) % n);
  const isGone = new Uint8Array(n);
  const least = Math.max(4, enough);
  let room = mostShare * Math.abs(ringArea(ring));
  /** Twice the area that a step at each vertex adds; what it is found by, Infinity for none. */
  const cost = new Float64Array(n);
  /** Where the neighbours of the edge from each vertex meet. */
  const apexX = new Float64Array(n);
  const apexY = new Float64Array(n);
  const judge = (i: number) => {
    const a = before[i];
    const b = next[i];
    cost[i] = Infinity;
    const turn = cross(xs[a], ys[a], xs[i], ys[i], xs[b], ys[b]);
    if (turn <= 0) {
      const base = Math.sqrt((xs[b] - xs[a]) * (xs[b] - xs[a]) + (ys[b] - ys[a]) * (ys[b] - ys[a]));
      if (base > 0 && -turn / base <= highest) cost[i] = -turn;
      return;
    }
    const c = next[b];
    if (cross(xs[i], ys[i], xs[b], ys[b], xs[c], ys[c]) <= 0) return;
    // The edges a–i and c–b run on until they meet beyond the edge i–b.
    const ux = xs[i] - xs[a];
    const uy = ys[i] - ys[a];
    const vx = xs[b] - xs[c];
    const vy = ys[b] - ys[c];
    const det = ux * vy - uy * vx;
    if (!(det < 0)) return;
    const t = ((xs[b] - xs[i]) * vy - (ys[b] - ys[i]) * vx) / det;
    if (!(t > 0)) return;
    apexX[i] = xs[i] + t * ux;
    apexY[i] = ys[i] + t * uy;
    const area = cross(xs[i], ys[i], apexX[i], apexY[i], xs[b], ys[b]);
    const base = Math.sqrt((xs[b] - xs[i]) * (xs[b] - xs[i]) + (ys[b] - ys[i]) * (ys[b] - ys[i]));
    if (area / base <= highest) cost[i] = area;
  };
  for (let i = 0; i < n; i++) judge(i);
  while (n > least) {
    let best = 0;
    for (let i = 1; i < cost.length; i++) if (cost[i] < cost[best]) best = i;
    if (cost[best] === Infinity || cost[best] / 2 > room) break;
    const b = next[best];
    const isInward = cross(xs[before[best]], ys[before[best]], xs[best], ys[best], xs[b], ys[b]) <= 0;
    const isClear = isInward
      ? isEmpty(xs, ys, isGone, before[best], best, b, xs[best], ys[best])
      : isEmpty(xs, ys, isGone, best, -1, b, apexX[best], apexY[best]) &&
        !isCrossed(xs, ys, isGone, next, best, b, apexX[best], apexY[best]);
    if (!isClear) {
      cost[best] = Infinity;
      continue;
    }
    room -= cost[best] / 2;
    let from = before[best];
    if (isInward) {
      isGone[best] = 1;
      cost[best] = Infinity;
      next[from] = b;
      before[b] = from;
    } else {
      // The edge's second vertex goes, the first moves to where they meet.
      isGone[b] = 1;
      cost[b] = Infinity;
      xs[best] = apexX[best];
      ys[best] = apexY[best];
      next[best] = next[b];
      before[next[best]] = best;
      from = before[best];
    }
    n--;
    for (let i = before[from], k = 0; k < 5; k++, i = next[i]) judge(i);
  }
  const kept: number[] = [];
  for (let i = 0; i < xs.length; i++) if (isGone[i] === 0) kept.push(xs[i], ys[i]);
  return Float64Array.from(kept);
}

const cross = (ax: number, ay: number, bx: number, by: number, cx: number, cy: number): number =>
  (bx - ax) * (cy - by) - (by - ay) * (cx - bx);

/** Whether no other vertex lies in the triangle of vertices a, b and the point (x, y), its edge included. */
function isEmpty(
  xs: Float64Array,
  ys: Float64Array,
  isGone: Uint8Array,
  a: number,
  tip: number,
  b: number,
  x: number,
  y: number,
): boolean {
  const sign = cross(xs[a], ys[a], x, y, xs[b], ys[b]) < 0 ? -1 : 1;
  const minX = Math.min(xs[a], xs[b], x);
  const maxX = Math.max(xs[a], xs[b], x);
  const minY = Math.min(ys[a], ys[b], y);
  const maxY = Math.max(ys[a], ys[b], y);
  for (let i = 0; i < xs.length; i++) {
    const px = xs[i];
    const py = ys[i];
    if (px < minX || px > maxX || py < minY || py > maxY) continue;
    if (isGone[i] === 1 || i === a || i === b || i === tip) continue;
    if (
      sign * cross(xs[a], ys[a], x, y, px, py) >= 0 &&
      sign * cross(x, y, xs[b], ys[b], px, py) >= 0 &&
      sign * cross(xs[b], ys[b], xs[a], ys[a], px, py) >= 0
    )
      return false;
  }
  return true;
}

/** Whether any edge but the neighbours of a–b meets the way from a over (x, y) to b. */
function isCrossed(
  xs: Float64Array,
  ys: Float64Array,
  isGone: Uint8Array,
  next: Int32Array,
  a: number,
  b: number,
  x: number,
  y: number,
): boolean {
  for (let i = 0; i < xs.length; i++) {
    if (isGone[i] === 1) continue;
    const j = next[i];
    if (i === a || i === b || j === a) continue;
    if (meet(xs[a], ys[a], x, y, xs[i], ys[i], xs[j], ys[j]) || meet(x, y, xs[b], ys[b], xs[i], ys[i], xs[j], ys[j]))
      return true;
  }
  return false;
}

function meet(ax: number, ay: number, bx: number, by: number, cx: number, cy: number, dx: number, dy: number): boolean {
  const c = cross(ax, ay, bx, by, cx, cy);
  const d = cross(ax, ay, bx, by, dx, dy);
  if ((c > 0 && d > 0) || (c < 0 && d < 0)) return false;
  const a = cross(cx, cy, dx, dy, ax, ay);
  const b = cross(cx, cy, dx, dy, bx, by);
  return !((a > 0 && b > 0) || (a < 0 && b < 0));
}
