import { convexHull } from '../hull.ts';
import type { Held } from './given-points.ts';

/** Where a post stands: in a top, in a pit, on a line or among spots; between lines of different heights. */
export const [WITHIN, BETWEEN] = [0, 1];
/** Beyond the hull of spots alone; beyond an outermost line: lines of one height bound this ground, and it reaches the grid's rim. */
export const [BEYOND_HULL, BEYOND_LINE] = [2, 3];

/**
 * Ground that the rim cuts open is a top or a pit like one in the middle where it has at most so many posts on the rim to each
 * that its line passes, counted by rows and columns: where the line goes in a third as far as it is wide, or farther. Less
 * deep, or with more than a quarter of the rim, it is the head or foot of a slope, or what lies round hills.
 */
const CUT_OPEN = 0.6;

export interface Surroundings {
  readonly kinds: Uint8Array;
  /** For ground between lines: the highest of them less the lowest. Elsewhere 0. */
  readonly intervals: Float64Array;
  /** What the hull of spots alone covers, in cells; 0 with lines. */
  readonly area: number;
}

/**
 * Sort the posts by what encloses them. The held points from `from` on are lines; where there are any, spots bound nothing. A
 * line is as thick as the posts of the cells that it crosses; ground that leaks out through its gap meets
 * other lines and counts as between them. O(posts).
 */
export function surroundingsOf(columns: number, rows: number, held: Held, from: number): Surroundings {
  const count = columns * rows;
  const { columns: xs, rows: ys, z } = held;
  const low = new Float64Array(count).fill(Infinity);
  const high = new Float64Array(count).fill(-Infinity);
  if (from === z.length) return { ...hullKinds(columns, rows, held), intervals: new Float64Array(count) };
  const kinds = new Uint8Array(count);
  const intervals = new Float64Array(count);
  const isOn = new Uint8Array(count);
  for (let k = from; k < z.length; k++) {
    const post = Math.floor(ys[k]) * columns + Math.floor(xs[k]);
    const toEast = xs[k] > Math.floor(xs[k]) ? 1 : 0;
    const toNorth = ys[k] > Math.floor(ys[k]) ? columns : 0;
    if (toEast + toNorth === 0) isOn[post] = 1;
    touch(post, z[k]);
    touch(post + toEast, z[k]);
    touch(post + toNorth, z[k]);
    touch(post + toEast + toNorth, z[k]);
  }
  const rim = 2 * (columns + rows);
  const isSeen = new Uint8Array(count);
  const queue = new Uint32Array(count);
  for (let first = 0; first < count; first++) {
    if (low[first] <= high[first]) meetsOther(first);
    else if (isSeen[first] === 0) flood(first);
  }
  return { kinds, intervals, area: 0 };

  function touch(post: number, height: number): void {
    low[post] = Math.min(low[post], height);
    high[post] = Math.max(high[post], height);
  }

  function meetsOther(i: number): void {
    const column = i % columns;
    const west = column > 0 ? i - 1 : i;
    const east = column < columns - 1 ? i + 1 : i;
    const south = i >= columns ? i - columns : i;
    const north = i + columns < count ? i + columns : i;
    const highest = Math.max(high[i], high[west], high[east], high[south], high[north]);
    const lowest = Math.min(low[i], low[west], low[east], low[south], low[north]);
    if (!(highest > lowest)) return;
    kinds[i] = BETWEEN;
    intervals[i] = highest - lowest;
  }

  function flood(first: number): void {
    let end = 0;
    let [lowest, highest] = [Infinity, -Infinity];
    let [atRim, atLine] = [0, 0];
    queue[end++] = first;
    isSeen[first] = 1;
    for (let at = 0; at < end; at++) {
      const i = queue[at];
      const column = i % columns;
      if (column === 0 || column === columns - 1 || i < columns || i + columns >= count) atRim++;
      if (column > 0) meet(i - 1);
      if (column < columns - 1) meet(i + 1);
      if (i >= columns) meet(i - columns);
      if (i + columns < count) meet(i + columns);
    }
    if (!(highest >= lowest)) return;
    if (highest === lowest && atRim <= CUT_OPEN * atLine && atRim < rim / 4) return;
    for (let at = 0; at < end; at++) {
      kinds[queue[at]] = highest > lowest ? BETWEEN : BEYOND_LINE;
      intervals[queue[at]] = highest - lowest;
    }
    // The posts of the line's own cells that stand on this side of it.
    for (let at = 0; at < end && highest === lowest; at++) {
      const i = queue[at];
      const column = i % columns;
      if (column > 0) take(i - 1);
      if (column < columns - 1) take(i + 1);
      if (i >= columns) take(i - columns);
      if (i + columns < count) take(i + columns);
    }

    function take(i: number): void {
      if (low[i] <= high[i] && isOn[i] === 0 && kinds[i] === WITHIN) kinds[i] = BEYOND_LINE;
    }

    function meet(i: number): void {
      if (low[i] <= high[i]) {
        atLine++;
        lowest = Math.min(lowest, low[i]);
        highest = Math.max(highest, high[i]);
      } else if (isSeen[i] === 0) {
        isSeen[i] = 1;
        queue[end++] = i;
      }
    }
  }
}

/** Within or beyond the hull of the posts whose cells hold points, and the area of that hull. */
function hullKinds(
  columns: number,
  rows: number,
  { columns: xs, rows: ys }: Held,
): { kinds: Uint8Array; area: number } {
  const left = new Float64Array(rows).fill(Infinity);
  const right = new Float64Array(rows).fill(-Infinity);
  for (let k = 0; k < xs.length; k++) {
    const column = Math.min(columns - 2, Math.floor(xs[k]));
    const row = Math.min(rows - 2, Math.floor(ys[k]));
    for (const each of [row, row + 1]) {
      left[each] = Math.min(left[each], column);
      right[each] = Math.max(right[each], column + 1);
    }
  }
  const ends: number[] = [];
  for (let row = 0; row < rows; row++) if (left[row] < right[row]) ends.push(left[row], row, right[row], row);
  const hull = convexHull([Float64Array.from(ends)]);
  for (let i = 0, j = hull.length - 2; i < hull.length; j = i, i += 2) {
    const [ax, ay, bx, by] = [hull[j], hull[j + 1], hull[i], hull[i + 1]];
    for (let row = Math.min(ay, by); ay !== by && row <= Math.max(ay, by); row++) {
      const x = ax + ((row - ay) / (by - ay)) * (bx - ax);
      left[row] = Math.min(left[row], Math.ceil(x - 1e-9));
      right[row] = Math.max(right[row], Math.floor(x + 1e-9));
    }
  }
  const kinds = new Uint8Array(columns * rows).fill(BEYOND_HULL);
  let area = 0;
  for (let row = 0; row < rows; row++) {
    if (!(left[row] < right[row])) continue;
    kinds.fill(WITHIN, row * columns + left[row], row * columns + right[row] + 1);
    area += right[row] - left[row];
  }
  return { kinds, area };
}
