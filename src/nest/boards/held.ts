import { CannotMake, type Fault } from '../../findings.ts';
import type { Held, PieceRule } from '../../model/facts.ts';
import type { Blank } from '../../model/piece.ts';
import type { Offcut, Stock, StockBoard } from '../../model/stock.ts';

/** A board of which some pieces are cut already, or a saved offcut. */
export interface Begun {
  /** Number of the board where it was laid out first. */
  readonly number: number;
  readonly of: { readonly board: StockBoard } | { readonly offcut: Offcut };
  readonly blanks: readonly { readonly blank: Blank; readonly held: Held }[];
}

/**
 * The boards that are begun, by number. Refuses what cannot be: a piece on two kinds of board, on one of another thickness, or
 * on one that is not in the stock.
 */
export function begunBoards(blanks: readonly Blank[], rules: readonly PieceRule[], stock: Stock): Begun[] {
  const faults: Fault[] = [];
  const begun = new Map<number, Begun>();
  for (const blank of blanks) {
    const [held, ...others] = rules.filter(
      ({ piece, held }) => held && blank.pieces.some(({ name }) => name === piece),
    );
    if (!held?.held) continue;
    const apart = others.find((other) => JSON.stringify(other.held) !== JSON.stringify(held.held));
    if (apart) faults.push(heldApart(held.piece, apart.piece));
    const of = ofHeld(held.piece, held.held, blank.pieces[0].thicknessMm, stock);
    if ('message' in of) {
      faults.push(of);
      continue;
    }
    const { board } = held.held;
    const before = begun.get(board);
    if (before && nameOf(before) !== nameOf({ of })) faults.push(twoKinds(held.piece, board));
    const on = [...(before?.blanks ?? []), { blank, held: held.held }];
    begun.set(board, { number: board, of: before?.of ?? of, blanks: on });
  }
  if (faults.length > 0) throw new CannotMake(faults);
  return [...begun.values()].sort((a, b) => a.number - b.number);
}

export const nameOf = ({ of }: Pick<Begun, 'of'>): string => ('board' in of ? of.board.name : of.offcut.name);

function ofHeld(piece: string, held: Held, thicknessMm: number, { boards, offcuts }: Stock): Begun['of'] | Fault {
  const board = boards.filter(
    (one) => one.thicknessMm === thicknessMm && (held.stock === null || one.name === held.stock),
  );
  const offcut = offcuts.find((one) => one.thicknessMm === thicknessMm && one.name === held.stock);
  if (board.length === 1) return { board: board[0] };
  if (offcut) return { offcut };
  const isOpen = held.stock === null && board.length > 1;
  return {
    code: 'nest/held-stock',
    message: isOpen
      ? `Piece ${piece} is held, and there are several boards of its thickness.`
      : `Piece ${piece} is held on ${held.stock ?? 'a board'}, and nothing in the stock of that name is as thick as it is.`,
    fix: 'Say under held which board or offcut of the stock it was cut from.',
    where: { piece, path: `pieces.${piece}.held` },
  };
}

const twoKinds = (piece: string, board: number): Fault => ({
  code: 'nest/held-board',
  message: `Board ${board}, on which ${piece} is held, is of two kinds.`,
  fix: 'Say the same stock for every piece of one board, or number the boards apart.',
  where: { piece, path: `pieces.${piece}.held` },
});

const heldApart = (one: string, other: string): Fault => ({
  code: 'nest/held-apart',
  message: `Pieces ${one} and ${other} share a cut, and are held in two different places.`,
  fix: 'Hold both where one of them lies: what shares cuts is placed as one.',
  where: { piece: other, path: `pieces.${other}.held` },
});
