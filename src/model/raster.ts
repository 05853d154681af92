import { isInside } from '../geometry/ring.ts';
import { heightOf } from './ground-height.ts';
import { extent, type Heightfield, type Landform, type Solid } from './landform.ts';

/** Heights of the ground seen from above, for pictures. Row 0 is south; NaN is outside. */
export interface Raster {
  readonly columns: number;
  readonly rows: number;
  readonly stepMm: number;
  readonly heightsMm: Float32Array;
}

/** Sample a landform's upper surface at the centres of square cells, `longest` of them along its longer side. */
export function rasterOf(landform: Landform, longest: number): Raster {
  const [minX, minY, maxX, maxY] = extent(landform).box;
  const stepMm = Math.max(maxX - minX, maxY - minY) / longest;
  const columns = Math.max(1, Math.round((maxX - minX) / stepMm));
  const rows = Math.max(1, Math.round((maxY - minY) / stepMm));
  const heightsMm = new Float32Array(columns * rows).fill(Number.NaN);
  const raster = { columns, rows, stepMm, heightsMm };
  if (landform.kind === 'heightfield') fromPosts(landform, raster);
  else fromTriangles(landform, raster);
  if (landform.footprint) {
    for (let i = 0; i < heightsMm.length; i++) {
      const x = ((i % columns) + 0.5) * stepMm;
      const y = (Math.floor(i / columns) + 0.5) * stepMm;
      if (!isInside(x, y, landform.footprint)) heightsMm[i] = Number.NaN;
    }
  }
  return raster;
}

function fromPosts(field: Heightfield, { columns, rows, stepMm, heightsMm }: Raster): void {
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      heightsMm[row * columns + column] = heightOf(field, (column + 0.5) * stepMm, (row + 0.5) * stepMm);
    }
  }
}

/** Each triangle that faces up is filled into the cells whose centres it covers; the highest wins. */
function fromTriangles({ positionsMm: p, triangles }: Solid, { columns, rows, stepMm, heightsMm }: Raster): void {
  for (let t = 0; t < triangles.length; t += 3) {
    const a = 3 * triangles[t];
    const b = 3 * triangles[t + 1];
    const c = 3 * triangles[t + 2];
    const twice = (p[b] - p[a]) * (p[c + 1] - p[a + 1]) - (p[c] - p[a]) * (p[b + 1] - p[a + 1]);
    if (twice <= 0) continue;
    const firstRow = Math.max(0, Math.floor(Math.min(p[a + 1], p[b + 1], p[c + 1]) / stepMm - 0.5));
    const lastRow = Math.min(rows - 1, Math.ceil(Math.max(p[a + 1], p[b + 1], p[c + 1]) / stepMm));
    const first = Math.max(0, Math.floor(Math.min(p[a], p[b], p[c]) / stepMm - 0.5));
    const last = Math.min(columns - 1, Math.ceil(Math.max(p[a], p[b], p[c]) / stepMm));
    for (let row = firstRow; row <= lastRow; row++) {
      const y = (row + 0.5) * stepMm;
      for (let column = first; column <= last; column++) {
        const x = (column + 0.5) * stepMm;
        const wa = ((p[b] - x) * (p[c + 1] - y) - (p[c] - x) * (p[b + 1] - y)) / twice;
        const wb = ((p[c] - x) * (p[a + 1] - y) - (p[a] - x) * (p[c + 1] - y)) / twice;
        const wc = 1 - wa - wb;
        if (wa < 0 || wb < 0 || wc < 0) continue;
        const at = row * columns + column;
        const height = wa * p[a + 2] + wb * p[b + 2] + wc * p[c + 2];
        // NaN compares false: an empty cell takes any height.
        if (!(heightsMm[at] >= height)) heightsMm[at] = height;
      }
    }
  }
}
