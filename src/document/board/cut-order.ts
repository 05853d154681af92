import { boxOf } from '../../geometry/ring.ts';
import type { LayoutBoard } from '../../model/layout.ts';
import type { PieceOnBoard } from './on-board.ts';

/**
 * In which order a board is cut: the number of each blank, from 1 after the cuts that break the board down. From the left end
 * to the right, so that what is not cut yet stays one stiff piece that is held at its end; a blank in the void of a piece comes
 * before that piece, while the board round it is whole (common practice, no source).
 */
export function cutOrder(board: LayoutBoard, lying: readonly PieceOnBoard[]): ReadonlyMap<number, number> {
  const left = new Map<number, number>();
  for (const [i, { blank }] of board.placed.entries()) {
    const [from] = boxOf(lying[i].outline);
    left.set(blank, Math.min(from, left.get(blank) ?? Infinity));
  }
  const blankOf = new Map(board.placed.map(({ piece, blank }) => [piece, blank]));
  const inside = new Map((board.runIns ?? []).map(({ blank, within }) => [blank, within && blankOf.get(within)]));
  const waiting = [...left.keys()].sort((a, b) => (left.get(a) ?? 0) - (left.get(b) ?? 0) || a - b);
  const order: number[] = [];
  const visit = (blank: number) => {
    if (order.includes(blank)) return;
    for (const other of waiting) if (other !== blank && inside.get(other) === blank) visit(other);
    order.push(blank);
  };
  for (const blank of waiting) visit(blank);
  const before = board.breakDowns?.length ?? 0;
  return new Map(order.map((blank, i) => [blank, before + i + 1]));
}
