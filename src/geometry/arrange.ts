/**
 * From rings as they come to regions: simple, disjoint, holes under their outlines.
 *
 * Clipping does all of it, but costs more than everything before it: it sorts each edge among all that its sweep has
 * open (minutes for noisy ground). So rings are first looked over, and only those that meet themselves or each other
 * are clipped, group by group. That is safe because what lies in is a matter of parity (how many rings are round a
 * point), and parities add: a group may be replaced by any rings with the same parity everywhere, however the rest lies.
 */
import { regionsFromRings } from './clip.ts';
import { Chains, EdgeGrid } from './edge-grid.ts';
import { type Region, type Ring, reversed, ringArea, ringsOf } from './ring.ts';
import { CLIP_UNITS } from './tolerance.ts';
import { orient, segmentsMeet, segmentsOverlap, toWhole } from './whole.ts';

/**
 * Sort rings into regions by even-odd rule. In and out in whole numbers (whole.ts). Rings that touch or cross, and
 * single ones that touch or cross themselves, are clipped first; the others come out as they are, point for point.
 * Afterwards rings touch at single points at most. Regions come in order of their outer ring's lowest point.
 */
export function arrange(rings: readonly Ring[]): Region[] {
  const chains = new Chains(rings);
  const grid = new EdgeGrid(chains, false);
  const groups = meetings(chains, grid);
  if (groups.length === 0) return nested(rings, chains, grid);
  const clipped = new Set(groups.flat());
  const apart = rings.filter((_, i) => !clipped.has(i));
  for (const group of groups) apart.push(...clip(group.map((i) => rings[i])));
  const again = new Chains(apart);
  return nested(apart, again, new EdgeGrid(again));
}

const clip = (rings: readonly Ring[]): Ring[] =>
  toWhole(ringsOf(regionsFromRings(rings.map((ring) => ring.map((value) => value / CLIP_UNITS)))));

/** Fill the grid with all edges, and find the rings that meet: groups of their numbers, rising. */
function meetings(chains: Chains, grid: EdgeGrid): number[][] {
  const { count, x, y, next, prev, ring, starts } = chains;
  const leader = new Int32Array(starts.length - 1);
  const meets = new Uint8Array(leader.length);
  for (let i = 0; i < leader.length; i++) leader[i] = i;
  for (let p = 0; p < count; p++) {
    const q = next[p];
    const found = grid.near(x[p], y[p], x[q], y[q], 0);
    for (let i = 0; i < found; i++) {
      const r = grid.found[i];
      const isMet = r === q ? foldsBack(chains, q) : r === prev[p] ? foldsBack(chains, p) : conflict(chains, p, r);
      if (!isMet) continue;
      meets[ring[p]] = 1;
      meets[ring[r]] = 1;
      const a = led(leader, ring[p]);
      const b = led(leader, ring[r]);
      leader[Math.max(a, b)] = Math.min(a, b);
    }
    grid.add(p);
  }
  const groups = new Map<number, number[]>();
  for (let i = 0; i < meets.length; i++) {
    if (meets[i] === 0) continue;
    const group = groups.get(led(leader, i));
    if (group) group.push(i);
    else groups.set(led(leader, i), [i]);
  }
  return [...groups.values()];
}

/** The lowest ring known to be in a ring's group. Paths are halved on the way. */
function led(leader: Int32Array, ring: number): number {
  let at = ring;
  while (leader[at] !== at) at = leader[at] = leader[leader[at]];
  return at;
}

/** Whether a ring runs back on itself at a point. */
function foldsBack({ x, y, next, prev }: Chains, p: number): boolean {
  const [a, b] = [prev[p], next[p]];
  if (orient(x[a], y[a], x[p], y[p], x[b], y[b]) !== 0) return false;
  return (x[a] - x[p]) * (x[b] - x[p]) + (y[a] - y[p]) * (y[b] - y[p]) > 0;
}

/** Whether two edges that do not follow each other meet otherwise than by rings that touch, corner to corner. */
function conflict(chains: Chains, p: number, r: number): boolean {
  const { x, y, next } = chains;
  const q = next[p];
  const s = next[r];
  if (!segmentsMeet(x[p], y[p], x[q], y[q], x[r], y[r], x[s], y[s])) return false;
  if (segmentsOverlap(x[p], y[p], x[q], y[q], x[r], y[r], x[s], y[s])) return true;
  const a = (x[p] === x[r] && y[p] === y[r]) || (x[p] === x[s] && y[p] === y[s]) ? p : q;
  const b = x[a] === x[r] && y[a] === y[r] ? r : s;
  if (x[a] !== x[b] || y[a] !== y[b]) return true;
  return isBetween(chains, a, chains.prev[b]) !== isBetween(chains, a, next[b]);
}

/** Whether, seen from a point of a ring, another point lies counter-clockwise between its next and its previous one. */
function isBetween({ x, y, next, prev }: Chains, p: number, other: number): boolean {
  const [a, b] = [next[p], prev[p]];
  const afterA = orient(x[p], y[p], x[a], y[a], x[other], y[other]) > 0;
  const beforeB = orient(x[p], y[p], x[other], y[other], x[b], y[b]) > 0;
  return orient(x[p], y[p], x[a], y[a], x[b], y[b]) > 0 ? afterA && beforeB : afterA || beforeB;
}

/**
 * Hang holes under outlines. Half a unit above a ring's lowest point no ring has a point, so there the nearest edge to
 * the left says all: the ring lies in that edge's ring, or beside it and in what that one lies in. Rings are taken from
 * the lowest up and from the left, so that the other is already known.
 */
function nested(rings: readonly Ring[], chains: Chains, grid: EdgeGrid): Region[] {
  const { x, y, next, ring, starts } = chains;
  const areas = rings.map(ringArea);
  const lowest = new Int32Array(rings.length);
  const left = new Float64Array(rings.length);
  for (let i = 0; i < rings.length; i++) {
    let low = starts[i];
    for (let p = low + 1; p < starts[i + 1]; p++) if (y[p] < y[low] || (y[p] === y[low] && x[p] < x[low])) low = p;
    let least = Infinity;
    for (let p = starts[i]; p < starts[i + 1]; p++) {
      if (y[p] > y[low] !== y[next[p]] > y[low]) least = Math.min(least, x[low] + crossing(chains, p, x[low], y[low]));
    }
    lowest[i] = low;
    left[i] = least;
  }
  const order = rings.map((_, i) => i).filter((i) => areas[i] !== 0);
  order.sort((a, b) => y[lowest[a]] - y[lowest[b]] || left[a] - left[b] || a - b);

  const parent = new Int32Array(rings.length).fill(-1);
  const depth = new Int32Array(rings.length);
  const outlines = new Map<number, Ring[]>();
  for (const i of order) {
    const edge = leftOf(chains, grid, i, lowest[i], left[i]);
    if (edge >= 0) {
      const other = ring[edge];
      // Run counter-clockwise, what lies to the right of an edge that goes down is in.
      const isIn = y[next[edge]] < y[edge] === areas[other] > 0;
      parent[i] = isIn ? other : parent[other];
      depth[i] = isIn ? depth[other] + 1 : depth[other];
    }
    const isHole = depth[i] % 2 === 1;
    const directed = areas[i] > 0 === isHole ? reversed(rings[i]) : rings[i];
    if (isHole) outlines.get(parent[i])?.push(directed);
    else outlines.set(i, [directed]);
  }
  return [...outlines.values()];
}

/** Where an edge crosses half a unit above y, from x: small numbers, so that near crossings keep their order. */
function crossing({ x: xs, y: ys, next }: Chains, edge: number, x: number, y: number): number {
  const end = next[edge];
  return xs[edge] - x + ((xs[end] - xs[edge]) * (y + 0.5 - ys[edge])) / (ys[end] - ys[edge]);
}

/** The edge of another ring that is nearest to the left of where a ring begins; −1 when there is none. */
function leftOf(chains: Chains, grid: EdgeGrid, own: number, low: number, begin: number): number {
  const { x, y, next, ring } = chains;
  let nearest = -1;
  let best = -Infinity;
  let to = begin;
  for (const span = 8 * grid.cell; to > grid.minX; ) {
    const from = to - span;
    const found = grid.near(from, y[low] + 0.5, to, y[low] + 0.5, 0);
    for (let i = 0; i < found; i++) {
      const edge = grid.found[i];
      if (ring[edge] === own || y[edge] > y[low] === y[next[edge]] > y[low]) continue;
      const at = crossing(chains, edge, x[low], y[low]);
      if (at >= begin - x[low] || at < best || (at === best && edge > nearest)) continue;
      best = at;
      nearest = edge;
    }
    if (x[low] + best >= from) break;
    to = from;
  }
  return nearest;
}
