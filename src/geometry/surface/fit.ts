import { breaksOf, type PlanLine } from './breaks.ts';
import { addLean, type Energy, type Lean, plateOf, tie } from './energy.ts';
import { type Held, weightsAt } from './given-points.ts';
import { coarser, type Level, levelOf, solve } from './levels.ts';
import { padOf, vectorOf } from './plate.ts';

/** What a plate is fitted to: places in steps from the first post, heights above any trend. */
export interface Fit {
  readonly columns: number;
  readonly rows: number;
  /** stepX ÷ stepY. */
  readonly stretch: number;
  readonly held: Held;
  /** So many of the held points, from the first, are met exactly; the others to within `within`. */
  readonly exact: number;
  readonly within: number;
  readonly creases: readonly PlanLine[];
  readonly tears: readonly PlanLine[];
  readonly stiffness: Float64Array;
  readonly pulls: Float64Array;
  readonly lean?: Lean;
  /** Rounds of pressing towards the held points; 1 leaves small misses. */
  readonly rounds: number;
}

/** Springs from the plate to what is given, as parts of its own stiffness. Stronger ones met no more and took twice the steps. */
const SPRING = 100;
/** All springs of one coarse cell together: at 300 to 3000 the steps are fewest, unlimited they are twice as many. */
const MOST_SPRING = 1000;
const TOLERANCE = 3e-6;
const MOST_STEPS = 60;
/** A round that leaves more than this part of the largest miss of an exact point is the last: the posts cannot do it. */
const HOPE = 0.8;
/** A miss of so many times `within` is left to what settles the posts afterwards. */
const NEAR = 10;

/**
 * Fit a plate to the held points: springs pull it there, and after each round the wanted heights are moved by what was missed
 * (augmented Lagrangian: Hestenes 1969, Powell 1969). A point of a line is missed only by what exceeds `within`: lines
 * that bend between posts cannot be met everywhere, and a plate forced to try goes flat beside them (a top sank by
 * 17 of 1230). Gives the heights of the posts. Yields progress.
 */
export function* fitted(fit: Fit): Generator<number, Float64Array> {
  const { columns, rows, held, exact, within, rounds, stiffness } = fit;
  const pad = padOf(columns);
  const count = held.z.length;
  const weights = new Float64Array(4);
  const springs = new Float64Array(count);
  for (let k = 0; k < count; k++) {
    const sw = cellOf(k);
    const south = weights[0] * stiffness[sw] + weights[1] * stiffness[sw + 1];
    springs[k] = SPRING * (south + weights[2] * stiffness[sw + columns] + weights[3] * stiffness[sw + columns + 1]);
  }
  const wanted = vectorOf(columns, rows);
  const levels = levelsOf(fit, springs, wanted);
  const u = vectorOf(columns, rows);
  const right = vectorOf(columns, rows);
  const pressed = new Float64Array(count);
  const slack = new Float64Array(count);
  let largest = 0;
  for (let round = 0, before = Infinity; round < rounds; round++) {
    right.set(wanted);
    for (let k = 0; k < count; k++) {
      const sw = pad + cellOf(k);
      const pull = springs[k] * (held.z[k] + slack[k] - pressed[k]);
      right[sw] += pull * weights[0];
      right[sw + 1] += pull * weights[1];
      right[sw + columns] += pull * weights[2];
      right[sw + columns + 1] += pull * weights[3];
    }
    const work = solve(levels, u, right, largest, TOLERANCE, MOST_STEPS);
    let step = work.next();
    for (; !step.done; step = work.next()) yield (round + step.value / MOST_STEPS) / rounds;
    largest = step.value;
    let worst = 0;
    for (let k = 0; k < count; k++) {
      const sw = pad + cellOf(k);
      const south = weights[0] * u[sw] + weights[1] * u[sw + 1];
      const miss = south + weights[2] * u[sw + columns] + weights[3] * u[sw + columns + 1] - held.z[k];
      const room = k < exact ? 0 : within;
      slack[k] = Math.max(-room, Math.min(room, miss + pressed[k]));
      pressed[k] += miss - slack[k];
      if (k < exact) worst = Math.max(worst, Math.abs(miss));
    }
    if (round >= 2 && (worst <= NEAR * within || worst > HOPE * before)) break;
    before = worst;
  }
  return u.slice(pad, pad + columns * rows);

  /** The south-west post of a held point's cell; its weights on the cell's posts into `weights`. */
  function cellOf(k: number): number {
    const column = Math.min(columns - 2, Math.floor(held.columns[k]));
    const row = Math.min(rows - 2, Math.floor(held.rows[k]));
    weightsAt(held.columns[k] - column, held.rows[k] - row, weights);
    return row * columns + column;
  }
}

/** The plate on every post, every other, every fourth …; what its lean pushes is added to `wanted`. */
function levelsOf(fit: Fit, springs: Float64Array, wanted: Float64Array): Level[] {
  const { held, stretch, creases, tears, lean } = fit;
  const levels: Level[] = [];
  let { columns, rows, stiffness, pulls } = fit;
  for (let every = 1; ; every *= 2) {
    const energy: Energy = {
      stretch,
      marks: breaksOf(creases, tears, columns, rows, every),
      stiffness,
      pulls,
      every,
    };
    const plate = plateOf(columns, rows, energy);
    if (every === 1 && lean) addLean(wanted, plate, energy, lean);
    tie(plate, held, energy, springs, every === 1 ? Infinity : MOST_SPRING / (every * every));
    levels.push(levelOf(plate));
    if (Math.min(columns, rows) <= 4) return levels;
    stiffness = coarserOf(stiffness, columns, rows);
    pulls = coarserOf(pulls, columns, rows);
    columns = coarser(columns);
    rows = coarser(rows);
  }
}

/** The mean of each four posts from every other on. */
function coarserOf(from: Float64Array, columns: number, rows: number): Float64Array {
  const across = coarser(columns);
  const to = new Float64Array(across * coarser(rows));
  for (let i = 0; i < to.length; i++) {
    const west = Math.min(columns - 1, 2 * (i % across));
    const south = Math.min(rows - 1, 2 * Math.floor(i / across));
    const east = Math.min(columns - 1, west + 1);
    const north = Math.min(rows - 1, south + 1);
    const below = from[south * columns + west] + from[south * columns + east];
    to[i] = (below + (from[north * columns + west] + from[north * columns + east])) / 4;
  }
  return to;
}
