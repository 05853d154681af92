import type { Packed, Problem } from './problem.ts';

/**
 * What a packing costs, the weightiest first: items without a place; money; boards bought; what they measure; the area of
 * owned containers used; and last how evenly the boards are filled, since uneven is better (the mean of squared fill:
 * Terashima-Marín et al. 2010): a board that is nearly empty is nearly saved.
 */
export function rankOf(problem: Problem, boards: readonly Packed[], left: number): number[] {
  const { kinds, owned, items, shapes } = problem;
  const rank = [left, 0, 0, 0, 0, 0];
  for (const { stock, stood } of boards) {
    const { areaMm2 } = stock < 0 ? owned[-1 - stock] : kinds[stock].container;
    if (stock >= 0) {
      rank[1] += kinds[stock].cost;
      rank[2] += 1;
      rank[3] += kinds[stock].grossMm2;
    } else rank[4] += areaMm2;
    const fill = stood.reduce((sum, { item }) => sum + shapes[items[item]].areaMm2, 0) / areaMm2;
    rank[5] -= fill * fill;
  }
  return rank;
}

/** Negative when the first rank is better, positive when the second is, 0 for a tie. */
export function compareRanks(a: readonly number[], b: readonly number[]): number {
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return a[i] - b[i];
  return 0;
}
