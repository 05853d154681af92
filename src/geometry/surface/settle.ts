import { type Held, weightsAt } from './given-points.ts';

/** Rounds after which what still misses is left: two spots in one cell may need many, lines that fit need few. */
const ROUNDS = 2000;
const LINE_ROUNDS = 400;
/** A line missed by so many times what is wanted is more than its posts can hold: moving them would only make them rough. */
const HOPELESS = 20;

/**
 * Move posts by the least that brings every held point to within `within`: point after point to the nearest heights that
 * do, until all hold (the relaxation method for linear inequalities: Agmon; Motzkin and Schoenberg, both Canadian Journal of
 * Mathematics 6, 1954). Changes `values` in place. Where the posts cannot hold all points, it ends between them. The first `exact` points are spots: moved
 * to however much they miss.
 */
export function settle(
  values: Float64Array,
  columns: number,
  rows: number,
  held: Held,
  exact: number,
  within: number,
): void {
  const weights = new Float64Array(4);
  for (let round = 0, isStill = false; round < ROUNDS && !isStill; round++) {
    isStill = true;
    const end = round < LINE_ROUNDS ? held.z.length : exact;
    for (let k = 0; k < end; k++) {
      const column = Math.min(columns - 2, Math.floor(held.columns[k]));
      const row = Math.min(rows - 2, Math.floor(held.rows[k]));
      weightsAt(held.columns[k] - column, held.rows[k] - row, weights);
      const [a, b, c, d] = weights;
      const sw = row * columns + column;
      const nw = sw + columns;
      const miss = held.z[k] - (a * values[sw] + b * values[sw + 1] + (c * values[nw] + d * values[nw + 1]));
      const size = Math.abs(miss);
      if (!(size > within) || (k >= exact && size > HOPELESS * within)) continue;
      isStill = false;
      // A little more than needed: rounding must not bring it back.
      const move = (Math.sign(miss) * (size - 0.9 * within)) / (a * a + b * b + (c * c + d * d));
      values[sw] += move * a;
      values[sw + 1] += move * b;
      values[nw] += move * c;
      values[nw + 1] += move * d;
    }
  }
}
