import { ringInBox, ringInTriangle, type Triangle } from '../geometry/integral.ts';
import { type Ring, ringArea, ringsOf } from '../geometry/ring.ts';
import { meanBetween, ringBetween } from '../geometry/slab.ts';
import type { Heightfield, Landform, Solid } from './landform.ts';

/** How much of a box the rings may leave out and still count as covering it: what clipping rounds. */
const COVERED_SHARE = 1e-12;

/** The volume of the ground between two levels, within its footprint. Exact for its flat triangles. */
export function groundBetween(landform: Landform, lowMm: number, highMm: number): number {
  if (landform.kind === 'heightfield') return groundWithin(landform, ringsOf(landform.footprint), lowMm, highMm);
  return solidBetween(landform, lowMm, highMm);
}

/**
 * The volume of a heightfield's ground between two levels and inside rings (outer ones counter-clockwise, holes clockwise,
 * free of overlaps). The rings are cut to halves of the grid again and again until they fill a block of cells, leave it
 * empty, or one cell is left: O(cells inside + points × log(cells) + cells that an edge runs through).
 */
export function groundWithin(field: Heightfield, rings: readonly Ring[], lowMm: number, highMm: number): number {
  const { columns, rows, stepXMm, stepYMm, originMm, heightsMm: h } = field;
  const [originX, originY] = originMm;
  let volume = 0;
  block(0, columns - 1, 0, rows - 1, rings);
  return volume;

  function block(west: number, east: number, south: number, north: number, around: readonly Ring[]): void {
    const [minX, minY] = [originX + west * stepXMm, originY + south * stepYMm];
    const [maxX, maxY] = [originX + east * stepXMm, originY + north * stepYMm];
    const inside = around.map((ring) => ringInBox(ring, minX, minY, maxX, maxY)).filter((ring) => ring.length >= 6);
    if (inside.length === 0) return;
    const area = inside.reduce((sum, ring) => sum + ringArea(ring), 0);
    const whole = (maxX - minX) * (maxY - minY);
    if (area >= whole * (1 - COVERED_SHARE)) wholeCells(west, east, south, north);
    else if (area > whole * COVERED_SHARE) {
      if (east - west === 1 && north - south === 1) cutCell(west, south, inside);
      else if (east - west >= north - south) {
        const middle = (west + east) >> 1;
        block(west, middle, south, north, inside);
        block(middle, east, south, north, inside);
      } else {
        const middle = (south + north) >> 1;
        block(west, east, south, middle, inside);
        block(west, east, middle, north, inside);
      }
    }
  }

  function wholeCells(west: number, east: number, south: number, north: number): void {
    const quarter = (stepXMm * stepYMm) / 4;
    for (let row = south; row < north; row++) {
      for (let at = row * columns + west; at < row * columns + east; at++) {
        const a = h[at];
        const b = h[at + 1];
        const c = h[at + columns + 1];
        const d = h[at + columns];
        const least = Math.min(a, b, c, d);
        if (least >= highMm) volume += 4 * quarter * (highMm - lowMm);
        else if (Math.max(a, b, c, d) > lowMm) {
          const middle = (a + b + (d + c)) / 4;
          volume +=
            quarter *
            (meanBetween(a, b, middle, lowMm, highMm) +
              meanBetween(b, c, middle, lowMm, highMm) +
              meanBetween(c, d, middle, lowMm, highMm) +
              meanBetween(d, a, middle, lowMm, highMm));
        }
      }
    }
  }

  function cutCell(column: number, row: number, around: readonly Ring[]): void {
    const at = row * columns + column;
    const [minX, minY] = [originX + column * stepXMm, originY + row * stepYMm];
    const [maxX, maxY] = [minX + stepXMm, minY + stepYMm];
    const middle = (h[at] + h[at + 1] + (h[at + columns] + h[at + columns + 1])) / 4;
    const corners = [
      [minX, minY, h[at]],
      [maxX, minY, h[at + 1]],
      [maxX, maxY, h[at + columns + 1]],
      [minX, maxY, h[at + columns]],
    ] as const;
    for (let side = 0; side < 4; side++) {
      volume += overTriangle(
        [...corners[side], ...corners[(side + 1) % 4], minX + stepXMm / 2, minY + stepYMm / 2, middle],
        around,
        lowMm,
        highMm,
      );
    }
  }
}

/** Faces that look up add what lies under them, those that look down take theirs off. */
function solidBetween({ positionsMm: p, triangles, footprint }: Solid, lowMm: number, highMm: number): number {
  const rings = footprint && ringsOf(footprint);
  let volume = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [3 * triangles[t], 3 * triangles[t + 1], 3 * triangles[t + 2]];
    if (Math.max(p[a + 2], p[b + 2], p[c + 2]) <= lowMm) continue;
    const twice = (p[b] - p[a]) * (p[c + 1] - p[a + 1]) - (p[c] - p[a]) * (p[b + 1] - p[a + 1]);
    if (twice === 0) continue;
    if (rings === null) {
      volume += (twice / 2) * meanBetween(p[a + 2], p[b + 2], p[c + 2], lowMm, highMm);
      continue;
    }
    const triangle: Triangle = [p[a], p[a + 1], p[a + 2], p[b], p[b + 1], p[b + 2], p[c], p[c + 1], p[c + 2]];
    volume += Math.sign(twice) * overTriangle(triangle, rings, lowMm, highMm);
  }
  return volume;
}

/** What of the rings lies over a triangle, times what of the triangle lies between the levels. */
function overTriangle(triangle: Triangle, rings: readonly Ring[], lowMm: number, highMm: number): number {
  const [ax, ay, az, bx, by, bz, cx, cy, cz] = triangle;
  const twice = (bx - ax) * (cy - ay) - (cx - ax) * (by - ay);
  if (twice === 0) return 0;
  const slopeX = ((bz - az) * (cy - ay) - (cz - az) * (by - ay)) / twice;
  const slopeY = ((bx - ax) * (cz - az) - (cx - ax) * (bz - az)) / twice;
  const z0 = az - slopeX * ax - slopeY * ay;
  let volume = 0;
  for (const ring of rings) volume += ringBetween(ringInTriangle(ring, triangle), z0, slopeX, slopeY, lowMm, highMm);
  return volume;
}
