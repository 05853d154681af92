import type { Region } from './ring.ts';

/**
 * Length of the segment a–b that lies inside regions, which do not overlap; what runs along an outline counts or not. Where the
 * segment's line leaves the area the way to there counts, where it enters the way to there counts off, both kept within the
 * segment: nothing is sorted and nothing kept. O(points).
 */
export function lengthInside(ax: number, ay: number, bx: number, by: number, regions: readonly Region[]): number {
  const dx = bx - ax;
  const dy = by - ay;
  let share = 0;
  for (let r = 0; r < regions.length; r++) {
    for (let k = 0; k < regions[r].length; k++) {
      const ring = regions[r][k];
      let px = ring[ring.length - 2];
      let py = ring[ring.length - 1];
      let p = dx * (py - ay) - dy * (px - ax);
      for (let i = 0; i < ring.length; i += 2) {
        const qx = ring[i];
        const qy = ring[i + 1];
        const q = dx * (qy - ay) - dy * (qx - ax);
        if (p >= 0 !== q >= 0) {
          const ex = qx - px;
          const ey = qy - py;
          // Outlines have their area on the left: it is left where one crosses from right to left.
          const t = (ex * (ay - py) - ey * (ax - px)) / (ey * dx - ex * dy);
          const within = t < 0 ? 0 : t > 1 ? 1 : t;
          share += q >= 0 ? within : -within;
        }
        px = qx;
        py = qy;
        p = q;
      }
    }
  }
  return share * Math.sqrt(dx * dx + dy * dy);
}
