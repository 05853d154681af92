import type { Grid } from './grid.ts';

/** What arithmetic may add to a whole number of bays. */
const ROUNDING = 1e-9;

/**
 * How many boards of a covering lie over a grid, so that every joint between two lies on the middle of a rib: row by row, each
 * board as far as the last rib that it reaches, laid the way that takes fewer. Null when neither way reaches from rib to rib.
 * @param stretch how much longer the ground is than its plan.
 */
export function boardsOver(
  { lines }: Grid,
  [minX, minY, maxX, maxY]: readonly [number, number, number, number],
  sizeMm: readonly [number, number],
  stretch: number,
): number | null {
  const along = (axis: 'x' | 'y') => lines.filter((line) => line.along === axis).map(({ atMm }) => atMm);
  const across = (board: number) => steps([minX, ...along('y'), maxX], board / stretch);
  const up = (board: number) => steps([minY, ...along('x'), maxY], board / stretch);
  const [a, b] = sizeMm;
  const counts = [
    [across(a), up(b)],
    [across(b), up(a)],
  ].flatMap(([columns, rows]) => (columns === null || rows === null ? [] : [columns * rows]));
  return counts.length > 0 ? Math.min(...counts) : null;
}

/** In how many steps of a length the last place is reached from the first, resting on those between; null when it is not. */
function steps(places: readonly number[], lengthMm: number): number | null {
  let count = 0;
  for (let at = 0; at < places.length - 1; count++) {
    let next = at;
    while (next + 1 < places.length && places[next + 1] - places[at] <= lengthMm + ROUNDING) next++;
    if (next === at) return null;
    at = next;
  }
  return count;
}
