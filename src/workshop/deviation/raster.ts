import { regionsWherePositive } from '../../geometry/clip.ts';
import type { Triangle } from '../../geometry/integral.ts';
import { ringAt } from '../../geometry/ruled.ts';
import { type SquareCells, scanFill } from '../../geometry/scan-fill.ts';
import type { Landform } from '../../model/landform.ts';
import type { Layer } from '../../model/layer.ts';
import { type Raster, rasterOf } from '../../model/raster.ts';

/**
 * The top of the stack less the top of the ground, seen from above, at the centres of square cells (`longest` along the longer
 * side): above 0 where foam stands out, below where ground has none. NaN outside. Under overhangs nothing is seen.
 */
export function deviationRaster(landform: Landform, layers: readonly Layer[], longest: number): Raster {
  const ground = rasterOf(landform, longest);
  const { columns, rows, stepMm } = ground;
  const foam = new Float32Array(columns * rows);
  const cells = { columns, rows, step: stepMm };
  for (const { regions, bottomMm, thicknessMm, slope } of layers) {
    const top = bottomMm + thicknessMm;
    const whole = slope ? regionsWherePositive(slope.stations.map((stations) => ringAt(stations, 1))) : regions;
    scanFill(whole, cells, (row, from, to) => foam.fill(top, row * columns + from, row * columns + to));
    for (const stations of slope?.stations ?? []) fillBanks(stations, bottomMm, top, cells, foam);
  }
  return { ...ground, heightsMm: foam.map((top, i) => top - ground.heightsMm[i]) };
}

/** Fill what lies under a wire's way: between two stations, the two triangles that part their patch. */
function fillBanks(s: Float64Array, low: number, high: number, cells: SquareCells, foam: Float32Array): void {
  for (let i = 0; i < s.length; i += 4) {
    const j = (i + 4) % s.length;
    fillUnder([s[i], s[i + 1], low, s[j], s[j + 1], low, s[j + 2], s[j + 3], high], cells, foam);
    fillUnder([s[i], s[i + 1], low, s[j + 2], s[j + 3], high, s[i + 2], s[i + 3], high], cells, foam);
  }
}

/** Raise the cells whose centres a triangle lies over. */
function fillUnder(triangle: Triangle, { columns, rows, step }: SquareCells, foam: Float32Array): void {
  const [ax, ay, az, bx, by, bz, cx, cy, cz] = triangle;
  const twice = (bx - ax) * (cy - ay) - (cx - ax) * (by - ay);
  if (twice === 0) return;
  const cellAt = (least: number) => Math.max(0, Math.ceil(least / step - 0.5));
  const lastRow = Math.min(rows - 1, Math.floor(Math.max(ay, by, cy) / step - 0.5));
  const lastColumn = Math.min(columns - 1, Math.floor(Math.max(ax, bx, cx) / step - 0.5));
  for (let row = cellAt(Math.min(ay, by, cy)); row <= lastRow; row++) {
    const y = (row + 0.5) * step - ay;
    for (let column = cellAt(Math.min(ax, bx, cx)); column <= lastColumn; column++) {
      const x = (column + 0.5) * step - ax;
      const b = (x * (cy - ay) - y * (cx - ax)) / twice;
      const c = (y * (bx - ax) - x * (by - ay)) / twice;
      const at = row * columns + column;
      if (b >= 0 && c >= 0 && b + c <= 1) foam[at] = Math.max(foam[at], az + b * (bz - az) + c * (cz - az));
    }
  }
}
