import { centreOf } from '../geometry/contour.ts';
import type { Heightfield } from './landform.ts';

/** The height of a heightfield's ground at a place, on its four triangles a cell; beyond the posts, of the nearest place. */
export function heightOf(field: Heightfield, xMm: number, yMm: number): number {
  const { columns, rows, stepXMm, stepYMm, originMm, heightsMm: h } = field;
  const u = Math.min(Math.max((xMm - originMm[0]) / stepXMm, 0), columns - 1);
  const v = Math.min(Math.max((yMm - originMm[1]) / stepYMm, 0), rows - 1);
  const column = Math.min(Math.floor(u), columns - 2);
  const row = Math.min(Math.floor(v), rows - 2);
  const at = row * columns + column;
  const [sw, se, nw, ne] = [h[at], h[at + 1], h[at + columns], h[at + columns + 1]];
  const centre = centreOf(sw, se, nw, ne);
  // From the middle of the cell, −1 … 1 each way: the side that is nearest tells the triangle.
  const x = 2 * (u - column) - 1;
  const y = 2 * (v - row) - 1;
  const [a, b, out, along] =
    Math.abs(x) > Math.abs(y) ? (x > 0 ? [se, ne, x, y] : [sw, nw, -x, y]) : y > 0 ? [nw, ne, y, x] : [sw, se, -y, x];
  return centre + out * ((a + b) / 2 - centre) + (along * (b - a)) / 2;
}
