import type { ChordEnd } from '../../geometry/chord.ts';
import type { Region, Ring } from '../../geometry/ring.ts';
import { gridPointOnEdge } from '../../geometry/snap.ts';

/** A straight way from one ring of a region to another. */
export interface Link {
  readonly a: ChordEnd;
  readonly b: ChordEnd;
  readonly squared: number;
}

/** Long edges are met at places so far apart, besides their corners: where the shortest way is taken there is another. */
const STEP_MM = 60;

/**
 * Ways between two rings of a region, the shortest first: from each corner of either to the nearest place on the other (one
 * end of the shortest way between two rings that do not cross is a corner), and from places along the edges of ring `to`.
 * O(points of one × points of the other).
 * @param mayMeet which edges of ring `from`, by number, may be met; all when not said.
 */
export function linksBetween(
  region: Region,
  from: number,
  to: number,
  mayMeet: (edge: number) => boolean = () => true,
): Link[] {
  const n = region[from].length / 2;
  const isFree = Array.from({ length: n }, (_, edge) => mayMeet(edge));
  const links: Link[] = [];
  for (let i = 0; i < n; i++) {
    // A corner may be met from either side of it.
    if (!isFree[i] && !isFree[(i + n - 1) % n]) continue;
    links.push(shortestFrom(region, endOn(region, from, i, 0), to, () => true));
  }
  for (let i = 0; i < region[to].length / 2; i++) {
    const steps = Math.ceil(edgeLength(region[to], i) / STEP_MM);
    for (let step = 0; step < steps; step++) {
      const { a, b, squared } = shortestFrom(region, endOn(region, to, i, step / steps), from, (edge) => isFree[edge]);
      links.push({ a: b, b: a, squared });
    }
  }
  return links.filter(({ squared }) => squared < Infinity).sort((p, q) => p.squared - q.squared);
}

/** The shortest way from a place to those edges of another ring that may be met. */
function shortestFrom(region: Region, a: ChordEnd, other: number, mayMeet: (edge: number) => boolean): Link {
  const { x, y } = a;
  const edges = region[other];
  const n = edges.length / 2;
  let squared = Infinity;
  let edge = 0;
  let share = 0;
  for (let k = 0; k < n; k++) {
    if (!mayMeet(k)) continue;
    const next = 2 * ((k + 1) % n);
    const dx = edges[next] - edges[2 * k];
    const dy = edges[next + 1] - edges[2 * k + 1];
    const long = dx * dx + dy * dy;
    let t = long > 0 ? ((x - edges[2 * k]) * dx + (y - edges[2 * k + 1]) * dy) / long : 0;
    t = t < 0 ? 0 : t > 1 ? 1 : t;
    const ex = edges[2 * k] + t * dx - x;
    const ey = edges[2 * k + 1] + t * dy - y;
    const here = ex * ex + ey * ey;
    if (here >= squared) continue;
    [squared, edge, share] = [here, k, t];
  }
  return { a, b: endOn(region, other, edge, share), squared };
}

function edgeLength(ring: Ring, edge: number): number {
  const next = (2 * edge + 2) % ring.length;
  const [dx, dy] = [ring[next] - ring[2 * edge], ring[next + 1] - ring[2 * edge + 1]];
  return Math.sqrt(dx * dx + dy * dy);
}

/** The end of a link so far along an edge, on the grid. */
function endOn(region: Region, ring: number, edge: number, share: number): ChordEnd {
  const points = region[ring];
  const next = (edge + 1) % (points.length / 2);
  const [ax, ay, bx, by] = [points[2 * edge], points[2 * edge + 1], points[2 * next], points[2 * next + 1]];
  if (share === 0) return { x: ax, y: ay, ring, edge, isNew: false };
  if (share === 1) return { x: bx, y: by, ring, edge: next, isNew: false };
  const [x, y] = gridPointOnEdge(ax, ay, bx, by, ax + share * (bx - ax), ay + share * (by - ay));
  if (x === ax && y === ay) return { x, y, ring, edge, isNew: false };
  if (x === bx && y === by) return { x, y, ring, edge: next, isNew: false };
  return { x, y, ring, edge, isNew: true };
}
