import type { PostGrid } from '../../geometry/steepest/posts.ts';
import type { PostLayout } from '../../model/post-layout.ts';
import type { GroundBefore, Relief } from './relief.ts';

/** Lay a feature over one row of posts, in place. Gives how many of them it changed. */
export function shapeRow(grid: PostLayout, heightsMm: Float64Array, relief: Relief, row: number): number {
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
export function rowsOf({ rows, stepYMm }: PostLayout, { boxMm }: Relief): { first: number; last: number } {
  return {
    first: Math.max(0, Math.floor(boxMm[1] / stepYMm)),
    last: Math.min(rows - 1, Math.ceil(boxMm[3] / stepYMm)),
  };
}

/** The ground between the posts: four flat triangles that meet at the mean. Beside the sketch, its nearest edge's. */
export function heightAt(grid: PostLayout, heightsMm: Float64Array, xMm: number, yMm: number): number {
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
export const postGrid = ({ columns, rows, stepXMm, stepYMm }: PostLayout): PostGrid => ({
  columns,
  rows,
  stepX: stepXMm,
  stepY: stepYMm,
});

/** The ground as it stands when asked: the heights are changed in place. */
export const groundBefore = (
  grid: PostLayout,
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
