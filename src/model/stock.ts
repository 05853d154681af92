import type { Ring } from '../geometry/ring.ts';

/** No board, block or remainder is longer: moulded blocks end at some 8 m (common practice, no source). More is a wrong unit. */
export const LONGEST_BOARD_MM = 20_000;
/** No board is thinner: thin card, for models. Layers count in whole micrometres. */
export const THINNEST_BOARD_MM = 0.1;
/** Nothing is denser: osmium, 22 590 kg/m³ (from memory), rounded up. More is a wrong unit, and masses stay numbers. */
export const MOST_DENSITY_KG_M3 = 25_000;

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
