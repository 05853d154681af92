import type { Walk } from '../../plugin.ts';
import type { Found, Problem } from './problem.ts';

/** What a search is told beside the problem. */
export interface SearchOptions {
  readonly seed: number;
  /** Positions to look at: rounds are begun as long as it is not spent. The first packing is always made. */
  readonly effort: number;
  /** Boards to buy that are proven to be needed: the search ends when all kinds cost the same and no more are used. 0 when nothing is known. */
  readonly least: number;
}

/**
 * The best packing found: the preview, then rounds of lanes (task `improve`, see improve.ts) until the effort is spent, the
 * bound is met or the driver says enough. What a round does follows from the rounds before it, never from the effort: a
 * longer search goes on where a shorter one stopped, and is never worse. Every progress yielded is the share of the effort.
 * Items that found no place are in `packing.left`: none of the kinds takes them, or the counts are used up.
 */
export declare function searchBoards(problem: Problem, options: SearchOptions): Walk<Found>;
