import { scanFill } from '../../geometry/scan-fill.ts';
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
  for (const { regions, bottomMm, thicknessMm } of layers) {
    scanFill(regions, { columns, rows, step: stepMm }, (row, from, to) =>
      foam.fill(bottomMm + thicknessMm, row * columns + from, row * columns + to),
    );
  }
  return { ...ground, heightsMm: foam.map((top, i) => top - ground.heightsMm[i]) };
}
