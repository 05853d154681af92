import { type Point, type Region, type Ring, squaredDistanceToSegment } from './ring.ts';
import { snapped } from './snap.ts';
import { CLIP_UNITS, SNAP } from './tolerance.ts';

/** Points to be put on edges, by the edge: whoever has the edge, run either way, gets the same points. */
export type OnEdges = ReadonlyMap<string, readonly Point[]>;

/**
 * The points in which straight lines cross the edges of rings, on the grid, for both. Where a corner of a ring or the end of
 * a line lies within SNAP of the other, it is that point itself. O(lines × edges).
 * @param lines x, y of one end, x, y of the other, line by line.
 */
export function crossingsOf(rings: Iterable<Ring>, lines: ArrayLike<number>): OnEdges {
  const found = new Map<string, Point[]>();
  const put = (edge: readonly [number, number, number, number], point: Point) => {
    const key = keyOf(...edge);
    found.set(key, [...(found.get(key) ?? []), point]);
  };
  const seen = new Set<string>();
  for (const ring of rings) {
    for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
      const edge = inOrder(ring[j], ring[j + 1], ring[i], ring[i + 1]);
      const key = keyOf(...edge);
      if (seen.has(key)) continue;
      seen.add(key);
      for (let k = 0; k < lines.length; k += 4) {
        const line = inOrder(lines[k], lines[k + 1], lines[k + 2], lines[k + 3]);
        if (!boxesMeet(edge, line)) continue;
        meet(edge, line, put);
      }
    }
  }
  return found;
}

/** A region with the points of its edges put in. Gives the same region when there are none. */
export const withCrossings = (region: Region, points: OnEdges): Region =>
  region.map((ring) => withPoints(ring, points));

type Segment = readonly [ax: number, ay: number, bx: number, by: number];

/** Note where an edge and a line meet: on the one, on the other, or on both. */
function meet(edge: Segment, line: Segment, put: (on: Segment, point: Point) => void): void {
  const [ax, ay, bx, by] = edge;
  const [px, py, qx, qy] = line;
  let isDone = false;
  for (const [x, y] of [
    [ax, ay],
    [bx, by],
  ]) {
    const isEnd = (x === px && y === py) || (x === qx && y === qy);
    if (!isEnd && !isNear(x, y, line)) continue;
    isDone = true;
    if (!isEnd) put(line, [x, y]);
  }
  for (const [x, y] of [
    [px, py],
    [qx, qy],
  ]) {
    const isEnd = (x === ax && y === ay) || (x === bx && y === by);
    if (isEnd || !isNear(x, y, edge)) continue;
    isDone = true;
    put(edge, [x, y]);
  }
  if (isDone) return;
  const a = side(ax, ay, line);
  const b = side(bx, by, line);
  if (a > 0 === b > 0 || side(px, py, edge) > 0 === side(qx, qy, edge) > 0) return;
  const t = a / (a - b);
  const point: Point = [snapped(ax + t * (bx - ax)), snapped(ay + t * (by - ay))];
  put(edge, point);
  put(line, point);
}

/** Twice the area, in units of the grid, of a line and a point: exact while coordinates are under 47 m. */
function side(x: number, y: number, [ax, ay, bx, by]: Segment): number {
  const unit = (value: number) => Math.round(value * CLIP_UNITS);
  return (unit(bx) - unit(ax)) * (unit(y) - unit(ay)) - (unit(by) - unit(ay)) * (unit(x) - unit(ax));
}

const isNear = (x: number, y: number, [ax, ay, bx, by]: Segment): boolean =>
  squaredDistanceToSegment(x, y, ax, ay, bx, by) <= SNAP * SNAP;

function boxesMeet(a: Segment, b: Segment): boolean {
  return (
    a[0] <= b[2] + SNAP &&
    b[0] <= a[2] + SNAP &&
    Math.min(a[1], a[3]) <= Math.max(b[1], b[3]) + SNAP &&
    Math.min(b[1], b[3]) <= Math.max(a[1], a[3]) + SNAP
  );
}

/** The same segment from left to right, from below where it stands upright: so that it is reckoned one way only. */
const inOrder = (ax: number, ay: number, bx: number, by: number): Segment =>
  ax < bx || (ax === bx && ay <= by) ? [ax, ay, bx, by] : [bx, by, ax, ay];

const keyOf = (...segment: Segment): string => segment.join(',');

function withPoints(ring: Ring, points: OnEdges): Ring {
  const result: number[] = [];
  let isSame = true;
  for (let i = 0; i < ring.length; i += 2) {
    const k = (i + 2) % ring.length;
    const [x, y] = [ring[i], ring[i + 1]];
    result.push(x, y);
    const along = ([px, py]: Point) => (px - x) * (ring[k] - x) + (py - y) * (ring[k + 1] - y);
    let last: Point = [x, y];
    const put = points.get(keyOf(...inOrder(x, y, ring[k], ring[k + 1]))) ?? [];
    for (const point of [...put].sort((a, b) => along(a) - along(b))) {
      const isThere = point[0] === last[0] && point[1] === last[1];
      if (isThere || (point[0] === ring[k] && point[1] === ring[k + 1])) continue;
      result.push(...point);
      last = point;
      isSame = false;
    }
  }
  return isSame ? ring : new Float64Array(result);
}
