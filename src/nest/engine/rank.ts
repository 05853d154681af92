import { type Packed, type Problem, usedMm2 } from './problem.ts';

/**
 * What a packing costs, the weightiest first: items without a place; money; boards bought; what they measure; the area of
 * owned containers used; and last how evenly the boards are filled, since uneven is better (the mean of squared fill:
 * Terashima-Marín et al. 2010): a board that is nearly empty is nearly saved.
 */
export function rankOf(problem: Problem, boards: readonly Packed[], left: number): number[] {
  const { kinds, owned } = problem;
  const rank = [left, 0, 0, 0, 0, 0];
  for (const { stock, stood } of boards) {
    const { areaMm2 } = stock < 0 ? owned[-1 - stock] : kinds[stock].container;
    if (stock >= 0) {
      rank[1] += kinds[stock].cost;
      rank[2] += 1;
      rank[3] += kinds[stock].grossMm2;
    } else rank[4] += areaMm2;
    const fill = usedMm2(problem, stood) / areaMm2;
    rank[5] -= fill * fill;
  }
  return rank;
}

/** The same by what must be had alone, however evenly it is filled. */
export const compareCosts = (a: readonly number[], b: readonly number[]): number =>
  compareRanks(a.slice(0, 5), b.slice(0, 5));

/** Negative when the first rank is better, positive when the second is, 0 for a tie. */
export function compareRanks(a: readonly number[], b: readonly number[]): number {
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return a[i] - b[i];
  return 0;
}
