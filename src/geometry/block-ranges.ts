/** Cells along the side of a block whose least and largest values are kept: 8 to 32 measured within 10 %. */
export const BLOCK_BITS = 4;
export const BLOCK = 1 << BLOCK_BITS;

/** Least and largest value of every block of 16 × 16 cells of a grid of posts, those on its rim included, row by row. */
export function rangesOfBlocks(columns: number, rows: number, values: Float64Array | Float32Array): Float64Array {
  const across = (columns - 2 + BLOCK) >> BLOCK_BITS;
  const ranges = new Float64Array(2 * across * ((rows - 2 + BLOCK) >> BLOCK_BITS));
  for (let at = 0, firstRow = 0; firstRow < rows - 1; firstRow += BLOCK) {
    const lastRow = Math.min(firstRow + BLOCK, rows - 1);
    for (let firstColumn = 0; firstColumn < columns - 1; firstColumn += BLOCK, at += 2) {
      const lastColumn = Math.min(firstColumn + BLOCK, columns - 1);
      let least = Infinity;
      let largest = -Infinity;
      for (let row = firstRow; row <= lastRow; row++) {
        for (let i = row * columns + firstColumn; i <= row * columns + lastColumn; i++) {
          if (values[i] < least) least = values[i];
          if (values[i] > largest) largest = values[i];
        }
      }
      ranges[at] = least;
      ranges[at + 1] = largest;
    }
  }
  return ranges;
}
