import { refuse } from '../findings.ts';
import { tidyMm } from './ground.ts';

/** Higher or lower than a thousand kilometres is a fault of the file, not ground. */
const MOST_MM = 1e9;

/** Numbers of a grid, row by row from the north. */
export type NorthRows = ArrayLike<number>;

/**
 * Turn a grid's numbers into heights, the southern row first: the one place where a grid is turned. A number stands for no
 * data when it is NaN, or the same as `noData` in single precision, in which such grids are often written.
 */
export function heightsFromNorth(values: NorthRows, columns: number, mm: number, noData: number | null, file: string) {
  const rows = values.length / columns;
  const heightsMm = new Float64Array(values.length);
  const known = new Uint8Array(values.length);
  const none = noData === null ? Number.NaN : Math.fround(noData);
  let missing = 0;
  for (let row = 0; row < rows; row++) {
    const from = (rows - 1 - row) * columns;
    for (let column = 0; column < columns; column++) {
      const value = values[from + column];
      if (Math.fround(value) === none || Number.isNaN(value)) missing++;
      else {
        const post = row * columns + column;
        if (!(Math.abs(value * mm) <= MOST_MM)) absurd(value, rows - row, column + 1, file);
        heightsMm[post] = tidyMm(value * mm);
        known[post] = 1;
      }
    }
  }
  return { heightsMm, known, missing };
}

const absurd = (value: number, row: number, column: number, file: string): never =>
  refuse(
    'source/no-height',
    `The grid has ${value} as number ${column} of row ${row}: that is no height.`,
    'If it stands for no data, name it as that in the file’s header.',
    { file },
  );
