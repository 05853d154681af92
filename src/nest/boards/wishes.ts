import type { Wish } from '../../model/piece.ts';
import { type Packing, usedMm2 } from '../engine/engine.ts';
import type { Group } from './group.ts';

/** A bought board that is filled less than this, by so few blanks, is worth asking for another division. */
const NEARLY_EMPTY = 0.08;
const FEW = 2;

/**
 * Pieces on the emptiest bought board, when so little is on it that dividing them might save it, and when it has not been
 * shown that the board is needed.
 */
export function wishesOf({ items, problem, kinds }: Group, { boards }: Packing, bound: number): Wish[] {
  const bought = boards.filter(({ stock }) => stock >= 0);
  if (bought.length < 2 || bought.length <= bound) return [];
  const fills = bought.map(({ stock, stood }) => usedMm2(problem, stood) / kinds[stock].container.areaMm2);
  const least = Math.min(...fills);
  const { stood } = bought[fills.indexOf(least)];
  if (least >= NEARLY_EMPTY || stood.length > FEW) return [];
  return stood.flatMap(({ item }) => items[item].blank.pieces.map(({ name }) => ({ piece: name })));
}
