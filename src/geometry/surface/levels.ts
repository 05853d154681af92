import { type Plate, residual, sweep, vectorOf } from './plate.ts';

/** One grid of a pile of ever coarser ones, each of every other post of the one before, and its working room. */
export interface Level {
  readonly plate: Plate;
  readonly values: Float64Array;
  readonly right: Float64Array;
  readonly rest: Float64Array;
}

export const levelOf = (plate: Plate): Level => {
  const room = () => vectorOf(plate.columns, plate.rows);
  return { plate, values: room(), right: room(), rest: room() };
};

/** Posts of the next coarser grid, so that none of this one lies beyond it. */
export const coarser = (posts: number): number => (posts >> 1) + 1;

/** With one sweep the steps are twice as many, with three a fifth fewer: neither is faster. */
const SWEEPS = 2;
const COARSEST_SWEEPS = 60;

/**
 * Bring u near to the solution of plate · u = right, to `tolerance` times what was missing at first or, when that is more,
 * `start`, by conjugate gradients
 * with a V-cycle before them (Tatebe, "The multigrid preconditioned conjugate gradient method", 1993). Changes `u` in place.
 * A dozen or two steps of O(posts) each, however fine the grid; yields after each how many were taken, and returns
 * the larger of the two, to start the next from.
 */
export function* solve(
  levels: readonly Level[],
  u: Float64Array,
  right: Float64Array,
  start: number,
  tolerance: number,
  mostSteps: number,
): Generator<number, number> {
  const { plate, values: towards } = levels[0];
  const end = plate.pad + plate.columns * plate.rows;
  const rest = vectorOf(plate.columns, plate.rows);
  const ahead = rest.slice();
  const none = rest.slice();
  const image = rest.slice();
  residual(plate, u, right, rest);
  let before = 0;
  let largest = start;
  for (let step = 0; step < mostSteps; step++) {
    levels[0].right.set(rest);
    cycle(levels, 0);
    let now = 0;
    for (let i = plate.pad; i < end; i++) now += rest[i] * towards[i];
    largest = Math.max(largest, now);
    if (!(now > tolerance * tolerance * largest)) break;
    const keep = step === 0 ? 0 : now / before;
    before = now;
    for (let i = plate.pad; i < end; i++) ahead[i] = towards[i] + keep * ahead[i];
    residual(plate, ahead, none, image);
    let curve = 0;
    for (let i = plate.pad; i < end; i++) curve -= ahead[i] * image[i];
    if (!(curve > 0)) break;
    const far = now / curve;
    for (let i = plate.pad; i < end; i++) {
      u[i] += far * ahead[i];
      rest[i] += far * image[i];
    }
    yield step + 1;
  }
  return largest;
}

/**
 * Give nearly the values at which level `at`'s plate comes to its right side, by one V-cycle from zero (Brandt, "Multi-level
 * adaptive solutions to boundary-value problems", 1977). Symmetric: as many sweeps forward before as backward after.
 */
function cycle(levels: readonly Level[], at: number): void {
  const { plate, values, right, rest } = levels[at];
  values.fill(0);
  const isCoarsest = at === levels.length - 1;
  const sweeps = isCoarsest ? COARSEST_SWEEPS : SWEEPS;
  for (let k = 0; k < sweeps; k++) sweep(plate, values, right, false);
  if (!isCoarsest) {
    residual(plate, values, right, rest);
    const next = levels[at + 1];
    gather(plate, rest, next.plate, next.right);
    cycle(levels, at + 1);
    spread(next.plate, next.values, plate, values);
  }
  for (let k = 0; k < sweeps; k++) sweep(plate, values, right, true);
}

/** Add a coarse grid's values to the finer one: straight between posts. */
function spread(coarse: Plate, from: Float64Array, fine: Plate, to: Float64Array): void {
  for (let row = 0; row < fine.rows; row++) {
    const south = coarse.pad + (row >> 1) * coarse.columns;
    const north = row % 2 === 0 ? south : south + coarse.columns;
    const start = fine.pad + row * fine.columns;
    for (let column = 0; column < fine.columns; column++) {
      const west = column >> 1;
      const east = west + (column & 1);
      to[start + column] += (from[south + west] + from[south + east] + (from[north + west] + from[north + east])) / 4;
    }
  }
}

/** Bring what is missing on the fine grid to the coarse one: the transpose of `spread`. */
function gather(fine: Plate, from: Float64Array, coarse: Plate, to: Float64Array): void {
  to.fill(0);
  for (let row = 0; row < fine.rows; row++) {
    const south = coarse.pad + (row >> 1) * coarse.columns;
    const north = row % 2 === 0 ? south : south + coarse.columns;
    const start = fine.pad + row * fine.columns;
    for (let column = 0; column < fine.columns; column++) {
      const west = column >> 1;
      const east = west + (column & 1);
      const share = from[start + column] / 4;
      to[south + west] += share;
      to[south + east] += share;
      to[north + west] += share;
      to[north + east] += share;
    }
  }
}
