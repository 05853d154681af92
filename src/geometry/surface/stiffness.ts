import { BETWEEN, BEYOND_HULL, type Surroundings } from './surroundings.ts';

/** How stiff a plate is at each post, 0…1, and how strongly its slope is held there: stiffness over (reach of bending)². */
export interface Stiffness {
  readonly stiffness: Float64Array;
  readonly pulls: Float64Array;
}

/** Stiffness within the data never falls below this part of the stiffest. */
const SOFTEST = 1e-4;
/** A slope of this part of the mean slope is gentle: below it the plate is hardly softer. */
const GENTLE = 0.03;
/**
 * Beyond the outermost line the plate is softer by this factor: it takes its slope from within and gives next to nothing back (lines of
 * a plane 50 apart in height come back to 0.06; with 3e-2 to 0.25; 1e-3 takes a third more steps).
 */
const BEYOND = 4e-3;
/** There bending reaches so far, in spacings of the outermost lines; a step, the width of the line in posts, is taken off. */
const REACH = 0.35;
/** The same beyond the hull of spots, in their mean spacing: less would bend ground just outside that they tell well. */
const REACH_OF_SPOTS = 1.5;
/** It grows by this with each step from the data: by less, spots far out would stand on spikes; by more, ground would fall farther. */
const WIDENING = 0.125;
/** Bending reaches no shorter than this, in steps. */
const SHORTEST = 0.7;

/**
 * How stiff a plate should be at each post, from what surrounds the posts and how steep a `membrane` through the lines is
 * (none with spots alone: 1 within their hull). `reach` is how far bending reaches within the data, in mean steps.
 *
 * A plate of one stiffness carries the slope of close lines far into the wide ground beside them, and overshoots there.
 * Made softer with the square of the slope it bends where the ground is steep (Salkauskas, "C1 splines for interpolation of
 * rapidly varying data", Rocky Mountain Journal of Mathematics 14, 1984; in the plane Foley, "Weighted bicubic spline
 * interpolation to rapidly varying data", ACM Transactions on Graphics 6, 1987). What only lines of one height enclose, a top or
 * a pit, is flat in the membrane, which says nothing: it takes the stiffness of what lies nearest beyond the line, and so rounds up or down
 * as its surroundings lead.
 *
 * Beyond the data nothing stops a slope but the tension, so there it is strong: a slope s at the outermost line dies away
 * about as exp(−distance ÷ reach), and the ground falls or climbs by s × (reach + a step): less than half the interval of
 * the lines, which stand spacing × s apart, as a further line would have been drawn. A spot in ground beyond a line is met.
 * With spots alone the slope dies as far out as they stand apart. O(posts).
 */
export function stiffnessOf(
  { kinds, intervals, area }: Surroundings,
  columns: number,
  stretch: number,
  reach: number,
  spots: number,
  membrane?: Float64Array,
): Stiffness {
  const stiffness = new Float64Array(kinds.length).fill(1);
  /** Lines, or spots, to a mean step. With lines of one height only nothing tells: bending shall reach hardly at all. */
  const closeness = new Float64Array(kinds.length).fill(membrane ? 1 : Math.sqrt(spots / Math.max(1, area)));
  if (membrane) fromSlopes(membrane);
  const beyond = fillByWaves(kinds, columns, stiffness, closeness);
  let most = 0;
  for (let i = 0; i < stiffness.length; i++) most = Math.max(most, stiffness[i]);
  const pulls = new Float64Array(kinds.length);
  for (let i = 0; i < kinds.length; i++) {
    stiffness[i] = Math.max(SOFTEST, stiffness[i] / most);
    let far = reach;
    if (beyond[i] > 0) {
      if (membrane) stiffness[i] *= BEYOND;
      far = Math.min(
        reach,
        Math.max(SHORTEST, (membrane ? REACH : REACH_OF_SPOTS) / closeness[i] - 1) + WIDENING * (beyond[i] - 1),
      );
    }
    pulls[i] = stiffness[i] / (far * far);
  }
  return { stiffness, pulls };

  function fromSlopes(heights: Float64Array): void {
    const count = kinds.length;
    let sum = 0;
    let between = 0;
    const slopes = new Float64Array(count);
    for (let i = 0; i < count; i++) {
      if (kinds[i] !== BETWEEN) continue;
      const west = i % columns > 0 ? i - 1 : i;
      const east = i % columns < columns - 1 ? i + 1 : i;
      const south = i >= columns ? i - columns : i;
      const north = i + columns < count ? i + columns : i;
      const x = (heights[east] - heights[west]) / (east - west);
      const y = ((heights[north] - heights[south]) * stretch * columns) / (north - south);
      slopes[i] = Math.sqrt(x * x + y * y);
      sum += slopes[i];
      between++;
    }
    if (!(sum > 0)) return;
    const gentle = (GENTLE * sum) / between;
    for (let i = 0; i < count; i++) {
      if (kinds[i] !== BETWEEN) continue;
      stiffness[i] = 1 / (1 + (slopes[i] / gentle) * (slopes[i] / gentle));
      closeness[i] = slopes[i] / (intervals[i] * Math.sqrt(stretch));
    }
  }
}

/**
 * Give the posts that do not lie between lines of different heights values, wave by wave from those that do, the mean of
 * the neighbours that an earlier wave reached; with no such lines none are changed. Gives how many waves beyond the data a
 * post lies, 0 for the others.
 */
function fillByWaves(kinds: Uint8Array, columns: number, a: Float64Array, b: Float64Array): Uint32Array {
  const count = kinds.length;
  const wave = new Uint32Array(count);
  const beyond = new Uint32Array(count);
  const queue = new Uint32Array(count);
  const hasLines = kinds.includes(BETWEEN);
  let end = 0;
  for (let i = 0; i < count; i++) {
    if (hasLines ? kinds[i] !== BETWEEN : kinds[i] >= BEYOND_HULL) continue;
    wave[i] = 1;
    queue[end++] = i;
  }
  for (let at = 0; at < end; at++) {
    const i = queue[at];
    const column = i % columns;
    let [sumA, sumB, share] = [0, 0, 0];
    if (column > 0) look(i - 1);
    if (column < columns - 1) look(i + 1);
    if (i >= columns) look(i - columns);
    if (i + columns < count) look(i + columns);
    if (wave[i] === 1) continue;
    a[i] = sumA / share;
    b[i] = sumB / share;

    function look(next: number): void {
      if (wave[next] === 0) {
        wave[next] = wave[i] + 1;
        if (kinds[next] >= BEYOND_HULL) beyond[next] = beyond[i] + 1;
        queue[end++] = next;
      } else if (wave[next] < wave[i]) {
        sumA += a[next];
        sumB += b[next];
        share++;
      }
    }
  }
  return beyond;
}
