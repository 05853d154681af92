import { mustBuyMm2 } from './area.ts';
import type { BoundBoard, BoundCase } from './terms.ts';

/** Choices looked at before the rest is left to the continuous bound. */
const MOST_CHOICES = 20_000;

type Priced = BoundBoard & { readonly price: number };

/**
 * The least money for boards whose areas hold what must be bought, and of which there are at least so many: a knapsack turned
 * over, by branch and bound (Martello and Toth 1990, chapter 2) on the boards in the order of their price by area. Null where
 * a price is missing, Infinity where the boards do not suffice.
 */
export function leastPrice(given: BoundCase, leastBoards: number): number | null {
  const priced = given.boards.filter((board): board is Priced => board.price !== null && board.areaMm2 > 0);
  if (priced.length < given.boards.length) return null;
  const byWorth = [...priced].sort((a, b) => a.price / a.areaMm2 - b.price / b.areaMm2);
  const [byArea, cheapest] = [mustBuyMm2(given), [...priced].sort((a, b) => a.price - b.price)];
  return Math.max(search(byWorth, byArea), forNumber(cheapest, leastBoards));
}

/** What so many boards cost at least: the cheapest first, as far as their counts go. */
function forNumber(cheapest: readonly Priced[], number: number): number {
  let [rest, money] = [number, 0];
  for (const { price, count } of cheapest) {
    const had = Math.min(rest, count ?? Infinity);
    if (had > 0) money += had * price;
    rest -= had;
  }
  return rest > 0 ? Infinity : money;
}

function search(boards: readonly Priced[], areaMm2: number): number {
  let best = Infinity;
  let choices = 0;
  // What is not looked into counts with its continuous bound: still a bound.
  const look = (at: number, rest: number, money: number): void => {
    if (rest <= 1e-9 * areaMm2) {
      best = Math.min(best, money);
      return;
    }
    const bound = money + continuous(boards, at, rest);
    if (!(bound < best)) return;
    if (choices++ > MOST_CHOICES) {
      best = Math.min(best, bound);
      return;
    }
    const { areaMm2: each, price, count } = boards[at];
    const most = Math.min(count ?? Infinity, Math.ceil(rest / each - 1e-9));
    for (let n = most; n >= 0; n--) look(at + 1, rest - n * each, money + n * price);
  };
  look(0, areaMm2, 0);
  return best;
}

/** The least money for an area if boards could be bought by the square millimetre. */
function continuous(boards: readonly Priced[], from: number, areaMm2: number): number {
  let [rest, money] = [areaMm2, 0];
  for (let i = from; i < boards.length && rest > 0; i++) {
    const { areaMm2: each, price, count } = boards[i];
    const had = Math.min(rest / each, count ?? Infinity);
    money += had * price;
    rest -= had * each;
  }
  return rest > 1e-9 * areaMm2 ? Infinity : money;
}
