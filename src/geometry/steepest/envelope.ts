import type { PostGrid } from './posts.ts';

/** ε of the blunt cones, in posts: 0.5 makes up for the triangles far from the point, and takes 100 times the sweeps. */
const BLUNT = 0.7;

/**
 * The least of h(q) + limit × (√(|p − q|² + ε²) − ε) over the corners q of cells that are too steep: cones with a blunt
 * point, since the four triangles of a cell are steeper than a sharp one. Each post remembers whose cone holds it down and
 * hands that on to its neighbours (Danielsson, Euclidean distance mapping, 1980), in sweeps there and back until nothing
 * changes.
 */
export function lowerEnvelope(
  h: Float64Array,
  grid: PostGrid,
  limit: number,
  weights: Float64Array,
  points: Uint8Array,
) {
  const { columns, rows, stepX, stepY } = grid;
  const blunt = BLUNT * Math.max(stepX, stepY);
  const low = Float64Array.from(h);
  const holder = new Int32Array(h.length);
  for (let i = 0; i < holder.length; i++) holder[i] = points[i] === 1 ? i : -1;
  for (let sweep = 0, changed = true; changed || sweep % 2 === 1; sweep++) {
    changed = sweep % 2 === 1 && changed;
    const way = sweep % 2 === 0 ? 1 : -1;
    for (let k = 0, i = way === 1 ? 0 : h.length - 1; k < h.length; k++, i += way) {
      if (weights[i] === 0) continue;
      const column = i % columns;
      const row = (i - column) / columns;
      for (let y = Math.max(0, row - 1); y <= Math.min(rows - 1, row + 1); y++) {
        for (let x = Math.max(0, column - 1); x <= Math.min(columns - 1, column + 1); x++) {
          const by = holder[y * columns + x];
          if (by === -1 || by === holder[i] || weights[y * columns + x] === 0) continue;
          const dx = (column - (by % columns)) * stepX;
          const dy = (row - Math.floor(by / columns)) * stepY;
          const most = h[by] + limit * (Math.sqrt(dx * dx + dy * dy + blunt * blunt) - blunt);
          if (most >= low[i]) continue;
          low[i] = most;
          holder[i] = by;
          changed = true;
        }
      }
    }
  }
  return low;
}
