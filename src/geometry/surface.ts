/**
 * The smooth surface through spots and lines, as heights at posts.
 *
 * Method: the plate that bends least under a little tension (minimum curvature, Briggs, Geophysics 39, 1974; tension,
 * Smith and Wessel, Geophysics 55, 1990), solved on the posts themselves, so that what is cut is what was fitted: each
 * spot, and each point at which a line crosses an edge of the four triangles of a cell, is one equation on four posts.
 * A plane of best fit is taken off first: a plane comes back exactly, and the tension pulls towards it. Between lines the
 * plate is softer where the ground is steep (Salkauskas 1984, Foley 1987), and beyond the outermost the tension is strong and
 * pulls towards the level (stiffness.ts; surroundings.ts says where). Conjugate gradients with multigrid.
 *
 * Roads not taken, on lines 100 apart in height with gaps of 100, 3000 and 100 between them (the ground should climb from
 * 200 to 300 in the wide gap): a plain thin plate runs up to 448 and down to 51; as it is, from 200 to 300 with no hump.
 * Tension alone that tames this (bending within 1 % of the grid) leaves a top 12 above its contour instead of 100, a terrace.
 * Bending counted linearly instead of squared (Lavery 2001) still overshot a scarp of 400 by 150 after ten rounds; as it is, by 1.
 * Beyond a hill's lowest line (50 to 400, lines 60 apart, ground twice as wide) one tension for all ground fell to −337; now to 27.
 * A dense thin-plate system (n³) or natural neighbours (tops stay flat) were not tried: lines are tens of thousands of points.
 */
import { share } from './share.ts';
import { type Fit, fitted } from './surface/fit.ts';
import { eachGiven, type Held, heldPoints, weightsAt } from './surface/given-points.ts';
import { settle } from './surface/settle.ts';
import { stiffnessOf } from './surface/stiffness.ts';
import { BEYOND_LINE, surroundingsOf } from './surface/surroundings.ts';
import { trendAt, trendOf } from './surface/trend.ts';

/** What is known of a surface. */
export interface Given {
  /** x, y, z of single points. */
  readonly spots: Float64Array;
  /** Lines along which the height is known: flat x, y, z; straight between points; a closed line repeats its first point. */
  readonly lines: readonly Float64Array[];
  /** Lines in plan (flat x, y) across which the surface may bend sharply but not tear: ridge, stream. */
  readonly creases: readonly Float64Array[];
  /** Lines in plan (flat x, y) across which it may tear: cliff edges. */
  readonly tears: readonly Float64Array[];
}

/** Posts as in contour.ts: (column, row) stands at origin + (column × stepX, row × stepY); at least 2 × 2. */
export interface PostGrid {
  readonly columns: number;
  readonly rows: number;
  readonly stepX: number;
  readonly stepY: number;
  readonly originX: number;
  readonly originY: number;
}

/** A surface at posts, row by row, and where the ground between them is farthest in height from what is given. */
export interface Surface {
  readonly values: Float64Array;
  readonly worst: { readonly off: number; readonly x: number; readonly y: number };
}

/** Within the data tension rules, and pulls towards the plane of best fit, only beyond this part of the grid's longer side. */
const REACH = 0.25;
/** A membrane's tension: it follows lines to half a step. */
const MEMBRANE = 4;
/** Points of a line nearer to each other than this, in steps, are one to the plate; those between are met when the posts are settled. */
const APART = 1 / 8;
/** The part of what may be missed that posts are settled to: room for rounding, and for as little moving as may be. */
const SETTLED = 0.8;
/** So many rounds are enough for lines; spots near each other may take more. */
const MOST_ROUNDS = 8;

/**
 * Lay the smooth surface through lines and spots. Every spot, and every line all along, is met to `within` (default 0.1) wherever
 * the posts can hold it; where they cannot (more points in a cell than its posts have freedom, a line that bends within
 * a cell on steep ground, data that contradict each other), `worst` says so. Tops and pits round on beyond their last line; between
 * lines of different heights the surface does not swing out. Beyond an outermost line, closed or from rim to rim of the grid, the slope at the
 * line dies away within about two spacings of the lines, and the ground runs level, less than half their interval beyond the line's height
 * (where lines stand nearer than five steps: two and a half steps at their slope, the width of a line in posts). A
 * top or a pit that the grid's rim cuts open rounds on like a whole one if its line goes in a third as far as it is wide. Beyond spots alone the ground comes back to the plane of best fit.
 * What lies off the grid is not seen. Nothing given makes level ground at 0, one height level ground, points on one line a
 * plane that is level across it. O(posts + length of the lines in steps) memory, and time but for a slowly growing number
 * of steps. Yields its progress.
 */
export function* surfaceThrough(
  given: Given,
  grid: PostGrid,
  { within = 0.1 }: { readonly within?: number } = {},
): Generator<number, Surface, unknown> {
  const { columns, rows, stepX, stepY, originX, originY } = grid;
  const { held: told, spots } = heldPoints(given, grid, APART);
  const stretch = stepX / stepY;
  const trend = trendOf(told, stretch);
  const held = overTrend(told);
  const inSteps = (line: Float64Array) =>
    line.map((at, i) => (i % 2 === 0 ? (at - originX) / stepX : (at - originY) / stepY));
  const reach = REACH * Math.max(columns * Math.sqrt(stretch), rows / Math.sqrt(stretch));
  const surroundings = surroundingsOf(columns, rows, told, spots);
  const plain: Omit<Fit, 'stiffness' | 'pulls'> = {
    ...{ columns, rows, stretch, held, exact: spots, within: within / 4 },
    ...{ creases: given.creases.map(inSteps), tears: given.tears.map(inSteps), rounds: MOST_ROUNDS },
  };
  const hasLines = spots < held.z.length;
  let membrane: Float64Array | undefined;
  if (hasLines) {
    const stiffness = new Float64Array(columns * rows).fill(1);
    const pulls = new Float64Array(columns * rows).fill(MEMBRANE);
    membrane = yield* share(fitted({ ...plain, stiffness, pulls, rounds: 1 }), 0, 0.2);
    addTrend(membrane);
  }
  const { stiffness, pulls } = stiffnessOf(surroundings, columns, stretch, reach, spots, membrane);
  const levelling = pulls.map((pull, i) => (surroundings.kinds[i] === BEYOND_LINE ? pull : 0));
  const lean = { pulls: levelling, slopeX: -trend.slopeX, slopeY: -trend.slopeY };
  const values = yield* share(fitted({ ...plain, stiffness, pulls, lean }), hasLines ? 0.2 : 0, 0.95);
  const every = heldPoints(given, grid, 0).held;
  settle(values, columns, rows, overTrend(every), spots, SETTLED * within);
  addTrend(values);
  return { values, worst: worstOf(given, grid, values) };

  function overTrend(points: Held): Held {
    return { ...points, z: points.z.map((z, k) => z - trendAt(trend, points.columns[k], points.rows[k])) };
  }

  function addTrend(heights: Float64Array): void {
    for (let i = 0; i < heights.length; i++) heights[i] += trendAt(trend, i % columns, Math.floor(i / columns));
  }
}

/** The place where the ground between posts is farthest in height from what is given: 0 at the origin when nothing is. */
function worstOf(given: Given, grid: PostGrid, values: Float64Array): Surface['worst'] {
  const { columns, rows, stepX, stepY, originX, originY } = grid;
  const weights = new Float64Array(4);
  let off = 0;
  let x = originX;
  let y = originY;
  eachGiven(given, grid, {
    take(column, row, z) {
      const left = Math.min(columns - 2, Math.floor(column));
      const low = Math.min(rows - 2, Math.floor(row));
      const sw = low * columns + left;
      weightsAt(column - left, row - low, weights);
      const south = weights[0] * values[sw] + weights[1] * values[sw + 1];
      const miss = Math.abs(south + weights[2] * values[sw + columns] + weights[3] * values[sw + columns + 1] - z);
      if (!(miss > off)) return;
      off = miss;
      x = originX + column * stepX;
      y = originY + row * stepY;
    },
  });
  return { off, x, y };
}
