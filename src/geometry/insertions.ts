import type { Region, Ring } from './ring.ts';

/** A point put on an edge: whoever has the same edge from the other side must put it there too. */
export interface Insertion {
  /** x, y of the edge's start, of its end, of the new point. */
  readonly at: readonly [number, number, number, number, number, number];
}

/** An edge as it was before points were put on it, from either side. */
interface WholeEdge {
  readonly x: number;
  readonly y: number;
  readonly dx: number;
  readonly dy: number;
  readonly points: [along: number, x: number, y: number][];
}

/**
 * Regions with every point that was put on an edge from one side put there from the other side too, in order along it: chords
 * may end on a seam from both of its sides, and again on what is left of it between two ends. O(points + insertions).
 * @param insertions in the order in which they were made on each side.
 */
export function withInsertions(regions: readonly Region[], insertions: readonly Insertion[]): Region[] {
  if (insertions.length === 0) return [...regions];
  const edges = new Map<string, WholeEdge>();
  for (const { at } of insertions) {
    const [ax, ay, bx, by, x, y] = at;
    const whole = edges.get(edgeKey(ax, ay, bx, by)) ?? { x: ax, y: ay, dx: bx - ax, dy: by - ay, points: [] };
    whole.points.push([(x - whole.x) * whole.dx + (y - whole.y) * whole.dy, x, y]);
    for (const key of [edgeKey(ax, ay, bx, by), edgeKey(ax, ay, x, y), edgeKey(x, y, bx, by)]) edges.set(key, whole);
  }
  for (const { points } of edges.values()) points.sort((p, q) => p[0] - q[0]);
  return regions.map((region) => region.map((ring) => filled(ring, edges)));
}

/** A ring with the points of whole edges put in that lie between the ends of its own. */
function filled(ring: Ring, edges: ReadonlyMap<string, WholeEdge>): Ring {
  const result: number[] = [];
  for (let i = 0; i < ring.length; i += 2) {
    const next = i + 2 < ring.length ? i + 2 : 0;
    const [px, py, qx, qy] = [ring[i], ring[i + 1], ring[next], ring[next + 1]];
    result.push(px, py);
    const whole = edges.get(edgeKey(px, py, qx, qy));
    if (!whole) continue;
    const along = (x: number, y: number) => (x - whole.x) * whole.dx + (y - whole.y) * whole.dy;
    const [from, to] = [along(px, py), along(qx, qy)];
    const between = whole.points.filter(([at]) => at > Math.min(from, to) && at < Math.max(from, to));
    if (from > to) between.reverse();
    let [lastX, lastY] = [px, py];
    for (const [, x, y] of between) {
      if (x === lastX && y === lastY) continue;
      result.push(x, y);
      [lastX, lastY] = [x, y];
    }
  }
  return result.length === ring.length ? ring : Float64Array.from(result);
}

/** The same for an edge run either way. */
const edgeKey = (ax: number, ay: number, bx: number, by: number): string =>
  ax < bx || (ax === bx && ay < by) ? `${ax},${ay},${bx},${by}` : `${bx},${by},${ax},${ay}`;
