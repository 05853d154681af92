import type { Box, Placement, Ring } from '../geometry/ring.ts';
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
  /** The largest upright rectangle found in it. */
  readonly rectangle?: Box;
}

/**
 * The way of the cutter to a blank: from the board's edge (or that of what a breaking-down cut left) through waste to a point
 * of the blank's outline. Of a blank that lies in the void of another piece it starts on that void's edge.
 */
export interface RunIn {
  readonly blank: number;
  /** Flat x, y …, open, in the order in which it is cut. */
  readonly line: Float64Array;
  /** Name of the piece in whose void the blank lies: that piece's slit leads there. */
  readonly within?: string;
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
  /** Patches of the board that nothing may be cut from: damage, knots of glue. */
  readonly keepOuts?: readonly Ring[];
  /**
   * Straight cuts x, y, x, y right across the board, or across what the ones before left of it, that no blank crosses: made
   * first, in this order, since the bow does not reach every blank from the edges of the whole board.
   */
  readonly breakDowns?: readonly Float64Array[];
  /** One for each blank, in the order of their numbers; not known of boards that a plugin of others laid out. */
  readonly runIns?: readonly RunIn[];
}

/** The least number of boards to buy that can be shown, and in a few words why. */
export interface Bound {
  readonly boards: number;
  readonly why: string;
  /** The least money that can be shown; where every board has a price. */
  readonly price?: number;
}

export interface Layout {
  readonly boards: readonly LayoutBoard[];
  readonly bound: Bound;
  /** Kept offcuts of the stock that were not used. */
  readonly unusedOffcuts: readonly Offcut[];
  readonly evaluations: number;
  readonly wishes: readonly Wish[];
}
