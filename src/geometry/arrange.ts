/**
 * From rings as they come to regions: simple, disjoint, holes under their outlines.
 *
 * Clipping would do all of it, but costs more than everything before it: it sorts each edge among all that its sweep
 * has open (minutes for noisy ground). So rings are first looked over. Those that only touch along edges, as outlines do
 * where ground lies flat at their level, are parted exactly; only those that cross are clipped, group by group. That is
 * safe because what lies in is a matter of parity (how many rings are round a point), and parities add: a group may be
 * replaced by any rings with the same parity everywhere, however the rest lies.
 */
import { regionsFromRings } from './clip.ts';
import { Chains, EdgeGrid } from './edge-grid.ts';
import { type Bottom, bottomOf, leftOf } from './left-of.ts';
import { meetings, parted } from './meetings.ts';
import { type Region, type Ring, reversed, ringArea, ringsOf } from './ring.ts';
import { CLIP_UNITS } from './tolerance.ts';
import { toWhole } from './whole.ts';

/** What clipping rounds can touch anew; it has never been seen to take three rounds. */
const MOST_ROUNDS = 6;

/**
 * Sort rings into regions by even-odd rule. In and out in whole numbers (whole.ts). Rings that neither meet others nor
 * themselves, or only corner to corner, come out as they are, point for point; the others are parted or clipped first.
 * Afterwards rings touch at corners at most. Regions come in order of their outer ring's lowest point.
 */
export function arrange(rings: readonly Ring[]): Region[] {
  const sound: Ring[] = [];
  let left = rings;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const chains = new Chains(left);
    const grid = new EdgeGrid(chains, false);
    const groups = meetings(chains, grid);
    if (groups.length === 0 && round === 0) return nested(rings, chains, grid);
    const meeting = new Set(groups.flatMap((group) => group.rings));
    for (const [i, ring] of left.entries()) if (!meeting.has(i)) sound.push(ring);
    const before = left;
    left = groups.flatMap((group) => {
      const met = group.rings.map((i) => before[i]);
      return parted(group.isCrossing ? clipped(met) : met);
    });
    if (left.length === 0) break;
  }
  const all = [...sound, ...left];
  const chains = new Chains(all);
  return nested(all, chains, new EdgeGrid(chains));
}

const clipped = (rings: readonly Ring[]): Ring[] =>
  toWhole(ringsOf(regionsFromRings(rings.map((ring) => ring.map((value) => value / CLIP_UNITS)))));

/**
 * Hang holes under outlines. Half a unit above a ring's lowest point no ring has a point, so there the nearest edge to
 * the left says all: the ring lies in that edge's ring, or beside it and in what that one lies in. Rings are taken from
 * the lowest up and from the left, so that the other is already known.
 */
function nested(rings: readonly Ring[], chains: Chains, grid: EdgeGrid): Region[] {
  const { y, next, ring } = chains;
  const areas = rings.map(ringArea);
  const lowest = new Int32Array(rings.length);
  const left = new Float64Array(rings.length);
  const bottom: Bottom = { point: 0, left: 0, right: 0 };
  for (let i = 0; i < rings.length; i++) {
    bottomOf(chains, i, bottom);
    lowest[i] = bottom.point;
    left[i] = bottom.left;
  }
  const order = rings.map((_, i) => i).filter((i) => areas[i] !== 0);
  order.sort((a, b) => y[lowest[a]] - y[lowest[b]] || left[a] - left[b] || a - b);

  const parent = new Int32Array(rings.length).fill(-1);
  const depth = new Int32Array(rings.length);
  const outlines = new Map<number, Ring[]>();
  for (const i of order) {
    const edge = leftOf(chains, grid, i, chains.x[lowest[i]], y[lowest[i]], left[i]);
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
