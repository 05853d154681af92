/**
 * Exact fits. Where straight pieces fill a board to the last thousandth, the one place where they are free is a point, and
 * steps of any length walk past it. Pieces that fit so stand corner against corner or side along side: some vertex of one
 * lies straight above or beside a vertex of the other. So the nearest places are tried at which that is true.
 */
import type { Board, Field } from './field.ts';
import type { Posture } from './posture.ts';

/** The nearest shifts along x and along y that bring a vertex in line with another's; 0 for none. */
export interface Shift {
  x: number;
  y: number;
}

/**
 * Find the least shifts of a posture at (x, y), none above `most`, that bring one of its vertices straight above or beside
 * one of a neighbour's. O(vertices × vertices of the neighbours).
 */
export function alignment(
  f: Field,
  item: number,
  p: Posture,
  b: Board,
  x: number,
  y: number,
  most: number,
  shift: Shift,
): void {
  let leastX = most;
  let leastY = most;
  shift.x = 0;
  shift.y = 0;
  const own = p.edges;
  for (let k = 0, at = 0; k < b.count; k++, at += 4) {
    if (b.boxes[at] > p.maxX + x + most || b.boxes[at + 2] < p.minX + x - most) continue;
    if (b.boxes[at + 1] > p.maxY + y + most || b.boxes[at + 3] < p.minY + y - most) continue;
    const other = b.items[k];
    if (other === item) continue;
    const { edges } = f.postures[other];
    const dx = f.x[other] - x;
    const dy = f.y[other] - y;
    for (let j = 0; j < edges.length; j += 4) {
      const ox = edges[j] + dx;
      const oy = edges[j + 1] + dy;
      for (let i = 0; i < own.length; i += 4) {
        const byX = ox - own[i];
        const byY = oy - own[i + 1];
        const farX = byX < 0 ? -byX : byX;
        const farY = byY < 0 ? -byY : byY;
        if (farX < leastX) {
          leastX = farX;
          shift.x = byX;
        }
        if (farY < leastY) {
          leastY = farY;
          shift.y = byY;
        }
      }
    }
  }
}
