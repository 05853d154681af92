import { ringInBox, ringInTriangle, type Triangle, underPlane } from '../geometry/integral.ts';
import { boxOf, type Ring, ringsOf } from '../geometry/ring.ts';
import { groundCells } from './ground-cells.ts';
import type { Heightfield, Landform, Solid } from './landform.ts';

/** The ground that a landform's footprint keeps, summed up. */
export interface GroundSums {
  /** Area seen from above. Where a solid overhangs, each of its upper faces counts. */
  readonly planAreaMm2: number;
  /** True sloping area of what faces up. */
  readonly surfaceAreaMm2: number;
  /** Volume over z = 0. */
  readonly volumeMm3: number;
}

type Sums = { -readonly [K in keyof GroundSums]: number };

/** Sum up the ground of a landform, exactly: its flat triangles are cut along the footprint. */
export function groundOf(landform: Landform): GroundSums {
  const sums: Sums = { planAreaMm2: 0, surfaceAreaMm2: 0, volumeMm3: 0 };
  if (landform.kind === 'heightfield') addPosts(landform, sums);
  else addTriangles(landform, sums);
  return sums;
}

function addPosts(field: Heightfield, sums: Sums): void {
  const { columns, rows, stepXMm, stepYMm, originMm } = field;
  const cells = groundCells(field);
  const rings = ringsOf(field.footprint).map((ring) => ({ ring, box: boxOf([ring]) }));
  for (let row = 0; row + 1 < rows; row++) {
    const y = originMm[1] + row * stepYMm;
    let inRow: readonly Ring[] | null = null;
    for (let column = 0; column + 1 < columns; column++) {
      const kept = cells ? cells[row * (columns - 1) + column] : 1;
      if (kept === 1) addWholeCell(field, row * columns + column, sums);
      if (kept !== 2) continue;
      // Rings are cut to the row first, and only where a row has cut cells: clipping is what costs.
      const near = () => rings.filter(({ box }) => box[1] < y + stepYMm && box[3] > y).map(({ ring }) => ring);
      inRow ??= within(near(), -Infinity, y, Infinity, y + stepYMm);
      const x = originMm[0] + column * stepXMm;
      addCutCell(field, row * columns + column, x, y, within(inRow, x, y, x + stepXMm, y + stepYMm), sums);
    }
  }
}

/** The four flat triangles of a cell that meet at its middle, added up without cutting: most cells are whole. */
function addWholeCell({ columns, stepXMm, stepYMm, heightsMm: h }: Heightfield, at: number, sums: Sums): void {
  const [a, b, c, d] = [h[at], h[at + 1], h[at + columns + 1], h[at + columns]];
  const middle = (a + b + c + d) / 4;
  sums.planAreaMm2 += stepXMm * stepYMm;
  sums.volumeMm3 += stepXMm * stepYMm * middle;
  sums.surfaceAreaMm2 +=
    sloping(b - a, 2 * middle - a - b, stepXMm, stepYMm) +
    sloping(c - d, 2 * middle - c - d, stepXMm, stepYMm) +
    sloping(2 * middle - a - d, d - a, stepXMm, stepYMm) +
    sloping(2 * middle - b - c, c - b, stepXMm, stepYMm);
}

/** A quarter of a cell's area, laid on the slope that rises so much over a step west to east and south to north. */
function sloping(riseX: number, riseY: number, stepX: number, stepY: number): number {
  const slopeX = riseX / stepX;
  const slopeY = riseY / stepY;
  return (stepX * stepY * Math.sqrt(1 + slopeX * slopeX + slopeY * slopeY)) / 4;
}

function addCutCell(field: Heightfield, at: number, x: number, y: number, rings: readonly Ring[], sums: Sums): void {
  const { columns, stepXMm, stepYMm, heightsMm: h } = field;
  const corners = [
    [x, y, h[at]],
    [x + stepXMm, y, h[at + 1]],
    [x + stepXMm, y + stepYMm, h[at + columns + 1]],
    [x, y + stepYMm, h[at + columns]],
  ] as const;
  const middle = (h[at] + h[at + 1] + h[at + columns] + h[at + columns + 1]) / 4;
  for (let side = 0; side < 4; side++) {
    addTriangle(
      [...corners[side], ...corners[(side + 1) % 4], x + stepXMm / 2, y + stepYMm / 2, middle],
      rings,
      1,
      sums,
    );
  }
}

function addTriangles({ positionsMm: p, triangles, footprint }: Solid, sums: Sums): void {
  const rings = footprint && ringsOf(footprint);
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [3 * triangles[t], 3 * triangles[t + 1], 3 * triangles[t + 2]];
    const triangle: Triangle = [p[a], p[a + 1], p[a + 2], p[b], p[b + 1], p[b + 2], p[c], p[c + 1], p[c + 2]];
    const sense = Math.sign((p[b] - p[a]) * (p[c + 1] - p[a + 1]) - (p[c] - p[a]) * (p[b + 1] - p[a + 1]));
    if (sense !== 0) addTriangle(triangle, rings, sense, sums);
  }
}

/** Faces that look down take their volume off, and have no upper surface. */
function addTriangle(triangle: Triangle, rings: readonly Ring[] | null, sense: number, sums: Sums): void {
  const whole = new Float64Array([triangle[0], triangle[1], triangle[3], triangle[4], triangle[6], triangle[7]]);
  const { area: wholeArea } = underPlane(whole, triangle);
  for (const ring of rings ?? [whole]) {
    const kept = rings ? ringInTriangle(ring, triangle) : ring;
    const { area, volume } = underPlane(kept, triangle);
    // A ring without a footprint runs with its triangle; one of the footprint has the footprint's sense.
    sums.volumeMm3 += rings ? sense * volume : volume;
    if (sense < 0) continue;
    sums.planAreaMm2 += area;
    sums.surfaceAreaMm2 += (area / wholeArea) * trueArea(triangle);
  }
}

function trueArea([ax, ay, az, bx, by, bz, cx, cy, cz]: Triangle): number {
  const x = (by - ay) * (cz - az) - (bz - az) * (cy - ay);
  const y = (bz - az) * (cx - ax) - (bx - ax) * (cz - az);
  const z = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);
  return Math.sqrt(x * x + y * y + z * z) / 2;
}

function within(rings: readonly Ring[], minX: number, minY: number, maxX: number, maxY: number): Ring[] {
  return rings.map((ring) => ringInBox(ring, minX, minY, maxX, maxY)).filter((ring) => ring.length >= 6);
}
