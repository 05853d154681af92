import { groundCells } from '../../model/ground-cells.ts';
import type { Heightfield } from '../../model/landform.ts';

/** How much the steepest of the ground's flat triangles rises over a length of 1. A cell that the footprint cuts counts whole. */
export function steepestRise(field: Heightfield): number {
  const { columns, rows, stepXMm, stepYMm, heightsMm: h } = field;
  const cells = groundCells(field);
  let most = 0;
  for (let row = 0; row + 1 < rows; row++) {
    for (let column = 0; column + 1 < columns; column++) {
      if (cells && cells[row * (columns - 1) + column] === 0) continue;
      const at = row * columns + column;
      const southWest = h[at];
      const southEast = h[at + 1];
      const northWest = h[at + columns];
      const northEast = h[at + columns + 1];
      const middle = (southWest + southEast + northWest + northEast) / 4;
      const [south, north] = [southEast - southWest, northEast - northWest];
      const [west, east] = [northWest - southWest, northEast - southEast];
      most = Math.max(
        most,
        squared(south / stepXMm, (2 * middle - southWest - southEast) / stepYMm),
        squared(north / stepXMm, (northWest + northEast - 2 * middle) / stepYMm),
        squared((2 * middle - southWest - northWest) / stepXMm, west / stepYMm),
        squared((southEast + northEast - 2 * middle) / stepXMm, east / stepYMm),
      );
    }
  }
  return Math.sqrt(most);
}

const squared = (x: number, y: number): number => x * x + y * y;
