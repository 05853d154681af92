import { extents } from './hull.ts';
import type { Ring } from './ring.ts';

/**
 * The rectangles round a hull that have a side along one of its sides: extent along that side and across it, side by side
 * from the one that starts at the first point. Rotating calipers (Shamos 1978; Toussaint 1983), O(n).
 * @param hull counter-clockwise, convex, no points on straight sides.
 */
export function flushRectangles(hull: Ring): Float64Array {
  const result = new Float64Array(hull.length);
  if (hull.length < 6) return result;
  // Each of the three runs on from where it stood: once round for all sides together.
  let ahead = 2;
  let far = 2;
  let behind = 2;
  const last = hull.length;
  const after = (k: number) => (k + 2 < last ? k + 2 : 0);
  for (let i = 0; i < last; i += 2) {
    const next = after(i);
    const dx = hull[next] - hull[i];
    const dy = hull[next + 1] - hull[i + 1];
    const side = Math.sqrt(dx * dx + dy * dy);
    const [ux, uy] = [dx / side, dy / side];
    if (i === 0) ahead = next;
    for (let k = after(ahead); (hull[k] - hull[ahead]) * ux + (hull[k + 1] - hull[ahead + 1]) * uy > 0; k = after(k))
      ahead = k;
    if (i === 0) far = ahead;
    for (let k = after(far); (hull[k + 1] - hull[far + 1]) * ux - (hull[k] - hull[far]) * uy > 0; k = after(k)) far = k;
    if (i === 0) behind = far;
    for (let k = after(behind); (hull[k] - hull[behind]) * ux + (hull[k + 1] - hull[behind + 1]) * uy < 0; k = after(k))
      behind = k;
    result[i] = (hull[ahead] - hull[behind]) * ux + (hull[ahead + 1] - hull[behind + 1]) * uy;
    result[i + 1] = (hull[far + 1] - hull[i + 1]) * ux - (hull[far] - hull[i]) * uy;
  }
  return result;
}

/**
 * Whether a hull fits a rectangle in a turn that is easy to find: square to the axes, or with one of its sides along a side
 * of the rectangle. (It may fit askew in some turn between these; nobody would find it by hand.) O(n).
 * @param flush its flushRectangles.
 */
export function fitsRectangle(hull: Ring, flush: Float64Array, width: number, height: number): boolean {
  if (hull.length < 6) return true;
  const fits = (a: number, b: number) => (a <= width && b <= height) || (a <= height && b <= width);
  const [least, most, low, high] = extents(hull, 1, 0);
  if (fits(most - least, high - low)) return true;
  for (let i = 0; i < flush.length; i += 2) if (fits(flush[i], flush[i + 1])) return true;
  return false;
}

/** How far a point lies inside a hull (counter-clockwise) from the nearest of its sides, below 0 outside; −Infinity for no hull. */
export function insideHull(hull: Ring, x: number, y: number): number {
  if (hull.length < 6) return -Infinity;
  let least = Infinity;
  for (let i = 0, j = hull.length - 2; i < hull.length; j = i, i += 2) {
    const dx = hull[i] - hull[j];
    const dy = hull[i + 1] - hull[j + 1];
    const side = Math.sqrt(dx * dx + dy * dy);
    if (side > 0) least = Math.min(least, (dx * (y - hull[j + 1]) - dy * (x - hull[j])) / side);
  }
  return least;
}
