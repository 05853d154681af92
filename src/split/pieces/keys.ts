import { length } from '../../geometry/exact-math.ts';
import { type Region, type Ring, regionArea, squaredDistanceToSegment } from '../../geometry/ring.ts';
import { ringHull } from '../../geometry/ring-hull.ts';
import { snapped } from '../../geometry/snap.ts';
import { segmentsMeet } from '../../geometry/whole.ts';
import { seamsOf } from './joints.ts';
import { hasRoom, type Room } from './room.ts';

/** Of a key: foam nowhere narrower than the least width, and a flank that leans 1 in 3, so that no corner is a feather. */
export interface KeySizes {
  readonly neckMm: number;
  readonly headMm: number;
  readonly depthMm: number;
}

/** A key for every so many necks of a seam, about. */
const EVERY = 6;
const FLANK = 3;

/** A key for foam of some least width: as wide at its neck, half as deep. */
export function keySizesMm(leastWidthMm: number): KeySizes {
  const depthMm = leastWidthMm / 2;
  return { neckMm: leastWidthMm, headMm: leastWidthMm + (2 * depthMm) / FLANK, depthMm };
}

/**
 * The pieces of a layer with keys in their seams: dovetails that stand out of one piece and lie in the other, which shares
 * all their points. Laid in from above, they cannot be drawn apart. A key stands out to the north, or the east where its seam
 * runs north: so a piece grows on one of two opposite sides only. A seam gets as many as it is long, evenly; none where one would
 * leave less than the least width of foam beside it, counting keys that other seams may have, or would make its piece too large.
 * @param room what the pieces may measure with their keys.
 */
export function keyed(pieces: readonly Region[], leastWidthMm: number, room: Room): readonly Region[] {
  const sizes = keySizesMm(leastWidthMm);
  const clearMm = leastWidthMm + sizes.depthMm;
  const result = [...pieces];
  for (const { first, second, line } of seamsOf(pieces)) {
    for (let i = 0; i + 3 < line.length; i += 2) {
      const [ax, ay, bx, by] = [line[i], line[i + 1], line[i + 2], line[i + 3]];
      const points = keysAlong(ax, ay, bx, by, sizes, clearMm);
      if (points.length === 0) continue;
      const isClear = [first, second].every((k) => isClearOf(pieces[k], points, ax, ay, bx, by, clearMm));
      if (!isClear) continue;
      const one = withPoints(result[first], ax, ay, bx, by, points);
      const other = withPoints(result[second], bx, by, ax, ay, backwards(points));
      if (![one, other].every((region) => hasRoom(ringHull(region[0]), regionArea(region), room))) continue;
      result[first] = one;
      result[second] = other;
    }
  }
  return result;
}

/** The points of the keys of a seam a–b that has its first piece on the left, from a to b, without both. */
function keysAlong(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  { neckMm, headMm, depthMm }: KeySizes,
  clearMm: number,
): number[] {
  const long = length(bx - ax, by - ay);
  if (long < headMm + 2 * clearMm) return [];
  const most = Math.floor(long / (headMm + 2 * clearMm));
  const count = Math.min(most, Math.max(1, Math.round(long / (EVERY * neckMm))));
  const [ux, uy] = [(bx - ax) / long, (by - ay) / long];
  // Square to the seam, to the north or the east.
  const isUp = ux > 0 || (ux === 0 && uy < 0);
  const [nx, ny] = isUp ? [-uy, ux] : [uy, -ux];
  const points: number[] = [];
  const add = (along: number, out: number) =>
    points.push(snapped(ax + along * ux + out * nx), snapped(ay + along * uy + out * ny));
  for (let k = 0; k < count; k++) {
    const middle = ((k + 0.5) * long) / count;
    add(middle - neckMm / 2, 0);
    add(middle - headMm / 2, depthMm);
    add(middle + headMm / 2, depthMm);
    add(middle + neckMm / 2, 0);
  }
  return points;
}

/** Whether keys keep clear of every edge of a region but the seam's own. */
function isClearOf(
  region: Region,
  points: readonly number[],
  ax: number,
  ay: number,
  bx: number,
  by: number,
  clearMm: number,
): boolean {
  for (const ring of region) {
    for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
      const [px, py, qx, qy] = [ring[j], ring[j + 1], ring[i], ring[i + 1]];
      const isOwn =
        (px === ax && py === ay && qx === bx && qy === by) || (px === bx && py === by && qx === ax && qy === ay);
      if (isOwn) continue;
      for (let k = 0; k < points.length; k += 2) {
        if (squaredDistanceToSegment(points[k], points[k + 1], px, py, qx, qy) < clearMm * clearMm) return false;
        if (k % 8 === 6) continue;
        const [sx, sy, tx, ty] = [points[k], points[k + 1], points[k + 2], points[k + 3]];
        if (squaredDistanceToSegment(px, py, sx, sy, tx, ty) < clearMm * clearMm) return false;
        if (segmentsMeet(px, py, qx, qy, sx, sy, tx, ty)) return false;
      }
    }
  }
  return true;
}

/** A region with points put into the edge that runs from a to b. */
function withPoints(region: Region, ax: number, ay: number, bx: number, by: number, points: readonly number[]): Region {
  return region.map((ring): Ring => {
    for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
      if (ring[j] !== ax || ring[j + 1] !== ay || ring[i] !== bx || ring[i + 1] !== by) continue;
      return Float64Array.from([...ring.subarray(0, j + 2), ...points, ...(i > 0 ? ring.subarray(i) : [])]);
    }
    return ring;
  });
}

const backwards = (points: readonly number[]): number[] => {
  const result: number[] = [];
  for (let i = points.length - 2; i >= 0; i -= 2) result.push(points[i], points[i + 1]);
  return result;
};
