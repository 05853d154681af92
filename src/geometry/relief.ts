import { length } from './exact-math.ts';

/**
 * Shade a raster of heights as seen from above, lit from the north-west at 45°, the mapmaker's custom (Lambert's cosine
 * law). Row 0 of the heights is south; row 0 of the picture is north. NaN is outside and stays transparent.
 * @param step side of a raster cell, in the heights' unit.
 * @returns grey and alpha, two bytes a pixel.
 */
export function reliefOf(heights: Float32Array, columns: number, rows: number, step: number): Uint8Array {
  const picture = new Uint8Array(columns * rows * 2);
  const at = (column: number, row: number) =>
    column < 0 || row < 0 || column >= columns || row >= rows ? Number.NaN : heights[row * columns + column];
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const height = heights[row * columns + column];
      if (Number.isNaN(height)) continue;
      const east = rise(at(column - 1, row), height, at(column + 1, row)) / step;
      const north = rise(at(column, row - 1), height, at(column, row + 1)) / step;
      // Light from (−1, 1, √2); the normal is (−east, −north, 1).
      const light = (east - north + Math.SQRT2) / (2 * length(1, length(east, north)));
      const to = 2 * ((rows - 1 - row) * columns + column);
      picture[to] = Math.round(70 + 185 * Math.max(0, Math.min(1, light)));
      picture[to + 1] = 255;
    }
  }
  return picture;
}

/** Rise a cell from one neighbour to the other, or at a rim from the one that is there. */
function rise(before: number, height: number, after: number): number {
  if (Number.isNaN(before)) return Number.isNaN(after) ? 0 : after - height;
  return Number.isNaN(after) ? height - before : (after - before) / 2;
}
