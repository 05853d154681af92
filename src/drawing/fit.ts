import polylabel from 'polylabel';
import simplify from 'simplify-js';
import { directionDeg, turn } from '../geometry/exact-math.ts';
import { boxOf, isInRegion, type Region, type Ring, squaredDistanceToSegment } from '../geometry/ring.ts';

/** A box that may stand at any angle, page space: its middle, half its sides, its turn counter-clockwise as seen. */
export interface TurnedBox {
  readonly x: number;
  readonly y: number;
  readonly halfWidth: number;
  readonly halfHeight: number;
  readonly turnDeg: number;
}

/** A place where lettering might go: a point well inside, and the ways along which there is most room. */
export interface Spot {
  readonly x: number;
  readonly y: number;
  readonly turnsDeg: readonly number[];
  /** Distance to the nearest line. */
  readonly clearance: number;
}

/** Straight lines to keep clear of: ax, ay, bx, by of each, flat. */
export type Segments = Float64Array;

/** How many rays look for the middle of a band. */
const RAYS = 72;
/** Points each way of the grid that finds the room beside what stands in the middle already. */
const GRID = 11;

/** A coarser ring for finding room: no point of the old one is farther than `tolerance` from it. */
export function coarser(ring: Ring, tolerance: number): Ring {
  const points: { x: number; y: number }[] = [];
  for (let i = 0; i < ring.length; i += 2) points.push({ x: ring[i], y: ring[i + 1] });
  const kept = simplify(points, tolerance, true);
  return kept.length < 3 ? ring : new Float64Array(kept.flatMap(({ x, y }) => [x, y]));
}

/** The edges of rings and of open lines. */
export function segmentsOf(rings: readonly Ring[], lines: readonly Float64Array[] = []): Segments {
  const segments: number[] = [];
  for (const ring of rings) {
    for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
      segments.push(ring[j], ring[j + 1], ring[i], ring[i + 1]);
    }
  }
  for (const line of lines) {
    for (let i = 2; i < line.length; i += 2) segments.push(line[i - 2], line[i - 1], line[i], line[i + 1]);
  }
  return new Float64Array(segments);
}

/** Distance from a point to the nearest of the segments; Infinity for none. */
export function clearanceAt(x: number, y: number, segments: Segments): number {
  let least = Infinity;
  for (let i = 0; i < segments.length; i += 4) {
    const squared = squaredDistanceToSegment(x, y, segments[i], segments[i + 1], segments[i + 2], segments[i + 3]);
    if (squared < least) least = squared;
  }
  return Math.sqrt(least);
}

/**
 * Places for lettering inside a region, roomiest first: its roomiest point (polylabel), the middles of chords that start
 * at right angles from points spread over its outlines, and the points of a grid. Chords find the middle of a thin band,
 * and its way; in a round piece they all meet in one point, and the grid finds room beside it.
 */
export function spotsIn(region: Region, segments: Segments): Spot[] {
  const spots: Spot[] = [];
  const add = (x: number, y: number, turnsDeg: readonly number[]) => {
    if (isInRegion(x, y, region)) spots.push({ x, y, turnsDeg, clearance: clearanceAt(x, y, segments) });
  };
  const polygon = region.map((ring) =>
    Array.from({ length: ring.length / 2 }, (_, i) => [ring[2 * i], ring[2 * i + 1]]),
  );
  const [x, y] = polylabel(polygon, 1);
  add(x, y, [0, 90]);
  const [left, top, right, bottom] = boxOf(region);
  for (let i = 1; i <= GRID; i++) {
    for (let k = 1; k <= GRID; k++) {
      add(left + ((right - left) * i) / (GRID + 1), top + ((bottom - top) * k) / (GRID + 1), [0, 90]);
    }
  }

  const edges = segmentsOf(region);
  let total = 0;
  for (let i = 0; i < edges.length; i += 4) total += lengthOf(edges, i);
  const step = total / RAYS;
  let walked = 0;
  let due = step / 2;
  for (let i = 0; i < edges.length; i += 4) {
    const length = lengthOf(edges, i);
    for (; length > 0 && due <= walked + length; due += step) {
      const t = (due - walked) / length;
      const dx = (edges[i + 2] - edges[i]) / length;
      const dy = (edges[i + 3] - edges[i + 1]) / length;
      const fromX = edges[i] + t * dx * length;
      const fromY = edges[i + 1] + t * dy * length;
      const turnsDeg = [0, 90, readableDeg(directionDeg(dx, -dy))];
      // Only one of the two sides is inside; `add` drops the other.
      for (const side of [1, -1]) {
        const reach = rayLength(fromX, fromY, -dy * side, dx * side, edges, i);
        if (Number.isFinite(reach)) add(fromX - (dy * side * reach) / 2, fromY + (dx * side * reach) / 2, turnsDeg);
      }
    }
    walked += length;
  }
  return spots.sort((a, b) => b.clearance - a.clearance || a.x - b.x || a.y - b.y);
}

/** The same direction so that text along it is not upside down: −90 < d ≤ 90. */
export function readableDeg(deg: number): number {
  const half = deg - 180 * Math.floor(deg / 180);
  return half > 90 ? half - 180 : half;
}

/** Whether no segment touches the box. A box whose middle is inside a region and that is clear of its edges lies in it. */
export function isClear(box: TurnedBox, segments: Segments): boolean {
  const { cos, sin } = turn(box.turnDeg);
  const { x, y, halfWidth, halfHeight } = box;
  const reach = Math.sqrt(halfWidth * halfWidth + halfHeight * halfHeight);
  for (let i = 0; i < segments.length; i += 4) {
    const ax = segments[i] - x;
    const ay = segments[i + 1] - y;
    const bx = segments[i + 2] - x;
    const by = segments[i + 3] - y;
    if ((ax > reach && bx > reach) || (ax < -reach && bx < -reach)) continue;
    if ((ay > reach && by > reach) || (ay < -reach && by < -reach)) continue;
    // Into the box's own frame: y is down, so a turn that is counter-clockwise as seen runs the other way in numbers.
    const au = ax * cos - ay * sin;
    const av = ax * sin + ay * cos;
    const bu = bx * cos - by * sin;
    const bv = bx * sin + by * cos;
    if (touches(au, av, bu, bv, halfWidth, halfHeight)) return false;
  }
  return true;
}

/** Whether two boxes touch (separating axes: the sides of both). */
export function overlap(a: TurnedBox, b: TurnedBox): boolean {
  return !isApart(a, b) && !isApart(b, a);
}

function isApart(a: TurnedBox, b: TurnedBox): boolean {
  const { cos, sin } = turn(a.turnDeg);
  const dx = b.x - a.x;
  const dy = b.y - a.y;
  const between = turn(b.turnDeg - a.turnDeg);
  const c = Math.abs(between.cos);
  const s = Math.abs(between.sin);
  return (
    Math.abs(dx * cos - dy * sin) > a.halfWidth + b.halfWidth * c + b.halfHeight * s ||
    Math.abs(dx * sin + dy * cos) > a.halfHeight + b.halfWidth * s + b.halfHeight * c
  );
}

/** Whether the segment a–b touches the box −w…w, −h…h. */
function touches(ax: number, ay: number, bx: number, by: number, w: number, h: number): boolean {
  if (Math.max(ax, bx) < -w || Math.min(ax, bx) > w || Math.max(ay, by) < -h || Math.min(ay, by) > h) return false;
  // The box's four corners on one side of the line: apart.
  const dx = bx - ax;
  const dy = by - ay;
  return Math.abs(dx * ay - dy * ax) <= Math.abs(dx) * h + Math.abs(dy) * w;
}

function lengthOf(segments: Segments, i: number): number {
  const dx = segments[i + 2] - segments[i];
  const dy = segments[i + 3] - segments[i + 1];
  return Math.sqrt(dx * dx + dy * dy);
}

/** How far a ray goes to the nearest segment other than its own; Infinity when it meets none. */
function rayLength(x: number, y: number, dx: number, dy: number, segments: Segments, own: number): number {
  let least = Infinity;
  for (let i = 0; i < segments.length; i += 4) {
    if (i === own) continue;
    const ex = segments[i + 2] - segments[i];
    const ey = segments[i + 3] - segments[i + 1];
    const cross = dx * ey - dy * ex;
    if (cross === 0) continue;
    const fx = segments[i] - x;
    const fy = segments[i + 1] - y;
    const t = (fx * ey - fy * ex) / cross;
    const u = (fx * dy - fy * dx) / cross;
    if (t > 0 && u >= 0 && u <= 1 && t < least) least = t;
  }
  return least;
}
