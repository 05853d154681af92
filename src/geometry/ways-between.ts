import Delaunator from 'delaunator';
import { type Box, boxOf, lineLength, nearestOn, type Point, type Ring, squaredDistanceToSegment } from './ring.ts';
import { simplified } from './simplify.ts';

/** A way that was found: from an edge (or a start) through the room between shapes to one of them. Flat x, y …, open. */
export interface Way {
  readonly shape: number;
  readonly line: Float64Array;
}

/** No two points of an outline are nearer than this, however narrow the room is: a millimetre is enough for any cut. */
const LEAST_SPACING = 1;
/** How far outlines may be simplified, as a share of the room between them, and how near their points are in it. */
const COARSE_SHARE = 0.05;
const SPACING_SHARE = 0.8;
/** Points of the edge are so much farther apart than those of shapes. */
const EDGE_SPACING = 4;

const EDGE = -1;

/**
 * Ways for a cut of some width between shapes that stand at least `room` apart, along the lines that are as far from them as
 * can be: edges of the Voronoi diagram of points of all outlines, from the Delaunay triangulation (Aurenhammer 1991). With
 * points of an outline nearer to each other than outlines are, a line between two points that lie farther apart than that
 * crosses no outline: every point of it is farther from both than half the pace. Shortest ways by Dijkstra (1959), O(n log n).
 */
export class WaysBetween {
  readonly #at: Float64Array;
  /** Of each point the number of its shape; EDGE for the edge. */
  readonly #owners: Int32Array;
  readonly #triangles: Uint32Array;
  readonly #halfedges: Int32Array;
  /** Centres of the circles through each triangle's corners, and their radii. */
  readonly #centres: Float64Array;
  readonly #shapes: readonly (readonly Ring[])[];
  readonly #boxes: readonly Box[];
  readonly #width: number;
  readonly #spacing: number;
  readonly #least: number;

  /**
   * @param edges where cuts may begin: rings of the board's edge
   */
  constructor(
    shapes: readonly (readonly Ring[])[],
    edges: readonly Ring[],
    { room, width }: { readonly room: number; readonly width: number },
  ) {
    const coarse = Math.max(0, Math.min(COARSE_SHARE * room, (room - width) / 4));
    const spacing = Math.max(LEAST_SPACING, SPACING_SHARE * (room - 2 * coarse));
    const boxes = shapes.map((rings) => boxOf(rings));
    const flat: number[] = [];
    const owners: number[] = [];
    const add = (owner: number, ring: Ring, pace: number) => {
      for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
        const [dx, dy] = [ring[i] - ring[j], ring[i + 1] - ring[j + 1]];
        const parts = Math.max(1, Math.ceil(Math.sqrt(dx * dx + dy * dy) / pace));
        for (let k = 0; k < parts; k++) {
          const [x, y] = [ring[j] + (dx * k) / parts, ring[j + 1] + (dy * k) / parts];
          // Where a shape lies flush with the edge nothing begins.
          if (owner === EDGE && shapes.some((rings, i) => isOver(boxes[i], x, y, x, y, FLUSH) && isNear(rings, x, y)))
            continue;
          flat.push(x, y);
          owners.push(owner);
        }
      }
    };
    for (const [owner, rings] of shapes.entries()) {
      for (const ring of rings) add(owner, coarse > 0 ? simplified(ring, coarse) : ring, spacing);
    }
    for (const ring of edges) add(EDGE, ring, EDGE_SPACING * Math.max(spacing, 5));
    this.#at = Float64Array.from(flat);
    this.#owners = Int32Array.from(owners);
    const made = new Delaunator(this.#at);
    this.#triangles = made.triangles;
    this.#halfedges = made.halfedges;
    this.#centres = centresOf(this.#at, this.#triangles);
    this.#shapes = shapes;
    this.#boxes = boxes;
    this.#width = width;
    this.#spacing = spacing;
    this.#least = Math.max(width + 2 * coarse, spacing * (1 + 1e-9));
  }

  /** The shortest way from the edge to each shape that has one; in the order of the shapes. */
  fromEdge(): Way[] {
    const count = this.#triangles.length;
    const starts = Array.from({ length: count }, (_, corner) => corner).filter(
      (corner) => this.#owners[this.#triangles[corner]] === EDGE,
    );
    const straight = this.#straight();
    const others = this.#ways(starts, new Set(this.#shapes.keys()));
    return this.#shapes.flatMap((_, shape) => {
      const [near, way] = [straight.get(shape), others.find((each) => each.shape === shape)];
      if (near && (!way || near.length <= lineLength(way.line))) return [{ shape, line: near.line }];
      return way ? [way] : [];
    });
  }

  /** The shortest way to a shape from one of some points on outlines; none when there is none. */
  from(starts: readonly Point[], shape: number): Way | undefined {
    // What was simplified runs past them: points near them of the outlines they are on stand for them.
    const reach = 1.5 * this.#spacing;
    const owners = starts.map(([x, y]) => this.#shapes.findIndex((rings) => isNear(rings, x, y)));
    const near = new Map<number, Point>();
    for (let p = 0; p < this.#owners.length; p++) {
      if (this.#owners[p] === EDGE) continue;
      const start = starts.find(
        ([x, y], i) =>
          owners[i] === this.#owners[p] &&
          Math.abs(this.#at[2 * p] - x) <= reach &&
          Math.abs(this.#at[2 * p + 1] - y) <= reach,
      );
      if (start) near.set(p, start);
    }
    const corners: number[] = [];
    for (let corner = 0; corner < this.#triangles.length; corner++) {
      if (near.has(this.#triangles[corner])) corners.push(corner);
    }
    const [way] = this.#ways(corners, new Set([shape]));
    if (!way) return undefined;
    for (const [p, start] of near) {
      if (this.#at[2 * p] === way.line[0] && this.#at[2 * p + 1] === way.line[1]) way.line.set(start);
    }
    return way;
  }

  #ways(startCorners: readonly number[], wanted: ReadonlySet<number>): Way[] {
    const triangles = this.#triangles.length / 3;
    const far = new Float64Array(triangles).fill(Infinity);
    const before = new Int32Array(triangles).fill(-1);
    const startAt = new Int32Array(triangles).fill(-1);
    const heap = new Heap();
    for (const corner of startCorners) {
      const t = Math.floor(corner / 3);
      if (this.#isBehind(corner)) continue;
      const radius = this.#centres[3 * t + 2];
      if (radius >= far[t]) continue;
      far[t] = radius;
      startAt[t] = this.#triangles[corner];
      heap.push(t, radius);
    }
    for (let t = heap.pop(); t >= 0; t = heap.pop()) {
      for (let e = 3 * t; e < 3 * t + 3; e++) {
        const next = this.#halfedges[e];
        if (next < 0 || !this.#isPassable(e)) continue;
        const u = Math.floor(next / 3);
        const dx = this.#centres[3 * u] - this.#centres[3 * t];
        const dy = this.#centres[3 * u + 1] - this.#centres[3 * t + 1];
        const length = far[t] + Math.sqrt(dx * dx + dy * dy);
        if (length >= far[u]) continue;
        far[u] = length;
        before[u] = t;
        startAt[u] = -1;
        heap.push(u, length);
      }
    }
    const best = new Map<number, { readonly length: number; readonly corner: number }>();
    for (let corner = 0; corner < this.#triangles.length; corner++) {
      const owner = this.#owners[this.#triangles[corner]];
      if (!wanted.has(owner)) continue;
      const t = Math.floor(corner / 3);
      const length = far[t] + this.#centres[3 * t + 2];
      if (length < (best.get(owner)?.length ?? Infinity)) best.set(owner, { length, corner });
    }
    return [...best]
      .sort(([a], [b]) => a - b)
      .map(([shape, { corner }]) => ({ shape, line: this.#line(corner, before, startAt, shape) }));
  }

  /** Whether a cut fits through the line between the two points of a side. */
  #isPassable(e: number): boolean {
    const [a, b] = [this.#triangles[e], this.#triangles[e % 3 === 2 ? e - 2 : e + 1]];
    // Ways begin at the edge and do not come back to it.
    if (this.#owners[a] === EDGE || this.#owners[b] === EDGE) return false;
    const dx = this.#at[2 * a] - this.#at[2 * b];
    const dy = this.#at[2 * a + 1] - this.#at[2 * b + 1];
    return dx * dx + dy * dy >= this.#least * this.#least;
  }

  /** Whether the middle of a corner's triangle lies behind the side across, through which no cut fits. */
  #isBehind(corner: number): boolean {
    const t = corner - (corner % 3);
    const across = t + ((corner + 1) % 3);
    const [p, q, r] = [0, 1, 2].map((i) => 2 * this.#triangles[t + ((corner + i) % 3)]);
    const [x, y] = [this.#centres[t], this.#centres[t + 1]];
    const at = this.#at;
    const side = (px: number, py: number) =>
      (at[r] - at[q]) * (py - at[q + 1]) - (at[r + 1] - at[q + 1]) * (px - at[q]);
    return side(x, y) * side(at[p], at[p + 1]) < 0 && !this.#isPassable(across);
  }

  /** Straight ways from the edge to shapes that stand near it: the shortest sides of the triangulation that are clear. */
  #straight(): Map<number, { readonly length: number; readonly line: Float64Array }> {
    const best = new Map<number, { readonly length: number; readonly line: Float64Array }>();
    for (let e = 0; e < this.#triangles.length; e++) {
      const [a, b] = [this.#triangles[e], this.#triangles[e % 3 === 2 ? e - 2 : e + 1]];
      const shape = this.#owners[b];
      if (this.#owners[a] !== EDGE || shape === EDGE) continue;
      const [from, to]: Point[] = [
        [this.#at[2 * a], this.#at[2 * a + 1]],
        [this.#at[2 * b], this.#at[2 * b + 1]],
      ];
      const length = Math.sqrt((to[0] - from[0]) * (to[0] - from[0]) + (to[1] - from[1]) * (to[1] - from[1]));
      if (length >= (best.get(shape)?.length ?? Infinity) || !this.#isClear(from, to, false, true, shape)) continue;
      best.set(shape, { length, line: Float64Array.from([...from, ...to]) });
    }
    return best;
  }

  #line(corner: number, before: Int32Array, startAt: Int32Array, target: number): Float64Array {
    let t = Math.floor(corner / 3);
    // What was simplified may run inside the outline: the way ends on the outline itself.
    const points: Point[] = [nearestOn(this.#shapes[target], this.#centres[3 * t], this.#centres[3 * t + 1])];
    for (; ; t = before[t]) {
      points.push([this.#centres[3 * t], this.#centres[3 * t + 1]]);
      if (before[t] < 0 || startAt[t] >= 0) break;
    }
    const first = startAt[t];
    points.push([this.#at[2 * first], this.#at[2 * first + 1]]);
    return this.#pulled(points.reverse(), target);
  }

  /** A way with corners left out wherever the straight line keeps as clear: pulled taut. */
  #pulled(points: readonly Point[], target: number): Float64Array {
    const kept: Point[] = [points[0]];
    for (let i = 0; i < points.length - 1; ) {
      let j = points.length - 1;
      while (j > i + 1 && !this.#isClear(points[i], points[j], i === 0, j === points.length - 1, target)) j--;
      kept.push(points[j]);
      i = j;
    }
    return Float64Array.from(kept.flat());
  }

  /** Whether a straight cut keeps half its width from all shapes; where it begins or ends it comes to an outline. */
  #isClear([ax, ay]: Point, [bx, by]: Point, isFirst: boolean, isLast: boolean, target: number): boolean {
    const [dx, dy] = [bx - ax, by - ay];
    const length = Math.sqrt(dx * dx + dy * dy);
    const half = this.#width / 2;
    const [from, to] = [isFirst ? half : 0, isLast ? half : 0];
    if (length <= from + to) return true;
    const [px, py] = [ax + (dx * from) / length, ay + (dy * from) / length];
    const [qx, qy] = [bx - (dx * to) / length, by - (dy * to) / length];
    return this.#shapes.every((rings, shape) => {
      // Where the way ends it comes near the outline sooner than half its width when it comes at an angle.
      const by = isFirst || (isLast && shape === target) ? half / 2 : half;
      return (
        !isOver(this.#boxes[shape], px, py, qx, qy, by) || rings.every((ring) => clearOf(ring, px, py, qx, qy, by))
      );
    });
  }
}

/** How near an outline a point of the edge is taken for one of the outline. */
const FLUSH = 0.05;

/** Whether a box comes within a distance of the box of a segment p–q. */
const isOver = ([minX, minY, maxX, maxY]: Box, px: number, py: number, qx: number, qy: number, by: number): boolean =>
  minX <= Math.max(px, qx) + by &&
  maxX >= Math.min(px, qx) - by &&
  minY <= Math.max(py, qy) + by &&
  maxY >= Math.min(py, qy) - by;

/** Whether a point lies on an outline. */
function isNear(rings: readonly Ring[], x: number, y: number): boolean {
  for (const ring of rings) {
    for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
      if (Math.min(ring[i], ring[j]) > x + FLUSH || Math.max(ring[i], ring[j]) < x - FLUSH) continue;
      if (squaredDistanceToSegment(x, y, ring[j], ring[j + 1], ring[i], ring[i + 1]) <= FLUSH * FLUSH) return true;
    }
  }
  return false;
}

function centresOf(at: Float64Array, triangles: Uint32Array): Float64Array {
  const centres = new Float64Array(triangles.length);
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [2 * triangles[t], 2 * triangles[t + 1], 2 * triangles[t + 2]];
    const [bx, by, cx, cy] = [at[b] - at[a], at[b + 1] - at[a + 1], at[c] - at[a], at[c + 1] - at[a + 1]];
    const [b2, c2] = [bx * bx + by * by, cx * cx + cy * cy];
    const d = 2 * (bx * cy - by * cx);
    const [x, y] = [(cy * b2 - by * c2) / d, (bx * c2 - cx * b2) / d];
    centres[t] = at[a] + x;
    centres[t + 1] = at[a + 1] + y;
    centres[t + 2] = Math.sqrt(x * x + y * y);
  }
  return centres;
}

/** Whether a segment p–q keeps a distance from a ring. */
function clearOf(ring: Ring, px: number, py: number, qx: number, qy: number, by: number): boolean {
  const [minX, minY] = [Math.min(px, qx) - by, Math.min(py, qy) - by];
  const [maxX, maxY] = [Math.max(px, qx) + by, Math.max(py, qy) + by];
  for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
    const [ax, ay, bx, y] = [ring[j], ring[j + 1], ring[i], ring[i + 1]];
    if (Math.max(ax, bx) < minX || Math.min(ax, bx) > maxX || Math.max(ay, y) < minY || Math.min(ay, y) > maxY)
      continue;
    const d = (qx - px) * (ay - py) - (qy - py) * (ax - px);
    const e = (qx - px) * (y - py) - (qy - py) * (bx - px);
    const f = (bx - ax) * (py - ay) - (y - ay) * (px - ax);
    const g = (bx - ax) * (qy - ay) - (y - ay) * (qx - ax);
    if (d * e < 0 && f * g < 0) return false;
    const least = Math.min(
      squaredDistanceToSegment(ax, ay, px, py, qx, qy),
      squaredDistanceToSegment(bx, y, px, py, qx, qy),
      squaredDistanceToSegment(px, py, ax, ay, bx, y),
      squaredDistanceToSegment(qx, qy, ax, ay, bx, y),
    );
    if (least < by * by * (1 - 1e-9)) return false;
  }
  return true;
}

/** What is nearest comes out first; of equals the lower number. */
class Heap {
  readonly #numbers: number[] = [];
  readonly #keys: number[] = [];

  push(number: number, key: number): void {
    let i = this.#keys.length;
    this.#keys.push(key);
    this.#numbers.push(number);
    for (let parent = (i - 1) >> 1; i > 0 && this.#isBefore(i, parent); i = parent, parent = (i - 1) >> 1) {
      this.#swap(i, parent);
    }
  }

  /** −1 when it is empty. */
  pop(): number {
    const last = this.#keys.length - 1;
    if (last < 0) return -1;
    this.#swap(0, last);
    this.#keys.pop();
    const number = this.#numbers.pop() as number;
    for (let i = 0; ; ) {
      const [left, right] = [2 * i + 1, 2 * i + 2];
      let least = i;
      if (left < last && this.#isBefore(left, least)) least = left;
      if (right < last && this.#isBefore(right, least)) least = right;
      if (least === i) return number;
      this.#swap(i, least);
      i = least;
    }
  }

  #isBefore(i: number, j: number): boolean {
    return this.#keys[i] < this.#keys[j] || (this.#keys[i] === this.#keys[j] && this.#numbers[i] < this.#numbers[j]);
  }

  #swap(i: number, j: number): void {
    const { [i]: a, [j]: b } = this.#keys;
    [this.#keys[i], this.#keys[j]] = [b, a];
    const { [i]: c, [j]: d } = this.#numbers;
    [this.#numbers[i], this.#numbers[j]] = [d, c];
  }
}
