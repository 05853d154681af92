import type { HeightTable } from '../../geometry/height-table.ts';
import { areaOfKind, bestStack, type Kind, MET_UM, type Question, type Standing } from './best.ts';

/** So much of a board's usable area becomes layers; the rest is waste between pieces (common practice, no source). */
export const USED_SHARE = 0.7;
/** Halvings of the height up to which a scarce kind is used: to a thousandth of the ground. */
const HALVINGS = 10;

/** A stack, and the kinds that were kept for some of its heights since there are too few boards of them. */
export interface Within {
  readonly chosen: Standing;
  readonly heldBack: readonly number[];
}

/**
 * The best stack that the boards on hand are enough for; null when no stack is. `onHandMm2` is by kind, Infinity where there
 * are as many as are needed; `free` is the best stack of as many as it likes.
 *
 * While the best stack takes too much of a kind, that kind is kept for the layers up to some height, or from some height on,
 * whichever costs less, as many as there is foam for; then the rest is chosen anew. Not always the least money (that is a
 * knapsack on top of the stack), but never more foam than there is. Kinds × 40 choices at most.
 */
export function bestWithin(
  question: Question,
  table: HeightTable,
  step: number,
  onHandMm2: readonly number[],
  free: Standing,
): Within | null {
  const heldBack: number[] = [];
  let kinds = question.kinds;
  let chosen = free;
  for (;;) {
    if (chosen.thicknessesMm.length === 0) return null;
    const short = kinds.findIndex((_, k) => isShort(chosen, k));
    if (short < 0) return { chosen, heldBack };
    // Kept for some heights already, and short again since another was: then it is left out.
    kinds = heldBack.includes(short) ? limited(kinds, short, [0, 0]) : keptFor(short);
    if (!heldBack.includes(short)) heldBack.push(short);
    chosen = bestStack({ ...question, kinds }, table, step);
  }

  function isShort(stack: Standing, k: number): boolean {
    return areaOfKind(stack, question.kinds[k]) > USED_SHARE * onHandMm2[k];
  }

  function keptFor(k: number): readonly Kind[] {
    const low = widest(k, (um) => [0, um]);
    const high = widest(k, (um) => [question.highMm * 1000 - um, Infinity]);
    return isBetter(low.chosen, high.chosen) ? low.kinds : high.kinds;
  }

  /** The most heights for a kind at which it is not short. */
  function widest(k: number, heights: (um: number) => readonly [number, number]) {
    let kept = limited(kinds, k, [0, 0]);
    let best = bestStack({ ...question, kinds: kept }, table, step);
    let [enough, tooMuch] = [0, question.highMm * 1000];
    for (let i = 0; i < HALVINGS; i++) {
      const half = (enough + tooMuch) / 2;
      const tried = limited(kinds, k, heights(half));
      const chosen = bestStack({ ...question, kinds: tried }, table, step);
      if (isShort(chosen, k)) {
        tooMuch = half;
        continue;
      }
      enough = half;
      if (isBetter(chosen, best)) [kept, best] = [tried, chosen];
    }
    return { kinds: kept, chosen: best };
  }
}

const limited = (kinds: readonly Kind[], k: number, onlyUm: readonly [number, number]): Kind[] =>
  kinds.map((kind, i) => (i === k ? { ...kind, onlyUm } : kind));

/** Whether a stack meets the highest ground and the other does not, or both do alike and it costs less. */
function isBetter(a: Standing, b: Standing): boolean {
  if (a.thicknessesMm.length === 0 || b.thicknessesMm.length === 0) return a.thicknessesMm.length > 0;
  const nearerMm = Math.abs(b.overMm) - Math.abs(a.overMm);
  return Math.abs(nearerMm) > MET_UM / 1000 ? nearerMm > 0 : a.money < b.money;
}
