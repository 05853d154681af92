/**
 * Moving apart what overlaps, in sweeps: each item that meets another is moved to the best place found, then the weights
 * adapt (Gardeyn, Vanden Berghe, Wauters 2025, algorithm of "separation"; weights: weights.ts).
 */
import type { Random } from '../../geometry/random.ts';
import { type Field, lift, meets, noteAll, put, total } from './field.ts';
import { LOOKS, type Looks, move, type Shortlist } from './move.ts';
import { adaptWeights, resetWeights } from './weights.ts';

/** How long separation goes on without gain. */
export interface Patience {
  /** Sweeps without gain before it starts again from the best. */
  readonly stall: number;
  /** Starts in a row that bring nothing. */
  readonly strikes: number;
}

/** Where all stands; to come back to. */
interface Snapshot {
  readonly on: Int32Array;
  readonly pose: Int32Array;
  readonly x: Float64Array;
  readonly y: Float64Array;
}

const snapshotOf = (f: Field): Snapshot => ({
  on: f.on.slice(),
  pose: Int32Array.from(f.postures, (p) => p.pose),
  x: f.x.slice(),
  y: f.y.slice(),
});

/** Stand all as it stood. */
function restore(f: Field, s: Snapshot): void {
  for (let i = 0; i < f.items.length; i++) if (f.on[i] >= 0) lift(f, i);
  for (let i = 0; i < f.items.length; i++) if (s.on[i] >= 0) put(f, i, s.on[i], s.pose[i], s.x[i], s.y[i]);
  noteAll(f);
}

/**
 * Separate. The field is left at the best that was met: free when 0 is returned, else with what overlaps least.
 * @param most positions to look at, about: an end for the caller's own reasons
 * @returns how badly things meet there, in all
 */
export function* separate(
  f: Field,
  random: Random,
  list: Shortlist,
  { stall, strikes }: Patience,
  most = Infinity,
  looks: Looks = LOOKS,
): Generator<number, number> {
  const end = f.evaluations + most;
  resetWeights(f);
  let least = total(f);
  let best = snapshotOf(f);
  let bad = least;
  for (let strike = 0; strike < strikes && least > 0; strike++) {
    if (strike > 0) restore(f, best);
    let still = 0;
    let improved = false;
    while (still < stall && least > 0 && f.evaluations < end) {
      sweep(f, random, list, looks);
      adaptWeights(f);
      yield least;
      bad = total(f);
      still++;
      if (bad < least) {
        // Only a gain worth the name begins the count anew; the best is the best all the same.
        if (bad < 0.98 * least) {
          still = 0;
          improved = true;
        }
        least = bad;
        best = snapshotOf(f);
      }
    }
    if (improved) strike = -1;
    if (f.evaluations >= end) break;
  }
  if (bad !== least) restore(f, best);
  return least;
}

/** Move each item that meets another once, in random order. */
function sweep(f: Field, random: Random, list: Shortlist, looks: Looks): void {
  const order: number[] = [];
  for (let i = 0; i < f.items.length; i++) if (f.isFixed[i] === 0 && meets(f, i)) order.push(i);
  for (let i = order.length - 1; i > 0; i--) {
    const j = Math.floor(random() * (i + 1));
    [order[i], order[j]] = [order[j], order[i]];
  }
  for (const item of order) move(f, item, random, list, looks);
}
