import { type Region, ringsOf } from './ring.ts';

/** Square cells from (0, 0), row 0 lowest y. */
export interface SquareCells {
  readonly columns: number;
  readonly rows: number;
  readonly step: number;
}

/**
 * Call back for each run of cells of a row whose centres lie in the regions: row, first column, one past the last. Regions
 * must be free of overlaps. A centre on an edge counts to one side of it only. O(points × rows that an edge spans).
 */
export function scanFill(
  regions: readonly Region[],
  { columns, rows, step }: SquareCells,
  run: (row: number, from: number, to: number) => void,
): void {
  const crossings: number[][] = Array.from({ length: rows }, () => []);
  for (const ring of ringsOf(regions)) {
    for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
      const [ay, by] = [ring[j + 1] / step - 0.5, ring[i + 1] / step - 0.5];
      if (ay === by) continue;
      const last = Math.min(rows - 1, Math.ceil(Math.max(ay, by)) - 1);
      for (let row = Math.max(0, Math.ceil(Math.min(ay, by))); row <= last; row++) {
        crossings[row].push((ring[j] + ((ring[i] - ring[j]) * (row - ay)) / (by - ay)) / step - 0.5);
      }
    }
  }
  for (let row = 0; row < rows; row++) {
    const line = crossings[row].sort((a, b) => a - b);
    for (let k = 0; k + 1 < line.length; k += 2) {
      const from = Math.max(0, Math.ceil(line[k]));
      const to = Math.min(columns, Math.ceil(line[k + 1]));
      if (from < to) run(row, from, to);
    }
  }
}
