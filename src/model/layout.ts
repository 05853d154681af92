import type { Placement, Ring } from '../geometry/ring.ts';
import type { Wish } from './piece.ts';
import type { Offcut } from './stock.ts';

/** A piece on a board. Board coordinates start at the board's lower left corner, y up. */
export interface Placed extends Placement {
  readonly piece: string;
  /** Pieces of one blank carry the same number, unique on the board. */
  readonly blank: number;
}

/** A remainder of a board, in that board's coordinates: inside its trim, at least the kerf from every piece. */
export interface BoardOffcut {
  readonly name: string;
  readonly rings: readonly Ring[];
}

/** One board with what is cut from it. */
export interface LayoutBoard {
  /** From 1. */
  readonly number: number;
  /** Name of the stock board, or of the saved offcut. */
  readonly stock: string;
  readonly sizeMm: readonly [number, number];
  readonly thicknessMm: number;
  readonly densityKgM3: number;
  readonly trimMm: number;
  /** Only for a saved offcut: its outline, whose coordinates are then the board's. Bought boards have none. */
  readonly rings?: readonly Ring[];
  readonly placed: readonly Placed[];
  readonly offcuts: readonly BoardOffcut[];
}

/** The least number of boards to buy that can be shown, and in a few words why. */
export interface Bound {
  readonly boards: number;
  readonly why: string;
}

export interface Layout {
  readonly boards: readonly LayoutBoard[];
  readonly bound: Bound;
  /** Kept offcuts of the stock that were not used. */
  readonly unusedOffcuts: readonly Offcut[];
  readonly evaluations: number;
  readonly wishes: readonly Wish[];
}
