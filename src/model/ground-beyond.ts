import { groundRange, withNearestBeyond } from './ground.ts';
import { heightOf } from './ground-height.ts';
import type { Heightfield } from './landform.ts';

/**
 * Heights of the ground at any place: on its four triangles a cell, and beyond its posts as the ground would run on, straight
 * through its edge (twice the height at the edge less that as far within), but never out of the range that it has. Posts that
 * no ground hangs on count for nothing.
 */
export function groundRunOn(field: Heightfield): (xMm: number, yMm: number) => number {
  const { lowMm, highMm } = groundRange(field);
  const ground = withNearestBeyond(field);
  const { columns, rows, stepXMm, stepYMm, originMm } = field;
  const eastMm = originMm[0] + (columns - 1) * stepXMm;
  const northMm = originMm[1] + (rows - 1) * stepYMm;
  return (xMm, yMm) => {
    const x = Math.min(Math.max(xMm, originMm[0]), eastMm);
    const y = Math.min(Math.max(yMm, originMm[1]), northMm);
    if (x === xMm && y === yMm) return heightOf(ground, x, y);
    const on = 2 * heightOf(ground, x, y) - heightOf(ground, 2 * x - xMm, 2 * y - yMm);
    return Math.min(Math.max(on, lowMm), highMm);
  };
}
