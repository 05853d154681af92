import { cos, PI, sin } from '../../geometry/exact-math.ts';
import { type Box, type Ring, ringArea } from '../../geometry/ring.ts';
import { isMirrored, type Pose, type Shape, WHOLE_TURN } from './problem.ts';

/** Edges in one run: enough to make a box for them worth it, few enough to look at one by one. */
export const RUN = 8;

/**
 * How far boxes of grown outlines stay short of half the gap, and outlines without a gap short of the truth: so little that
 * it cannot be measured, enough that shapes whose edges stand exactly a gap apart do not touch. Exact fits live on it.
 */
export const SHY_MM = 1e-6;

/** In hand at a container's edges, at turns at which what is printed is rounded: placements turn about an origin of the caller's. */
const OFF_GRID_MM = 0.001;

/** A shape at one pose, standing at the origin, in flat arrays: only moves are left. Rewritten in place when it is turned. */
export interface Posture {
  readonly shape: Shape;
  /** Which rings of the grown outline run counter-clockwise. */
  readonly isOuter: readonly boolean[];
  pose: Pose;
  /** Around the grown outline. */
  minX: number;
  minY: number;
  maxX: number;
  maxY: number;
  /** Around the finished edges: what stays inside a container's box. */
  left: number;
  low: number;
  right: number;
  high: number;
  /** x, y, x, y of each edge of the grown outline, ring by ring, without a gap between rings. */
  edges: Float64Array;
  /** Of each ring where it ends in `edges`. */
  ends: Int32Array;
  /** Least x, least y, largest x, largest y of each run of edges. */
  runs: Float64Array;
  poles: Float64Array;
  /** One point of each ring of the grown outline that runs counter-clockwise. */
  seeds: Float64Array;
  /** Edges of the bare outline, and one point of each of its rings. */
  readonly bare: Float64Array;
  readonly bareSeeds: Float64Array;
}

/** A posture of a shape, not yet turned. */
export function blankPosture(shape: Shape): Posture {
  const count = shape.grown.reduce((sum, ring) => sum + ring.length / 2, 0);
  const isOuter = shape.grown.map((ring) => ringArea(ring) > 0);
  return {
    shape,
    isOuter,
    pose: -1,
    minX: 0,
    minY: 0,
    maxX: 0,
    maxY: 0,
    left: 0,
    low: 0,
    right: 0,
    high: 0,
    edges: new Float64Array(4 * count),
    ends: endsOf(shape.grown),
    runs: new Float64Array(4 * Math.ceil(count / RUN)),
    poles: new Float64Array(shape.poles.length),
    seeds: new Float64Array(2 * isOuter.filter(Boolean).length),
    bare: new Float64Array(2 * shape.bare.reduce((sum, ring) => sum + ring.length, 0)),
    bareSeeds: new Float64Array(2 * shape.bare.length),
  };
}

/**
 * A posture that is kept. At a quarter turn what lies further than half the gap from the finished box is cut off: it keeps
 * nothing away, and shapes whose boxes stand a gap apart are free then.
 */
export function keptPosture(shape: Shape, pose: Pose): Posture {
  const p = turnTo(blankPosture(shape), pose);
  if (shape.slackMm === 0 || pose % 9000 !== 0) return p;
  const by = shape.halfGapMm - SHY_MM;
  const box: Box = [p.left - by, p.low - by, p.right + by, p.high + by];
  const rings: Ring[] = [];
  for (let r = 0; r < shape.grown.length; r++) {
    const n = shape.grown[r].length;
    const from = p.ends[r] - 2 * n;
    const ring = new Float64Array(n);
    for (let i = 0; i < n; i += 2) ring.set(p.edges.subarray(from + 2 * i + 2, from + 2 * i + 4), i);
    rings.push(cutToBox(ring, box));
  }
  p.edges = edgesOf(rings);
  p.ends = endsOf(rings);
  p.runs = new Float64Array(4 * Math.ceil(p.edges.length / (4 * RUN)));
  p.seeds = Float64Array.from(rings.flatMap((ring, r) => (p.isOuter[r] ? [ring[0], ring[1]] : [])));
  boxRuns(p);
  return p;
}

/** Kept postures are never turned away: fields of the same shapes, one for each try, share them (a sixth of the search's time). */
const KEPT = new WeakMap<Shape, ReadonlyMap<Pose, Posture>>();

/** The postures of a shape at the poses to try. */
export function keptPostures(shape: Shape): ReadonlyMap<Pose, Posture> {
  const kept = KEPT.get(shape) ?? new Map(shape.poses.map((pose) => [pose, keptPosture(shape, pose)]));
  KEPT.set(shape, kept);
  return kept;
}

/** Turn a posture to a pose. O(vertices). */
export function turnTo(p: Posture, pose: Pose): Posture {
  const { shape } = p;
  p.pose = pose;
  const flip = isMirrored(pose) ? -1 : 1;
  const [c, s] = cosSin(pose % WHOLE_TURN);
  const ax = flip * c;
  const bx = flip * s;
  turnRings(shape.grown, ax, bx, c, s, p.edges);
  for (let r = 0, at = 0, seed = 0; r < shape.grown.length; r++) {
    if (p.isOuter[r]) {
      p.seeds[seed++] = p.edges[at];
      p.seeds[seed++] = p.edges[at + 1];
    }
    at += 2 * shape.grown[r].length;
  }
  turnRings(shape.bare, ax, bx, c, s, p.bare);
  for (let r = 0, at = 0; r < shape.bare.length; at += 2 * shape.bare[r].length, r++) {
    p.bareSeeds[2 * r] = p.bare[at];
    p.bareSeeds[2 * r + 1] = p.bare[at + 1];
  }
  const { poles } = p;
  for (let i = 0; i < poles.length; i += 3) {
    poles[i] = shape.poles[i] * ax - shape.poles[i + 1] * s;
    poles[i + 1] = shape.poles[i] * bx + shape.poles[i + 1] * c;
    poles[i + 2] = shape.poles[i + 2];
  }
  let left = Infinity;
  let low = Infinity;
  let right = -Infinity;
  let high = -Infinity;
  const { hull } = shape;
  for (let i = 0; i < hull.length; i += 2) {
    const x = hull[i] * ax - hull[i + 1] * s;
    const y = hull[i] * bx + hull[i + 1] * c;
    if (x < left) left = x;
    if (x > right) right = x;
    if (y < low) low = y;
    if (y > high) high = y;
  }
  const off = pose % 9000 === 0 ? 0 : OFF_GRID_MM;
  p.left = left - off;
  p.low = low - off;
  p.right = right + off;
  p.high = high + off;
  boxRuns(p);
  return p;
}

/** The edges of rings under a turn that takes (x, y) to (ax x − s y, bx x + c y). */
function turnRings(rings: readonly Ring[], ax: number, bx: number, c: number, s: number, into: Float64Array): void {
  let at = 0;
  for (let r = 0; r < rings.length; r++) {
    const ring = rings[r];
    const n = ring.length;
    let x = ring[n - 2] * ax - ring[n - 1] * s;
    let y = ring[n - 2] * bx + ring[n - 1] * c;
    for (let i = 0; i < n; i += 2) {
      into[at++] = x;
      into[at++] = y;
      x = ring[i] * ax - ring[i + 1] * s;
      y = ring[i] * bx + ring[i + 1] * c;
      into[at++] = x;
      into[at++] = y;
    }
  }
}

/** Cosine and sine of hundredths of a degree; quarter turns are exact. */
function cosSin(hundredths: number): readonly [number, number] {
  if (hundredths === 0) return [1, 0];
  if (hundredths === 9000) return [0, 1];
  if (hundredths === 18000) return [-1, 0];
  if (hundredths === 27000) return [0, -1];
  const radians = (hundredths * PI) / 18000;
  return [cos(radians), sin(radians)];
}

/** A ring with what lies beyond a box cut off, side by side (Sutherland, Hodgman 1974). Sides of the box may be run twice. */
function cutToBox(ring: Ring, box: Box): Ring {
  let points: Ring = ring;
  for (let side = 0; side < 4; side++) {
    const axis = side % 2;
    const sign = side < 2 ? 1 : -1;
    const limit = sign * box[side];
    const kept: number[] = [];
    for (let i = 0, j = points.length - 2; i < points.length; j = i, i += 2) {
      const before = sign * points[j + axis] - limit;
      const now = sign * points[i + axis] - limit;
      if (before < 0 !== now < 0) {
        const t = before / (before - now);
        const other = points[j + 1 - axis] + t * (points[i + 1 - axis] - points[j + 1 - axis]);
        kept.push(...(axis === 0 ? [box[side], other] : [other, box[side]]));
      }
      if (now >= 0) kept.push(points[i], points[i + 1]);
    }
    points = Float64Array.from(kept);
  }
  return points;
}

function boxRuns(p: Posture): void {
  const { edges, runs } = p;
  p.minX = p.minY = Infinity;
  p.maxX = p.maxY = -Infinity;
  for (let r = 0, from = 0; r < runs.length; r += 4, from += 4 * RUN) {
    const to = Math.min(edges.length, from + 4 * RUN);
    let left = Infinity;
    let low = Infinity;
    let right = -Infinity;
    let high = -Infinity;
    for (let i = from; i < to; i += 2) {
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
    if (left < p.minX) p.minX = left;
    if (low < p.minY) p.minY = low;
    if (right > p.maxX) p.maxX = right;
    if (high > p.maxY) p.maxY = high;
  }
}

/** Of each of some rings where its edges end among those of all. */
function endsOf(rings: readonly Ring[]): Int32Array {
  let end = 0;
  return Int32Array.from(rings, (ring) => (end += 2 * ring.length));
}

/** x, y, x, y of each edge of some rings. */
export function edgesOf(rings: readonly Ring[]): Float64Array {
  const edges = new Float64Array(2 * rings.reduce((sum, ring) => sum + ring.length, 0));
  let at = 0;
  for (const ring of rings) {
    for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
      edges[at++] = ring[j];
      edges[at++] = ring[j + 1];
      edges[at++] = ring[i];
      edges[at++] = ring[i + 1];
    }
  }
  return edges;
}
