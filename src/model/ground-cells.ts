import { type Cells, cellsUnder } from '../geometry/grid-cells.ts';
import { SNAP } from '../geometry/tolerance.ts';
import { type Heightfield, isWhole } from './landform.ts';

/** What of each cell the footprint holds, row by row from the south: 0 nothing, 1 all, 2 some of it; null when all of all. */
export function groundCells(field: Heightfield): Uint8Array | null {
  if (isWhole(field)) return null;
  return cellsUnder(field.footprint, gridOf(field), SNAP);
}

/** Where the cells between the posts lie. */
export function gridOf({ columns, rows, stepXMm, stepYMm, originMm: [originX, originY] }: Heightfield): Cells {
  return { across: columns - 1, up: rows - 1, stepX: stepXMm, stepY: stepYMm, originX, originY };
}
