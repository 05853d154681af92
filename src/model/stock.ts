import type { Ring } from '../geometry/ring.ts';

/** A kind of board on sale or on hand. */
export interface StockBoard {
  readonly name: string;
  readonly sizeMm: readonly [number, number];
  readonly thicknessMm: number;
  readonly densityKgM3: number;
  /** Price of one, in the job's money; null when not said. */
  readonly price: number | null;
  /** How many can be had; null when as many as are needed. */
  readonly count: number | null;
  /** Cut off each edge before use. */
  readonly trimMm: number;
  /** One face differs from the other, so that pieces may not be mirrored. */
  readonly faced: boolean;
}

/** A usable remainder of a board, kept as stock. Rings in its own coordinates, its box from (0, 0). */
export interface Offcut {
  readonly name: string;
  readonly material: string;
  readonly thicknessMm: number;
  readonly densityKgM3: number;
  readonly rings: readonly Ring[];
  /** Where it came from, in words. */
  readonly from: string;
}

export interface Stock {
  readonly boards: readonly StockBoard[];
  readonly offcuts: readonly Offcut[];
}
