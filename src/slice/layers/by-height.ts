import { centreOf } from '../../geometry/contour.ts';
import { HeightSums, type HeightTable } from '../../geometry/height-table.ts';
import { ringInBox, ringInTriangle, type Triangle } from '../../geometry/integral.ts';
import { ringArea, ringsOf } from '../../geometry/ring.ts';
import { groundCells } from '../../model/ground-cells.ts';
import type { Heightfield, Landform, Solid } from '../../model/landform.ts';
import type { Walk } from '../../plugin.ts';

/** More cells than this are sampled: every second, third … row and column of cells stands for its neighbours. */
const MOST_CELLS = 4_000_000;

/**
 * Areas and volumes of the ground by height. Exact for the four triangles of a cell and for a closed solid's sections;
 * cells that the footprint cuts count by the share of them that it keeps. Levels are met as slicing meets them.
 */
export function* byHeight(landform: Landform, levelsMm: Float64Array): Walk<HeightTable> {
  const isShort = landform.kind === 'heightfield' && landform.heightsMm instanceof Float32Array;
  const sums = new HeightSums(isShort ? levelsMm.map(Math.fround) : levelsMm);
  yield* landform.kind === 'heightfield' ? addPosts(landform, sums) : addFaces(landform, sums);
  return sums.table();
}

function* addPosts(field: Heightfield, sums: HeightSums): Walk<void> {
  const { columns, rows, stepXMm, stepYMm, originMm, heightsMm: h } = field;
  const cells = groundCells(field);
  const rings = ringsOf(field.footprint);
  const [across, up] = [columns - 1, rows - 1];
  const every = Math.max(1, Math.ceil(Math.sqrt((across * up) / MOST_CELLS)));
  const stands = (across * up) / (Math.ceil(across / every) * Math.ceil(up / every));
  const quarter = (stands * stepXMm * stepYMm) / 4;
  for (let row = 0; row < up; row += every) {
    for (let column = 0; column < across; column += every) {
      const kept = cells ? cells[row * across + column] : 1;
      if (kept === 0) continue;
      const at = row * columns + column;
      const [sw, se, nw, ne] = [h[at], h[at + 1], h[at + columns], h[at + columns + 1]];
      const middle = centreOf(sw, se, nw, ne);
      const area = kept === 1 ? quarter : quarter * shareOf(column, row);
      sums.add(area, sw, se, middle);
      sums.add(area, se, ne, middle);
      sums.add(area, ne, nw, middle);
      sums.add(area, nw, sw, middle);
    }
    yield (row + 1) / up;
  }

  function shareOf(column: number, row: number): number {
    const [x, y] = [originMm[0] + column * stepXMm, originMm[1] + row * stepYMm];
    let area = 0;
    for (const ring of rings) area += ringArea(ringInBox(ring, x, y, x + stepXMm, y + stepYMm));
    return area / (stepXMm * stepYMm);
  }
}

/** Faces that look down take off what they cover. */
function* addFaces({ positionsMm: p, triangles, footprint }: Solid, sums: HeightSums): Walk<void> {
  const rings = footprint && ringsOf(footprint);
  const count = triangles.length / 3;
  for (let t = 0; t < count; t++) {
    const [a, b, c] = [3 * triangles[3 * t], 3 * triangles[3 * t + 1], 3 * triangles[3 * t + 2]];
    let area = ((p[b] - p[a]) * (p[c + 1] - p[a + 1]) - (p[c] - p[a]) * (p[b + 1] - p[a + 1])) / 2;
    if (area === 0) continue;
    if (rings) {
      const face: Triangle = [p[a], p[a + 1], p[a + 2], p[b], p[b + 1], p[b + 2], p[c], p[c + 1], p[c + 2]];
      let kept = 0;
      for (const ring of rings) kept += ringArea(ringInTriangle(ring, face));
      area = Math.sign(area) * kept;
    }
    sums.add(area, p[a + 2], p[b + 2], p[c + 2]);
    if (t % 4096 === 4095) yield (t + 1) / count;
  }
}
