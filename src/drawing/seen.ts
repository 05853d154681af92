import type { Box } from '../geometry/ring.ts';

/** The stretch t0…t1 of the segment a–b inside a box (Liang and Barsky 1984), or null. A touch counts. */
export function clipSegment(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  box: Box,
): readonly [number, number] | null {
  let t0 = 0;
  let t1 = 1;
  const dx = bx - ax;
  const dy = by - ay;
  for (let side = 0; side < 4; side++) {
    const along = side === 0 ? -dx : side === 1 ? dx : side === 2 ? -dy : dy;
    const room = side === 0 ? ax - box[0] : side === 1 ? box[2] - ax : side === 2 ? ay - box[1] : box[3] - ay;
    if (along === 0) {
      if (room < 0) return null;
    } else {
      const t = room / along;
      if (along < 0) {
        if (t > t1) return null;
        if (t > t0) t0 = t;
      } else {
        if (t < t0) return null;
        if (t < t1) t1 = t;
      }
    }
  }
  return [t0, t1];
}
