import type { Wish } from '../../model/piece.ts';
import type { Packing } from '../engine/engine.ts';
import type { Group } from './group.ts';

/** A bought board that is filled less than this, by so few blanks, is worth asking for another division. */
const NEARLY_EMPTY = 0.08;
const FEW = 2;

/**
 * Pieces on the emptiest bought board, when so little is on it that dividing them might save it, and when it has not been
 * shown that the board is needed.
 */
export function wishesOf({ items, problem: { shapes }, kinds }: Group, { boards }: Packing, bound: number): Wish[] {
  const bought = boards.filter(({ stock }) => stock >= 0);
  if (bought.length < 2 || bought.length <= bound) return [];
  const fills = bought.map(({ stock, stood }) => {
    const areaMm2 = stood.reduce((sum, { item }) => sum + shapes[items[item].shape].areaMm2, 0);
    return areaMm2 / kinds[stock].container.areaMm2;
  });
  const least = Math.min(...fills);
  const { stood } = bought[fills.indexOf(least)];
  if (least >= NEARLY_EMPTY || stood.length > FEW) return [];
  return stood.flatMap(({ item }) => items[item].blank.pieces.map(({ name }) => ({ piece: name })));
}
