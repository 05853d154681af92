import { cos, PI, sin } from '../geometry/exact-math.ts';
import { groundCells } from './ground-cells.ts';
import type { Heightfield, Landform, Solid } from './landform.ts';

/** How much ground rises over a length of 1. */
export interface Slopes {
  /** Of the steepest ground. A solid's faces at WALL or more are walls and do not count. */
  readonly steepest: number;
  /** Half of the ground that slopes at all, as seen from above, is steeper; to half a degree. 0 when none slopes. */
  readonly usual: number;
}

/** Half degrees from level to upright. */
const BINS = 180;
/** Rise at the upper end of each half degree. */
const RISE = Float64Array.from({ length: BINS }, (_, i) => tanOfHalfDegrees(i + 1));
const WALL = tanOfHalfDegrees(170);

/** The slopes of a landform's flat triangles, those of a solid that face up. A cell that the footprint cuts counts whole. */
export function slopesOf(landform: Landform): Slopes {
  const areas = new Float64Array(BINS);
  const steepest = landform.kind === 'heightfield' ? ofPosts(landform, areas) : ofFaces(landform, areas);
  // The first half degree counts as level.
  let sloping = 0;
  for (let i = 1; i < BINS; i++) sloping += areas[i];
  let below = 0;
  for (let i = 1; i < BINS && sloping > 0; i++) {
    below += areas[i];
    if (below >= sloping / 2) return { steepest, usual: tanOfHalfDegrees(i + 0.5) };
  }
  return { steepest, usual: 0 };
}

function tanOfHalfDegrees(halves: number): number {
  const radians = (halves * PI) / 360;
  return halves >= BINS ? Infinity : sin(radians) / cos(radians);
}

function ofPosts(field: Heightfield, areas: Float64Array): number {
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
      most = Math.max(
        most,
        count(areas, (southEast - southWest) / stepXMm, (2 * middle - southWest - southEast) / stepYMm),
        count(areas, (northEast - northWest) / stepXMm, (northWest + northEast - 2 * middle) / stepYMm),
        count(areas, (2 * middle - southWest - northWest) / stepXMm, (northWest - southWest) / stepYMm),
        count(areas, (southEast + northEast - 2 * middle) / stepXMm, (northEast - southEast) / stepYMm),
      );
    }
  }
  return most;
}

function ofFaces({ positionsMm: p, triangles }: Solid, areas: Float64Array): number {
  let most = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [3 * triangles[t], 3 * triangles[t + 1], 3 * triangles[t + 2]];
    const [ux, uy, uz] = [p[b] - p[a], p[b + 1] - p[a + 1], p[b + 2] - p[a + 2]];
    const [vx, vy, vz] = [p[c] - p[a], p[c + 1] - p[a + 1], p[c + 2] - p[a + 2]];
    const up = ux * vy - uy * vx;
    const [east, north] = [uy * vz - uz * vy, uz * vx - ux * vz];
    if (up > 0 && east * east + north * north < WALL * WALL * up * up)
      most = Math.max(most, count(areas, east / up, north / up, up));
  }
  return most;
}

/** Count an area under its rise; returns that. */
function count(areas: Float64Array, riseX: number, riseY: number, area = 1): number {
  const rise = Math.sqrt(riseX * riseX + riseY * riseY);
  let low = 0;
  for (let high = BINS - 1; low < high; ) {
    const middle = (low + high) >> 1;
    if (rise <= RISE[middle]) high = middle;
    else low = middle + 1;
  }
  areas[low] += area;
  return rise;
}
