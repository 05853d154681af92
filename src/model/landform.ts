import type { Box, Region } from '../geometry/ring.ts';
import { boxOf, rectangle, ringsOf } from '../geometry/ring.ts';
import type { RockRules } from './rock.ts';

/**
 * Ground as heights at posts. Post (column, row) stands at exactly
 * (originMm[0] + column × stepXMm, originMm[1] + row × stepYMm); row 0 is the south row. Between four posts the ground
 * is four flat triangles that meet at the mean of the posts. Heights are always finite: what is not ground lies outside
 * the footprint. The origin is (0, 0) save where the ground was cropped or joined between posts: there at most a step below.
 */
export interface Heightfield {
  readonly kind: 'heightfield';
  readonly columns: number;
  readonly rows: number;
  readonly stepXMm: number;
  readonly stepYMm: number;
  readonly originMm: readonly [number, number];
  /** Row by row from the south, `columns × rows` of them. */
  readonly heightsMm: Float64Array | Float32Array;
  /** Simple, free of overlaps; its box starts at (0, 0). A whole rectangle when nothing is left out. */
  readonly footprint: readonly Region[];
}

/** Ground as a closed surface: triangles counter-clockwise seen from outside, z up. Lowest x and y are 0. */
export interface Solid {
  readonly kind: 'solid';
  /** x, y, z of each vertex, millimetres. Vertices are welded: no two are the same point. */
  readonly positionsMm: Float64Array;
  /** Three vertex numbers a triangle. */
  readonly triangles: Uint32Array;
  /** What of the plan is kept, its box starting at (0, 0); null when all of it. */
  readonly footprint: readonly Region[] | null;
  /** Where the surface as it came was open; left out when nowhere. `triangles` close it all the same. */
  readonly open?: Openings;
  /** Said where it is known that no triangles cross and no shell lies in another's foam or touches it: saves looking. */
  readonly isSimple?: true;
  /** Said where it is a rock to be carved, as it lies while it is glued; whatever turns it leaves this out. */
  readonly rock?: RockRules;
}

/** Holes of a surface that were closed by a guess, which is right to about the width of their gap. */
export interface Openings {
  /** Vertex numbers once round each hole. */
  readonly rims: readonly Uint32Array[];
  /** Wider gaps are not to be built from. */
  readonly closeMm: number;
}

export type Landform = Heightfield | Solid;

/** Most posts or triangles that are taken in; more are refused before memory is. */
export const MOST_POSTS = 100_000_000;

/** A heightfield over its whole rectangle, posts from (0, 0). */
export function heightfield(
  columns: number,
  rows: number,
  stepXMm: number,
  stepYMm: number,
  heightsMm: Float64Array | Float32Array,
): Heightfield {
  const footprint = [[rectangle(0, 0, (columns - 1) * stepXMm, (rows - 1) * stepYMm)]];
  return { kind: 'heightfield', columns, rows, stepXMm, stepYMm, originMm: [0, 0], heightsMm, footprint };
}

/** Whether the footprint is the whole rectangle of the posts, so that nothing need be clipped. */
export function isWhole(field: Heightfield): boolean {
  const { columns, rows, stepXMm, stepYMm, originMm, footprint } = field;
  if (footprint.length !== 1 || footprint[0].length !== 1 || footprint[0][0].length !== 8) return false;
  const [minX, minY, maxX, maxY] = boxOf(footprint[0]);
  // Four corners that touch all sides may still stand askew.
  const isUpright = footprint[0][0].every((at, i) =>
    i % 2 === 0 ? at === minX || at === maxX : at === minY || at === maxY,
  );
  return (
    isUpright &&
    minX === originMm[0] &&
    minY === originMm[1] &&
    maxX === originMm[0] + (columns - 1) * stepXMm &&
    maxY === originMm[1] + (rows - 1) * stepYMm
  );
}

/** The box of a landform in plan, and its lowest and highest ground, millimetres. */
export function extent(landform: Landform): { box: Box; lowMm: number; highMm: number } {
  let lowMm = Infinity;
  let highMm = -Infinity;
  if (landform.kind === 'heightfield') {
    const heights = landform.heightsMm;
    for (let i = 0; i < heights.length; i++) {
      if (heights[i] < lowMm) lowMm = heights[i];
      if (heights[i] > highMm) highMm = heights[i];
    }
    return { box: boxOf(ringsOf(landform.footprint)), lowMm, highMm };
  }
  const positions = landform.positionsMm;
  let minX = Infinity;
  let minY = Infinity;
  let maxX = -Infinity;
  let maxY = -Infinity;
  for (let i = 0; i < positions.length; i += 3) {
    if (positions[i] < minX) minX = positions[i];
    if (positions[i] > maxX) maxX = positions[i];
    if (positions[i + 1] < minY) minY = positions[i + 1];
    if (positions[i + 1] > maxY) maxY = positions[i + 1];
    if (positions[i + 2] < lowMm) lowMm = positions[i + 2];
    if (positions[i + 2] > highMm) highMm = positions[i + 2];
  }
  const box: Box = landform.footprint ? boxOf(ringsOf(landform.footprint)) : [minX, minY, maxX, maxY];
  return { box, lowMm, highMm };
}
