import { turn } from './exact-math.ts';

/** Flat x, y, x, y …; not closed (the first point is not repeated). Outer rings run counter-clockwise, holes clockwise. */
export type Ring = Float64Array;
/** One flat area: the outer ring, then its holes. */
export type Region = readonly Ring[];
/** A point in plan. */
export type Point = readonly [x: number, y: number];
/** An upright box: least x, least y, largest x, largest y. An empty set has Infinity, Infinity, −Infinity, −Infinity. */
export type Box = readonly [minX: number, minY: number, maxX: number, maxY: number];

/** Signed area of a ring: positive when it runs counter-clockwise. O(n); 0 for fewer than three points. */
export function ringArea(ring: Ring): number {
  const n = ring.length;
  if (n < 6) return 0;
  // About the first point: far from the origin the products would cancel away the area.
  const x0 = ring[0];
  const y0 = ring[1];
  let twice = 0;
  for (let i = 2; i + 3 < n; i += 2) {
    twice += (ring[i] - x0) * (ring[i + 3] - y0) - (ring[i + 2] - x0) * (ring[i + 1] - y0);
  }
  return twice / 2;
}

/** Area of a region: its outer ring less its holes. */
export function regionArea(region: Region): number {
  let area = 0;
  for (const ring of region) area += ringArea(ring);
  return area;
}

/** Area of several regions together. */
export function areaOf(regions: readonly Region[]): number {
  let area = 0;
  for (const region of regions) area += regionArea(region);
  return area;
}

/** Length once round a ring. */
export function ringLength(ring: Ring): number {
  let length = 0;
  for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
    const dx = ring[i] - ring[j];
    const dy = ring[i + 1] - ring[j + 1];
    length += Math.sqrt(dx * dx + dy * dy);
  }
  return length;
}

/** Length of an open line, a flat list of points. */
export function lineLength(line: Float64Array): number {
  let length = 0;
  for (let i = 2; i < line.length; i += 2) {
    const dx = line[i] - line[i - 2];
    const dy = line[i + 1] - line[i - 1];
    length += Math.sqrt(dx * dx + dy * dy);
  }
  return length;
}

/** The box of any number of rings. */
export function boxOf(rings: Iterable<Ring>): Box {
  let minX = Infinity;
  let minY = Infinity;
  let maxX = -Infinity;
  let maxY = -Infinity;
  for (const ring of rings) {
    for (let i = 0; i < ring.length; i += 2) {
      if (ring[i] < minX) minX = ring[i];
      if (ring[i] > maxX) maxX = ring[i];
      if (ring[i + 1] < minY) minY = ring[i + 1];
      if (ring[i + 1] > maxY) maxY = ring[i + 1];
    }
  }
  return [minX, minY, maxX, maxY];
}

/** Whether two boxes have a point in common: touching counts. */
export const boxesMeet = (a: Box, b: Box): boolean => a[0] <= b[2] && b[0] <= a[2] && a[1] <= b[3] && b[1] <= a[3];

/** The same ring run the other way. */
export function reversed(ring: Ring): Ring {
  const result = new Float64Array(ring.length);
  for (let i = 0, j = ring.length - 2; i < ring.length; i += 2, j -= 2) {
    result[i] = ring[j];
    result[i + 1] = ring[j + 1];
  }
  return result;
}

/** A ring moved by (dx, dy). */
export function moved(ring: Ring, dx: number, dy: number): Ring {
  const result = new Float64Array(ring.length);
  for (let i = 0; i < ring.length; i += 2) {
    result[i] = ring[i] + dx;
    result[i + 1] = ring[i + 1] + dy;
  }
  return result;
}

/** How something stands on a board: mirror in x if `mirrored`, turn counter-clockwise about the origin, then move. */
export interface Placement {
  readonly turnDeg: number;
  readonly mirrored: boolean;
  readonly xMm: number;
  readonly yMm: number;
}

/** A ring (or any flat list of points) put where a placement says. A mirrored ring is reversed, so that it keeps its sense. */
export function placed(ring: Ring, { turnDeg, mirrored, xMm, yMm }: Placement): Ring {
  const { cos, sin } = turn(turnDeg);
  const result = new Float64Array(ring.length);
  for (let i = 0; i < ring.length; i += 2) {
    const x = mirrored ? -ring[i] : ring[i];
    const y = ring[i + 1];
    result[i] = x * cos - y * sin + xMm;
    result[i + 1] = x * sin + y * cos + yMm;
  }
  return mirrored ? reversed(result) : result;
}

/** An upright rectangle as a counter-clockwise ring. */
export const rectangle = (minX: number, minY: number, maxX: number, maxY: number): Ring =>
  new Float64Array([minX, minY, maxX, minY, maxX, maxY, minX, maxY]);

/** Whether a point lies inside a ring (even-odd; a point on the edge may fall either way). O(n). */
export function isInRing(x: number, y: number, ring: Ring): boolean {
  let inside = false;
  for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
    const yi = ring[i + 1];
    const yj = ring[j + 1];
    if (yi > y !== yj > y && x < ((ring[j] - ring[i]) * (y - yi)) / (yj - yi) + ring[i]) inside = !inside;
  }
  return inside;
}

/** Whether a point lies in the material of a region: inside the outer ring and in no hole. */
export function isInRegion(x: number, y: number, region: Region): boolean {
  let inside = false;
  for (const ring of region) if (isInRing(x, y, ring)) inside = !inside;
  return inside;
}

/** Whether a point lies in the material of any of the regions. */
export const isInside = (x: number, y: number, regions: readonly Region[]): boolean =>
  regions.some((region) => isInRegion(x, y, region));

/** Squared distance from a point to the segment a–b. */
export function squaredDistanceToSegment(x: number, y: number, ax: number, ay: number, bx: number, by: number): number {
  const dx = bx - ax;
  const dy = by - ay;
  const squared = dx * dx + dy * dy;
  let t = squared > 0 ? ((x - ax) * dx + (y - ay) * dy) / squared : 0;
  t = t < 0 ? 0 : t > 1 ? 1 : t;
  const ex = ax + t * dx - x;
  const ey = ay + t * dy - y;
  return ex * ex + ey * ey;
}

/** The point of the edges of some rings that is nearest to a place; the place itself for none. */
export function nearestOn(rings: readonly Ring[], x: number, y: number): Point {
  let [least, atX, atY] = [Infinity, x, y];
  for (const ring of rings) {
    for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
      const [dx, dy] = [ring[i] - ring[j], ring[i + 1] - ring[j + 1]];
      const squared = dx * dx + dy * dy;
      const along = squared > 0 ? ((x - ring[j]) * dx + (y - ring[j + 1]) * dy) / squared : 0;
      const t = Math.min(1, Math.max(0, along));
      const [px, py] = [ring[j] + t * dx, ring[j + 1] + t * dy];
      const far = (px - x) * (px - x) + (py - y) * (py - y);
      if (far < least) [least, atX, atY] = [far, px, py];
    }
  }
  return [atX, atY];
}

/** Distance from a point to the nearest edge of any of the rings. Infinity for none. */
export function distanceToRings(x: number, y: number, rings: Iterable<Ring>): number {
  let least = Infinity;
  for (const ring of rings) {
    for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
      const squared = squaredDistanceToSegment(x, y, ring[j], ring[j + 1], ring[i], ring[i + 1]);
      if (squared < least) least = squared;
    }
  }
  return Math.sqrt(least);
}

/** Every ring of several regions, in order. */
export const ringsOf = (regions: readonly Region[]): Ring[] => regions.flatMap((region) => [...region]);
