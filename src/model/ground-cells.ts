import { cellsUnder } from '../geometry/grid-cells.ts';
import { SNAP } from '../geometry/tolerance.ts';
import { type Heightfield, isWhole } from './landform.ts';

/** What of each cell the footprint holds, row by row from the south: 0 nothing, 1 all, 2 some of it; null when all of all. */
export function groundCells(field: Heightfield): Uint8Array | null {
  if (isWhole(field)) return null;
  const { columns, rows, stepXMm, stepYMm, originMm } = field;
  const [originX, originY] = originMm;
  return cellsUnder(
    field.footprint,
    { across: columns - 1, up: rows - 1, stepX: stepXMm, stepY: stepYMm, originX, originY },
    SNAP,
  );
}
