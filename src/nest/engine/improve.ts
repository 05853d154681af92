/**
 * Doing without a board (after Gardeyn, Vanden Berghe, Wauters 2025 for separation and the pool of near misses; Zhang et al.
 * 2022 for overlap minimisation on boards). A board is taken away, or changed for a cheaper one; what stood on it goes where
 * it overlaps least on all others, and they are moved apart. A near miss is kept: the next try changes two large pieces in
 * it for each other and goes on from there. What cannot be parted at all goes back on a board of that kind, which is nearer
 * to being saved if less is on it than before.
 */
import { type Random, stream } from '../../geometry/random.ts';
import { type Field, lift, meets, note, noteAll } from './field.ts';
import { move, type Shortlist, shortlist } from './move.ts';
import { boardsOf, fieldFrom, packingOf } from './packing.ts';
import { cheapen, inOrder, isCheaper, kindsToHave, place, preview } from './preview.ts';
import { type Found, type Packed, type Packing, type Problem, usedMm2 } from './problem.ts';
import { compareCosts, compareRanks } from './rank.ts';
import { separate } from './separate.ts';
import { swapTwo } from './swap.ts';

/** A try that nearly came off: boards on which things still overlap, and how badly. */
export interface NearMiss {
  readonly boards: readonly Packed[];
  readonly bad: number;
  /** The kind of board that was done without: where it goes back to. */
  readonly without: number;
}

/** The work of one lane in one round: plain data. */
export interface ImproveInput {
  readonly problem: Problem;
  /** What to improve on; null to begin from empty boards. */
  readonly from: Packing | null;
  /** This lane's near misses of the rounds since `from` last changed. */
  readonly pool: readonly NearMiss[];
  readonly seed: number;
  readonly round: number;
  readonly lane: number;
}

export interface Improved extends Found {
  readonly pool: readonly NearMiss[];
}

/** Positions that one lane looks at in a round, about: for each item, at least and at most; the first rounds are shorter. */
const QUOTA_PER_ITEM = 6000;
const LEAST_QUOTA = 150_000;
const MOST_QUOTA = 1_000_000;
const SHORT_ROUNDS = 4;
/** A try counts at least so much: one that finds its places at once costs time all the same. */
const LEAST_PER_TRY = 2000;
const PATIENCE = { stall: 40, strikes: 2 };
/** Near misses that are kept; the chance that a try begins with one. */
const POOL = 6;
const FROM_POOL = 0.75;

/** One lane of one round: begin from empty boards, or improve on a packing. The result is never worse than `from`. */
export function* improve(input: ImproveInput): Generator<number, Improved> {
  const { problem, from, seed, round, lane } = input;
  if (from === null) return { ...(yield* preview(problem, seed, lane)), pool: [] };
  const random = stream(seed, 'improve', round, lane);
  const most = Math.min(MOST_QUOTA, Math.max(LEAST_QUOTA, QUOTA_PER_ITEM * problem.items.length));
  const quota = most * Math.min(1, round / SHORT_ROUNDS);
  const list = shortlist();
  let best = from;
  let pool = [...input.pool];
  let evaluations = 0;
  while (evaluations < quota) {
    const tried = yield* attempt(problem, best, pool, random, list, quota - evaluations);
    if (tried === null) break;
    evaluations += Math.max(LEAST_PER_TRY, tried.evaluations);
    const order = compareRanks(tried.packing.rank, best.rank);
    if (order <= 0) {
      // Near misses of a dearer packing are of no use once there is a cheaper one.
      if (compareCosts(tried.packing.rank, best.rank) < 0) pool = [];
      best = tried.packing;
    }
    if (tried.nearMiss !== null) {
      pool = [...pool, tried.nearMiss].sort((a, b) => a.bad - b.bad).slice(0, POOL);
    }
    yield Math.min(1, evaluations / quota);
  }
  return { packing: best, evaluations, pool };
}

interface Tried extends Found {
  readonly nearMiss: NearMiss | null;
}

/** One try. Null when there is nothing to try. */
function* attempt(
  problem: Problem,
  from: Packing,
  pool: readonly NearMiss[],
  random: Random,
  list: Shortlist,
  most: number,
): Generator<number, Tried | null> {
  const missed = pool.length > 0 && random() < FROM_POOL ? pool[Math.floor(random() * random() * pool.length)] : null;
  let without = -1;
  let f: Field;
  if (missed !== null) {
    f = fieldFrom(problem, missed);
    without = missed.without;
    swapTwo(f, random);
    noteAll(f);
  } else {
    const change = changeOf(problem, from, random);
    if (change === null) return null;
    without = change.without;
    f = fieldFrom(problem, change);
    noteAll(f);
    for (const item of inOrder(f)) {
      if (f.on[item] < 0 && f.boards.length > 0) move(f, item, random, list);
    }
  }
  const bad = yield* separate(f, random, list, PATIENCE, most);
  const nearMiss = bad > 0 ? { boards: boardsOf(f), bad, without } : null;
  if (bad > 0) takeOff(f);
  for (const item of inOrder(f)) {
    if (f.on[item] >= 0) continue;
    if (!place(problem, f, item, 0, random)) break;
  }
  cheapen(problem, f);
  return { packing: packingOf(problem, f), evaluations: f.evaluations, nearMiss };
}

/** The boards that are left when one is taken away or changed for an empty one that costs less; all of them where something has no place yet. */
function changeOf(
  problem: Problem,
  { boards, left }: Packing,
  random: Random,
): { boards: Packed[]; without: number } | null {
  // What has no place yet goes on the boards there are.
  if (left.length > 0 && random() < 0.7) return { boards: [...boards], without: -1 };
  const { kinds } = problem;
  const fill = ({ stock, stood }: Packed) => usedMm2(problem, stood) / kinds[stock].container.areaMm2;
  const bought = boards.filter(({ stock }) => stock >= 0).sort((a, b) => fill(a) - fill(b));
  if (bought.length === 0) return null;
  const doomed = bought[Math.floor(random() * random() * bought.length)];
  const others = boards.filter((board) => board !== doomed);
  const inUse = boards.map(({ stock, stood }) => ({ stock, count: stood.length }));
  const cheaper = kindsToHave(problem, inUse).filter((k) => isCheaper(kinds[k], kinds[doomed.stock]));
  if (cheaper.length > 0 && random() < 0.5) {
    const stock = cheaper[Math.floor(random() * cheaper.length)];
    return { boards: [...others, { stock, stood: [] }], without: doomed.stock };
  }
  return { boards: others, without: doomed.stock };
}

/** Take items off until nothing overlaps: each time the smallest of those that overlap. */
function takeOff(f: Field): void {
  const area = (item: number) => f.shapes[f.items[item]].areaMm2;
  const order = f.items.map((_, item) => item).sort((a, b) => area(a) - area(b) || a - b);
  for (const item of order) {
    if (f.on[item] < 0 || f.isFixed[item] === 1 || !meets(f, item)) continue;
    lift(f, item);
    note(f, item);
  }
}
