import type { Held } from './given-points.ts';

/** Stiffness never falls below this part of the stiffest. */
const SOFTEST = 1e-4;
/** A slope of this part of the mean slope is gentle: below it the plate is hardly softer. */
const GENTLE = 0.03;

/**
 * How stiff a plate through lines should be at each post, 0…1, from how steep a membrane through the same lines is there.
 * `told` holds the lines from point `from` on, true heights.
 *
 * A plate of one stiffness carries the slope of close lines far into the wide ground beside them, and overshoots there.
 * Made softer with the square of the slope it bends where the ground is steep (Salkauskas, "C1 splines for interpolation of
 * rapidly varying data", Rocky Mountain Journal of Mathematics 14, 1984; in the plane Foley, "Weighted bicubic spline
 * interpolation to rapidly varying data", ACM Transactions on Graphics 6, 1987). What only lines of one height enclose, a top or
 * a pit, is flat in the membrane, which says nothing: it takes the stiffness of what lies nearest beyond the line, and so rounds up or down
 * as its surroundings lead. With spots alone there is nothing to tell, and the stiffness is 1 everywhere. O(posts).
 */
export function stiffnessOf(
  membrane: Float64Array,
  columns: number,
  rows: number,
  stretch: number,
  told: Held,
  from: number,
): Float64Array {
  const known = toldPosts(columns, rows, told, from);
  const slopes = new Float64Array(columns * rows);
  let sum = 0;
  let count = 0;
  for (let i = 0; i < slopes.length; i++) {
    if (known[i] === 0) continue;
    const west = i % columns > 0 ? i - 1 : i;
    const east = i % columns < columns - 1 ? i + 1 : i;
    const south = i >= columns ? i - columns : i;
    const north = i + columns < slopes.length ? i + columns : i;
    const x = (membrane[east] - membrane[west]) / (east - west);
    const y = ((membrane[north] - membrane[south]) * stretch * columns) / (north - south);
    slopes[i] = Math.sqrt(x * x + y * y);
    sum += slopes[i];
    count++;
  }
  if (!(sum > 0)) return slopes.fill(1);
  const gentle = (GENTLE * sum) / count;
  for (let i = 0; i < slopes.length; i++) slopes[i] = 1 / (1 + (slopes[i] / gentle) * (slopes[i] / gentle));
  const stiffness = filledByWaves(slopes, known, columns);
  let most = 0;
  for (let i = 0; i < stiffness.length; i++) most = Math.max(most, stiffness[i]);
  for (let i = 0; i < stiffness.length; i++) stiffness[i] = Math.max(SOFTEST, stiffness[i] / most);
  return stiffness;
}

/** 1 for each post at or beside which lines of different heights run, or which lies in ground that they enclose between them. */
function toldPosts(columns: number, rows: number, { columns: xs, rows: ys, z }: Held, from: number): Uint8Array {
  const count = columns * rows;
  const low = new Float64Array(count).fill(Infinity);
  const high = new Float64Array(count).fill(-Infinity);
  for (let k = from; k < z.length; k++) {
    const sw = Math.min(rows - 2, Math.floor(ys[k])) * columns + Math.min(columns - 2, Math.floor(xs[k]));
    for (const post of [sw, sw + 1, sw + columns, sw + columns + 1]) {
      low[post] = Math.min(low[post], z[k]);
      high[post] = Math.max(high[post], z[k]);
    }
  }
  const known = new Uint8Array(count);
  const isSeen = new Uint8Array(count);
  const queue = new Uint32Array(count);
  for (let first = 0; first < count; first++) {
    if (low[first] <= high[first]) known[first] = meetsOther(first) ? 1 : 0;
    else if (isSeen[first] === 0) flood(first);
  }
  return known;

  function meetsOther(i: number): boolean {
    const column = i % columns;
    const west = column > 0 ? i - 1 : i;
    const east = column < columns - 1 ? i + 1 : i;
    const south = i >= columns ? i - columns : i;
    const north = i + columns < count ? i + columns : i;
    const highest = Math.max(high[i], high[west], high[east], high[south], high[north]);
    return highest > Math.min(low[i], low[west], low[east], low[south], low[north]);
  }

  function flood(first: number): void {
    let end = 0;
    let [lowest, highest] = [Infinity, -Infinity];
    queue[end++] = first;
    isSeen[first] = 1;
    for (let at = 0; at < end; at++) {
      const i = queue[at];
      const column = i % columns;
      if (column > 0) meet(i - 1);
      if (column < columns - 1) meet(i + 1);
      if (i >= columns) meet(i - columns);
      if (i + columns < count) meet(i + columns);
    }
    if (highest > lowest) for (let at = 0; at < end; at++) known[queue[at]] = 1;

    function meet(i: number): void {
      if (low[i] <= high[i]) {
        lowest = Math.min(lowest, low[i]);
        highest = Math.max(highest, high[i]);
      } else if (isSeen[i] === 0) {
        isSeen[i] = 1;
        queue[end++] = i;
      }
    }
  }
}

/** Values where those not known are, wave by wave from the known, the mean of the neighbours that an earlier wave reached. */
function filledByWaves(values: Float64Array, known: Uint8Array, columns: number): Float64Array {
  const count = values.length;
  const filled = values.slice();
  const wave = new Uint32Array(count);
  const queue = new Uint32Array(count);
  let end = 0;
  for (let i = 0; i < count; i++) {
    if (known[i] === 0) continue;
    wave[i] = 1;
    queue[end++] = i;
  }
  for (let at = 0; at < end; at++) {
    const i = queue[at];
    const column = i % columns;
    let [sum, share] = [0, 0];
    if (column > 0) look(i - 1);
    if (column < columns - 1) look(i + 1);
    if (i >= columns) look(i - columns);
    if (i + columns < count) look(i + columns);
    if (wave[i] > 1) filled[i] = sum / share;

    function look(next: number): void {
      if (wave[next] === 0) {
        wave[next] = wave[i] + 1;
        queue[end++] = next;
      } else if (wave[next] < wave[i]) {
        sum += filled[next];
        share++;
      }
    }
  }
  return filled;
}
