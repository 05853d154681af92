import { Chains, EdgeGrid } from './edge-grid.ts';
import type { Ring } from './ring.ts';
import { orient, segmentsMeet, segmentsOverlap } from './whole.ts';

const APART = 0;
/** A corner on an edge, or edges that run along each other in opposite senses. */
const TOUCH = 1;
const CROSS = 2;

/** Rings that meet, by their numbers, rising. */
export interface Meeting {
  readonly rings: number[];
  /** Some of them cross; otherwise they touch along edges, or with a corner on an edge. */
  isCrossing: boolean;
}

/**
 * Fill the grid with all edges of the chains, and find the rings that meet themselves or each other otherwise than
 * corner to corner without crossing. About O(edges).
 */
export function meetings(chains: Chains, grid: EdgeGrid): Meeting[] {
  const { count, x, y, next, ring, starts } = chains;
  const leader = Int32Array.from({ length: starts.length - 1 }, (_, i) => i);
  const meets = new Uint8Array(leader.length);
  for (let p = 0; p < count; p++) {
    const q = next[p];
    const found = grid.near(x[p], y[p], x[q], y[q], 0);
    for (let i = 0; i < found; i++) {
      const how = meetingOf(chains, p, grid.found[i]);
      if (how === APART) continue;
      const [a, b] = [ring[p], ring[grid.found[i]]];
      meets[a] = Math.max(meets[a], how);
      meets[b] = Math.max(meets[b], how);
      const [low, high] = [led(leader, a), led(leader, b)];
      leader[Math.max(low, high)] = Math.min(low, high);
    }
    grid.add(p);
  }
  const groups = new Map<number, Meeting>();
  for (let i = 0; i < meets.length; i++) {
    if (meets[i] === APART) continue;
    const group = groups.get(led(leader, i)) ?? { rings: [], isCrossing: false };
    group.rings.push(i);
    group.isCrossing ||= meets[i] === CROSS;
    groups.set(led(leader, i), group);
  }
  return [...groups.values()];
}

/** Whether any two of some edges meet so. About O(chains' points). */
export function someMeet(chains: Chains, isLookedAt: Uint8Array): boolean {
  const { count, x, y, next } = chains;
  const grid = new EdgeGrid(chains, false);
  for (let p = 0; p < count; p++) {
    if (isLookedAt[p] === 0) continue;
    const q = next[p];
    const found = grid.near(x[p], y[p], x[q], y[q], 0);
    for (let i = 0; i < found; i++) if (meet(chains, p, grid.found[i])) return true;
    grid.add(p);
  }
  return false;
}

/** Whether the edges that start at two points meet so. */
export const meet = (chains: Chains, p: number, r: number): boolean => meetingOf(chains, p, r) !== APART;

/** The lowest ring known to be in a ring's group. Paths are halved on the way. */
function led(leader: Int32Array, ring: number): number {
  let at = ring;
  while (leader[at] !== at) at = leader[at] = leader[leader[at]];
  return at;
}

function meetingOf({ x, y, next, prev }: Chains, p: number, r: number): number {
  const q = next[p];
  const s = next[r];
  if (q === r) return foldsBack(x[p], y[p], x[q], y[q], x[s], y[s]) ? TOUCH : APART;
  if (s === p) return foldsBack(x[r], y[r], x[p], y[p], x[q], y[q]) ? TOUCH : APART;
  if (!segmentsMeet(x[p], y[p], x[q], y[q], x[r], y[r], x[s], y[s])) return APART;
  if (segmentsOverlap(x[p], y[p], x[q], y[q], x[r], y[r], x[s], y[s])) {
    const isAgainst = (x[q] - x[p]) * (x[s] - x[r]) + (y[q] - y[p]) * (y[s] - y[r]) < 0;
    return isAgainst ? TOUCH : CROSS;
  }
  const a = (x[p] === x[r] && y[p] === y[r]) || (x[p] === x[s] && y[p] === y[s]) ? p : q;
  const b = x[a] === x[r] && y[a] === y[r] ? r : s;
  if (x[a] === x[b] && y[a] === y[b]) return meetingAtCorner(x, y, next[a], a, prev[a], next[b], prev[b]);
  const isCorner =
    orient(x[p], y[p], x[q], y[q], x[r], y[r]) === 0 ||
    orient(x[p], y[p], x[q], y[q], x[s], y[s]) === 0 ||
    orient(x[r], y[r], x[s], y[s], x[p], y[p]) === 0 ||
    orient(x[r], y[r], x[s], y[s], x[q], y[q]) === 0;
  return isCorner ? TOUCH : CROSS;
}

/** Whether the edge b–c runs back along a–b. */
const foldsBack = (ax: number, ay: number, bx: number, by: number, cx: number, cy: number): boolean =>
  orient(ax, ay, bx, by, cx, cy) === 0 && (ax - bx) * (cx - bx) + (ay - by) * (cy - by) > 0;

/** How rings meet that both have a corner at p, one coming from b and going to a, the other from d and going to c. */
function meetingAtCorner(
  x: Float64Array,
  y: Float64Array,
  a: number,
  p: number,
  b: number,
  c: number,
  d: number,
): number {
  for (const u of [a, b]) {
    for (const v of [c, d]) if (foldsBack(x[u], y[u], x[p], y[p], x[v], y[v])) return TOUCH;
  }
  return isBetween(x, y, a, p, b, c) === isBetween(x, y, a, p, b, d) ? APART : CROSS;
}

/** Whether, seen from p, the point c lies counter-clockwise between a and b. */
function isBetween(x: Float64Array, y: Float64Array, a: number, p: number, b: number, c: number): boolean {
  const isAfterA = orient(x[p], y[p], x[a], y[a], x[c], y[c]) > 0;
  const isBeforeB = orient(x[p], y[p], x[c], y[c], x[b], y[b]) > 0;
  return orient(x[p], y[p], x[a], y[a], x[b], y[b]) > 0 ? isAfterA && isBeforeB : isAfterA || isBeforeB;
}

/**
 * The same area without edges that are run both ways: rings that share edges become one, a hole along its outline a bay.
 * A corner on an edge becomes a corner of that edge too. Exact, whatever the sense of the rings; about O(edges).
 */
export function parted(rings: readonly Ring[]): Ring[] {
  const chains = new Chains(withCorners(rings));
  const grid = new EdgeGrid(chains);
  for (let isMoving = true; isMoving; ) {
    isMoving = false;
    for (let p = 0; p < chains.count; p++) {
      const r = against(chains, grid, p);
      if (r < 0) continue;
      cancel(chains, p, r);
      isMoving = true;
      if (chains.next[p] >= 0) grid.add(p);
      if (chains.next[r] >= 0) grid.add(r);
    }
  }
  return walked(chains);
}

/** An edge that runs back along the whole of another; −1 when there is none. */
function against({ x, y, next }: Chains, grid: EdgeGrid, p: number): number {
  const q = next[p];
  if (q < 0) return -1;
  const found = grid.near(x[p], y[p], x[q], y[q], 0);
  for (let i = 0; i < found; i++) {
    const r = grid.found[i];
    const s = next[r];
    if (x[q] === x[r] && y[q] === y[r] && x[p] === x[s] && y[p] === y[s]) return r;
  }
  return -1;
}

/** Take out two edges p–q and r–s that run against each other: who came to p goes on from s, who came to r from q. */
function cancel({ next, prev }: Chains, p: number, r: number): void {
  const q = next[p];
  const s = next[r];
  const [afterQ, afterS] = [next[q], next[s]];
  const join = (a: number, b: number) => {
    next[a] = b;
    prev[b] = a;
  };
  next[q] = next[s] = -1;
  if (q === r && s === p) return;
  if (q !== r) join(r, afterQ);
  if (s !== p) join(p, afterS);
}

/** The rings that are left, each from its earliest point. */
function walked({ count, x, y, next }: Chains): Ring[] {
  const rings: Ring[] = [];
  for (let begin = 0; begin < count; begin++) {
    const points: number[] = [];
    for (let point = begin; next[point] >= 0; ) {
      points.push(x[point], y[point]);
      const after = next[point];
      next[point] = -1;
      point = after;
    }
    if (points.length >= 6) rings.push(Float64Array.from(points));
  }
  return rings;
}

/** The same rings with every corner that lies on an edge put into it. */
function withCorners(rings: readonly Ring[]): Ring[] {
  const chains = new Chains(rings);
  const { x, y, next, starts } = chains;
  const grid = new EdgeGrid(chains);
  return rings.map((_, ring) => {
    const points: number[] = [];
    for (let p = starts[ring]; p < starts[ring + 1]; p++) {
      const q = next[p];
      const along = (r: number) => (x[r] - x[p]) * (x[q] - x[p]) + (y[r] - y[p]) * (y[q] - y[p]);
      const found = Array.from(grid.found.subarray(0, grid.near(x[p], y[p], x[q], y[q], 0)));
      const on = found.filter(
        (r) => orient(x[p], y[p], x[q], y[q], x[r], y[r]) === 0 && along(r) > 0 && along(r) < along(q),
      );
      on.sort((a, b) => along(a) - along(b));
      for (const r of [p, ...on]) {
        if (x[r] !== points.at(-2) || y[r] !== points.at(-1)) points.push(x[r], y[r]);
      }
    }
    return Float64Array.from(points);
  });
}
