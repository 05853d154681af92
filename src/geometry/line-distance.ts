import type { Cells } from './grid-cells.ts';
import { squaredDistanceToSegment } from './ring.ts';

/**
 * Distance of each post of a grid (the corners of its cells) from the nearest of some open lines, flat x, y lists; Infinity
 * for posts farther than `reach` from all. O(posts + Σ over segments of the posts within reach of its box).
 */
export function distancesFromLines(lines: Iterable<Float64Array>, grid: Cells, reach: number): Float64Array {
  const { across, up, stepX, stepY, originX, originY } = grid;
  const columns = across + 1;
  const squared = new Float64Array(columns * (up + 1)).fill(Infinity);
  for (const line of lines) {
    for (let i = 2; i < line.length; i += 2) {
      const [ax, ay, bx, by] = [line[i - 2], line[i - 1], line[i], line[i + 1]];
      const first = Math.max(0, Math.ceil((Math.min(ax, bx) - reach - originX) / stepX));
      const last = Math.min(across, Math.floor((Math.max(ax, bx) + reach - originX) / stepX));
      const lastRow = Math.min(up, Math.floor((Math.max(ay, by) + reach - originY) / stepY));
      for (let row = Math.max(0, Math.ceil((Math.min(ay, by) - reach - originY) / stepY)); row <= lastRow; row++) {
        for (let column = first; column <= last; column++) {
          const at = row * columns + column;
          const found = squaredDistanceToSegment(originX + column * stepX, originY + row * stepY, ax, ay, bx, by);
          if (found < squared[at]) squared[at] = found;
        }
      }
    }
  }
  for (let i = 0; i < squared.length; i++) squared[i] = squared[i] <= reach * reach ? Math.sqrt(squared[i]) : Infinity;
  return squared;
}

/** A ring as a line that comes back to where it starts. */
export function lineAround(ring: Float64Array): Float64Array {
  const line = new Float64Array(ring.length + 2);
  line.set(ring);
  line.set(ring.subarray(0, 2), ring.length);
  return line;
}
