/**
 * Exact questions about points with whole-number coordinates (units of the clipping grid). Every product stays below
 * 2⁵³ while no two points are further apart than 67 million units in x or y: 67 m at a thousand units a millimetre.
 */

import type { Region, Ring } from './ring.ts';
import { CLIP_UNITS } from './tolerance.ts';

/** Twice the area of a, b, c: positive when they turn counter-clockwise, 0 when they lie in line. */
export const orient = (ax: number, ay: number, bx: number, by: number, cx: number, cy: number): number =>
  (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);

/** Whether segments p–q and r–s have a point in common, ends included. */
export function segmentsMeet(
  px: number,
  py: number,
  qx: number,
  qy: number,
  rx: number,
  ry: number,
  sx: number,
  sy: number,
): boolean {
  if (
    Math.max(px, qx) < Math.min(rx, sx) ||
    Math.max(rx, sx) < Math.min(px, qx) ||
    Math.max(py, qy) < Math.min(ry, sy) ||
    Math.max(ry, sy) < Math.min(py, qy)
  ) {
    return false;
  }
  const r = orient(px, py, qx, qy, rx, ry);
  const s = orient(px, py, qx, qy, sx, sy);
  if ((r > 0 && s > 0) || (r < 0 && s < 0)) return false;
  const p = orient(rx, ry, sx, sy, px, py);
  const q = orient(rx, ry, sx, sy, qx, qy);
  // In line with each other they meet exactly when their boxes do.
  return !((p > 0 && q > 0) || (p < 0 && q < 0));
}

/** Whether p–q and r–s lie in one line and share more than a point. */
export function segmentsOverlap(
  px: number,
  py: number,
  qx: number,
  qy: number,
  rx: number,
  ry: number,
  sx: number,
  sy: number,
): boolean {
  if (orient(px, py, qx, qy, rx, ry) !== 0 || orient(px, py, qx, qy, sx, sy) !== 0) return false;
  const isWide = Math.abs(qx - px) >= Math.abs(qy - py);
  const p = isWide ? px : py;
  const q = isWide ? qx : qy;
  const r = isWide ? rx : ry;
  const s = isWide ? sx : sy;
  return Math.min(Math.max(p, q), Math.max(r, s)) > Math.max(Math.min(p, q), Math.min(r, s));
}

/**
 * Rings in whole units of the clipping grid: rounded, without repeated points, and without spikes that run out and back
 * on one line (rounding makes them of corners finer than the grid). What has no three points left is dropped.
 */
export function toWhole(rings: readonly Ring[]): Ring[] {
  const result: Ring[] = [];
  for (const ring of rings) {
    const whole = new Float64Array(ring.length);
    let end = 0;
    for (let i = 0; i < ring.length; i += 2) {
      // Adding 0 makes −0 into 0.
      whole[end] = Math.round(ring[i] * CLIP_UNITS) + 0;
      whole[end + 1] = Math.round(ring[i + 1] * CLIP_UNITS) + 0;
      end += 2;
      while (end >= 4 && isIdle(whole, end - 6, end - 4, end - 2)) {
        whole[end - 4] = whole[end - 2];
        whole[end - 3] = whole[end - 1];
        end -= 2;
      }
    }
    // The same across the ring's beginning.
    let start = 0;
    for (let isDone = false; !isDone && end - start >= 6; ) {
      if (isIdle(whole, end - 4, end - 2, start)) end -= 2;
      else if (isIdle(whole, end - 2, start, start + 2)) start += 2;
      else isDone = true;
    }
    if (end - start >= 6) result.push(end - start === whole.length ? whole : whole.slice(start, end));
  }
  return result;
}

/** Whether the point at b repeats the one at c or is the tip of a spike between a and c. Nothing is before the first point. */
export function isIdle(points: Float64Array, a: number, b: number, c: number): boolean {
  const dx = points[c] - points[b];
  const dy = points[c + 1] - points[b + 1];
  if (dx === 0 && dy === 0) return true;
  if (a < 0) return false;
  const ex = points[a] - points[b];
  const ey = points[a + 1] - points[b + 1];
  return dx * ey === dy * ex && dx * ex + dy * ey > 0;
}

/** Back from whole numbers: the same bits as coordinates that leave geometry/clip.ts. */
export const fromWhole = (regions: readonly Region[]): Region[] =>
  regions.map((region) => region.map((ring) => ring.map((value) => value / CLIP_UNITS)));
