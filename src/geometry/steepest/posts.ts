/** Heights on posts: row by row, `columns` a row, so far apart. */
export interface PostGrid {
  readonly columns: number;
  readonly rows: number;
  readonly stepX: number;
  readonly stepY: number;
}

/** Cells round each post that are ground, of four. */
export function weightsOf({ columns, rows }: PostGrid, cells: Uint8Array | null): Float64Array {
  const weights = new Float64Array(columns * rows);
  for (let cell = 0; cell < (columns - 1) * (rows - 1); cell++) {
    if (cells !== null && cells[cell] === 0) continue;
    const a = cell + Math.floor(cell / (columns - 1));
    weights[a] += 0.25;
    weights[a + 1] += 0.25;
    weights[a + columns] += 0.25;
    weights[a + columns + 1] += 0.25;
  }
  return weights;
}
