import type { Bound } from '../../model/layout.ts';
import { areaBound } from './area.ts';
import { cliqueBound } from './clique.ts';
import { countingBound } from './counting.ts';
import { dualFeasibleBound } from './dual-feasible.ts';
import { leastPrice } from './prices.ts';
import type { BoundCase } from './terms.ts';

/** Questions of outlines that the proof by pairs may ask: some seconds at worst, and mostly none. */
export const MOST_QUESTIONS = 40_000;

/**
 * The best of all bounds on the boards of one thickness that must be bought, and its reason in words of the trade. The plainest
 * of equals is named.
 * @param questions of outlines that may be asked: 0 leaves it at areas and circles, which takes no time
 */
export function leastBoards(given: BoundCase, questions: number): Bound {
  const byArea = areaBound(given);
  // The boards do not suffice: there is nothing to be proven about a layout that cannot be.
  const area = Number.isFinite(byArea) ? byArea : 0;
  const { pairs, pairsAndArea } = cliqueBound(given, questions);
  const found: readonly (readonly [number, string])[] = [
    [area, 'total area'],
    [pairs, 'pieces too large to share a board'],
    [pairsAndArea, 'pieces too large to share a board, and the area of the rest'],
    [countingBound(given), 'so many pieces as wide lie on one board at most'],
    [dualFeasibleBound(given), 'areas that do not add up to whole boards'],
  ];
  const boards = Math.max(...found.map(([number]) => number));
  const [, why] = found.find(([number]) => number === boards) as readonly [number, string];
  const price = leastPrice(given, boards);
  return { boards, why, ...(price !== null && Number.isFinite(price) ? { price } : {}) };
}

/** Bounds of several thicknesses as one: boards and money add up, and so do the reasons, each once. */
export function allBounds(bounds: readonly Bound[]): Bound {
  const boards = bounds.reduce((sum, bound) => sum + bound.boards, 0);
  const needed = bounds.filter((bound) => bound.boards > 0);
  const why = [...new Set((needed.length > 0 ? needed : bounds).map((bound) => bound.why))].join('; ') || 'total area';
  const isPriced = bounds.length > 0 && bounds.every(({ price }) => price !== undefined);
  return { boards, why, ...(isPriced ? { price: bounds.reduce((sum, { price = 0 }) => sum + price, 0) } : {}) };
}
