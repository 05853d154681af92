import type { Reply, Walk } from '../../plugin.ts';
import type { Improved, ImproveInput, NearMiss } from './improve.ts';
import { STARTS } from './preview.ts';
import type { Found, Packing, Problem } from './problem.ts';
import { compareCosts, compareRanks } from './rank.ts';

/** What a search is told beside the problem. */
export interface SearchOptions {
  readonly seed: number;
  /** Positions to look at: rounds are begun as long as it is not spent. The first packing is always made. */
  readonly effort: number;
  /** Boards to buy that are proven to be needed: the search ends when all kinds cost the same and no more are used. 0 when nothing is known. */
  readonly least: number;
}

/** Lanes of a round after the first. Their number never depends on how many workers there are. */
const LANES = 2;

/**
 * The best packing found: from empty boards in several orders, then rounds of lanes (task `improve`, see improve.ts) until
 * the effort is spent, the bound is met or the driver says enough. What a round does follows from the rounds before it, never
 * from the effort: a longer search goes on where a shorter one stopped, and is never worse. Items that found no place are in
 * `packing.left`: none of the kinds takes them, or the counts are used up.
 */
export function* searchBoards(problem: Problem, { seed, effort, least }: SearchOptions): Walk<Found> {
  let best: Packing | null = null;
  let pools: (readonly NearMiss[])[] = Array.from({ length: LANES }, () => []);
  let evaluations = 0;
  for (let round = 0; best === null || !isDone(problem, best, least); round++) {
    // The first order alone is the preview; who has more time than that sees what the others give.
    const isStart = round < 2;
    const count = round === 0 ? 1 : round === 1 ? STARTS.length - 1 : LANES;
    const lanes = Array.from({ length: count }, (_, lane) => {
      const input: ImproveInput = isStart
        ? { problem, from: null, pool: [], seed, round: 0, lane: round + lane }
        : { problem, from: best, pool: pools[lane], seed, round: round - 1, lane };
      return { task: 'improve', input };
    });
    // How much effort a round takes is known only afterwards: half of what is left is a fair guess.
    const spent = Math.min(1, evaluations / effort);
    const reply: Reply = yield { lanes, upTo: (1 + spent) / 2 };
    const before: Packing | null = best;
    const counted = evaluations;
    // The first of equals stays: lanes are read in their order, whichever ended first.
    for (const result of reply.results as readonly Improved[]) {
      evaluations += result.evaluations;
      if (best === null || compareRanks(result.packing.rank, best.rank) < 0) best = result.packing;
    }
    if (best === null) throw new Error('a round without lanes');
    const isCheaper = before !== null && compareCosts(best.rank, before.rank) < 0;
    if (!isStart)
      pools = (reply.results as readonly Improved[]).slice(0, LANES).map(({ pool }) => (isCheaper ? [] : pool));
    // Where not one board can be had, no round looks at anything, and effort would never be spent.
    if (evaluations >= effort || evaluations === counted || reply.say === 'enough') break;
  }
  return { packing: best as Packing, evaluations };
}

/** Nothing is left to gain: all is placed, on the least number of boards that must be bought, and none is dearer than another. */
function isDone({ kinds, owned }: Problem, { left, boards }: Packing, least: number): boolean {
  const isOneKind = kinds.every(({ cost, grossMm2 }) => cost === kinds[0].cost && grossMm2 === kinds[0].grossMm2);
  return left.length === 0 && isOneKind && owned.length === 0 && boards.length <= least;
}
