import { length } from './exact-math.ts';

/**
 * Shade a raster of heights as seen from above, lit from the north-west at 45°, the mapmaker's custom (Lambert's cosine
 * law). Row 0 of the heights is south; row 0 of the picture is north. NaN is outside and stays transparent.
 * @param step side of a raster cell, in the heights' unit.
 * @returns grey and alpha, two bytes a pixel.
 */
export function reliefOf(heights: Float32Array, columns: number, rows: number, step: number): Uint8Array {
  const picture = new Uint8Array(columns * rows * 2);
  const at = (column: number, row: number, other: number) => {
    if (column < 0 || row < 0 || column >= columns || row >= rows) return other;
    const height = heights[row * columns + column];
    return Number.isNaN(height) ? other : height;
  };
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const height = heights[row * columns + column];
      if (Number.isNaN(height)) continue;
      const east = (at(column + 1, row, height) - at(column - 1, row, height)) / (2 * step);
      const north = (at(column, row + 1, height) - at(column, row - 1, height)) / (2 * step);
      // Light from (−1, 1, √2); the normal is (−east, −north, 1).
      const light = (east - north + Math.SQRT2) / (2 * length(1, length(east, north)));
      const to = 2 * ((rows - 1 - row) * columns + column);
      picture[to] = Math.round(70 + 185 * Math.max(0, Math.min(1, light)));
      picture[to + 1] = 255;
    }
  }
  return picture;
}
