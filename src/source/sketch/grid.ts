import type { PostGrid } from '../../geometry/steepest/posts.ts';
import { MOST_POSTS } from '../../model/landform.ts';
import type { GroundBefore, Relief } from './relief.ts';

/** Posts of a sketch: column × stepXMm, row × stepYMm from the south-west corner. */
export interface Grid {
  readonly columns: number;
  readonly rows: number;
  readonly stepXMm: number;
  readonly stepYMm: number;
}

/** Intervals along the longest side when the job does not say how far apart the posts stand. */
const INTERVALS = 300;

/** The spacing when the job names none. */
export const usualSpacingMm = ([widthMm, depthMm]: readonly [number, number]): number =>
  Math.max(widthMm, depthMm) / INTERVALS;

/**
 * Lay the posts out: as near to the spacing as whole steps allow, each direction for itself, so that the last post stands
 * on the edge. At least two a side. Null when there would be more than MOST_POSTS.
 */
export function gridOf([widthMm, depthMm]: readonly [number, number], spacingMm: number): Grid | null {
  const across = Math.max(1, Math.round(widthMm / spacingMm));
  const along = Math.max(1, Math.round(depthMm / spacingMm));
  const fits = (across + 1) * (along + 1) <= MOST_POSTS;
  return fits ? { columns: across + 1, rows: along + 1, stepXMm: widthMm / across, stepYMm: depthMm / along } : null;
}

/** Lay a feature over one row of posts, in place. Gives how many of them it changed. */
export function shapeRow(grid: Grid, heightsMm: Float64Array, relief: Relief, row: number): number {
  const { columns, stepXMm, stepYMm } = grid;
  const stretch = relief.row(row * stepYMm);
  // One post too many on either side costs nothing, and no rounding can lose the one at the very edge.
  const from = Math.max(0, Math.floor(stretch.minXMm / stepXMm));
  const to = Math.min(columns - 1, Math.ceil(stretch.maxXMm / stepXMm));
  let changed = 0;
  for (let column = from, at = row * columns + from; column <= to; column++, at++) {
    const beforeMm = heightsMm[at];
    const afterMm = stretch.ground(column * stepXMm, beforeMm);
    if (afterMm !== beforeMm) changed++;
    heightsMm[at] = afterMm;
  }
  return changed;
}

/** First and last row that a feature may reach. */
export function rowsOf({ rows, stepYMm }: Grid, { boxMm }: Relief): { first: number; last: number } {
  return {
    first: Math.max(0, Math.floor(boxMm[1] / stepYMm)),
    last: Math.min(rows - 1, Math.ceil(boxMm[3] / stepYMm)),
  };
}

/** The ground between the posts: four flat triangles that meet at the mean. Beside the sketch, its nearest edge's. */
export function heightAt(grid: Grid, heightsMm: Float64Array, xMm: number, yMm: number): number {
  const { columns, rows, stepXMm, stepYMm } = grid;
  const x = Math.min(Math.max(xMm / stepXMm, 0), columns - 1);
  const y = Math.min(Math.max(yMm / stepYMm, 0), rows - 1);
  const column = Math.min(Math.floor(x), columns - 2);
  const row = Math.min(Math.floor(y), rows - 2);
  const u = x - column;
  const v = y - row;
  const at = row * columns + column;
  const southWest = heightsMm[at];
  const southEast = heightsMm[at + 1];
  const northWest = heightsMm[at + columns];
  const northEast = heightsMm[at + columns + 1];
  const twiceMean = (southWest + southEast + northWest + northEast) / 2;
  // Along the nearest side from a to b, then away from it towards the mean.
  const away = Math.min(u, 1 - u, v, 1 - v);
  const over = (a: number, b: number, along: number) => a + (b - a) * along + away * (twiceMean - a - b);
  if (away === v) return over(southWest, southEast, u);
  if (away === 1 - v) return over(northWest, northEast, u);
  return away === u ? over(southWest, northWest, v) : over(southEast, northEast, v);
}

/** The same posts as the geometry knows them. */
export const postGrid = ({ columns, rows, stepXMm, stepYMm }: Grid): PostGrid => ({
  columns,
  rows,
  stepX: stepXMm,
  stepY: stepYMm,
});

/** The ground as it stands when asked: the heights are changed in place. */
export const groundBefore = (
  grid: Grid,
  heightsMm: Float64Array,
  sizeMm: readonly [number, number],
  levelMm: number,
): GroundBefore => ({
  sizeMm,
  levelMm,
  stepMm: Math.min(grid.stepXMm, grid.stepYMm),
  heightAt: (xMm, yMm) => heightAt(grid, heightsMm, xMm, yMm),
  rangeMm() {
    let [lowMm, highMm] = [Infinity, -Infinity];
    for (let i = 0; i < heightsMm.length; i++) {
      if (heightsMm[i] < lowMm) lowMm = heightsMm[i];
      if (heightsMm[i] > highMm) highMm = heightsMm[i];
    }
    return { lowMm, highMm };
  },
});
