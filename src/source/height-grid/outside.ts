import { refuse } from '../../findings.ts';
import { cornersOf } from '../../geometry/grid-cells.ts';
import { fillNearest } from '../../geometry/grid-fill.ts';
import { outlineOfCells } from '../../geometry/grid-outline.ts';
import type { Heightfield } from '../../model/landform.ts';

/**
 * The ground of the cells that have a height at all four corners, cut to their box so that it starts at (0, 0). Posts that
 * belong to no such cell take a nearest height: they are not ground, and must not raise or lower its extent.
 */
export function groundWithin(
  heightsMm: Float64Array,
  known: Uint8Array,
  columns: number,
  stepXMm: number,
  stepYMm: number,
  file: string,
): Heightfield {
  const rows = heightsMm.length / columns;
  let west = columns;
  let east = -1;
  let south = rows;
  let north = -1;
  for (let row = 0; row + 1 < rows; row++) {
    for (let column = 0; column + 1 < columns; column++) {
      if (!isCell(row * columns + column)) continue;
      west = Math.min(west, column);
      east = Math.max(east, column);
      south = Math.min(south, row);
      north = Math.max(north, row);
    }
  }
  if (east < 0) noCell(file);
  const across = east - west + 1;
  const up = north - south + 1;
  const cells = new Uint8Array(across * up);
  const heights = new Float64Array((across + 1) * (up + 1));
  for (let row = 0; row <= up; row++) {
    for (let column = 0; column <= across; column++) {
      const post = (south + row) * columns + west + column;
      heights[row * (across + 1) + column] = heightsMm[post];
      if (row < up && column < across && isCell(post)) cells[row * across + column] = 1;
    }
  }
  return {
    kind: 'heightfield',
    columns: across + 1,
    rows: up + 1,
    stepXMm,
    stepYMm,
    originMm: [0, 0],
    heightsMm: fillNearest(heights, cornersOf(cells, across), across + 1),
    footprint: outlineOfCells(cells, across, stepXMm, stepYMm),
  };

  function isCell(post: number): boolean {
    return (known[post] & known[post + 1] & known[post + columns] & known[post + columns + 1]) === 1;
  }
}

const noCell = (file: string): never =>
  refuse(
    'source/no-ground',
    `The grid has no four neighbouring posts that all have a height: there is no ground between them.`,
    'Fill the gaps with noData: fill, or fetch denser data.',
    { file },
  );
