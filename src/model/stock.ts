import type { Ring } from '../geometry/ring.ts';

/** No board, block or remainder is longer: moulded blocks end at some 8 m (common practice, no source). More is a wrong unit. */
export const LONGEST_BOARD_MM = 20_000;
/** No board is thinner: thin card, for models. Layers count in whole micrometres. */
export const THINNEST_BOARD_MM = 0.1;
/** Nothing is denser: osmium, 22 590 kg/m³ (from memory), rounded up. More is a wrong unit, and masses stay numbers. */
export const MOST_DENSITY_KG_M3 = 25_000;

/** A delivered board differs from what it is sold as by no more than this share (EN 13163 lets 1 to 2 mm pass; from memory). */
export const MOST_OFF_SHARE = 0.15;

/** A thickness in whole micrometres, so that levels are exact sums of thicknesses. */
export const settledThicknessMm = (mm: number): number => Math.max(1, Math.round(mm * 1000)) / 1000;

/** A kind of board on sale or on hand. */
export interface StockBoard {
  readonly name: string;
  readonly sizeMm: readonly [number, number];
  /** As measured where the job says so, else as sold; whole micrometres. */
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
  /** Patches of each such board that nothing may be cut from, from its lower left corner, y up; of boards that were looked over. */
  readonly keepOuts?: readonly Ring[];
}

/** A usable remainder of a board, kept as stock. Rings in its own coordinates, its box from (0, 0). */
export interface Offcut {
  readonly name: string;
  readonly material: string;
  readonly thicknessMm: number;
  readonly densityKgM3: number;
  readonly rings: readonly Ring[];
  /** Patches that nothing may be cut from, though foam is there. */
  readonly defects?: readonly Ring[];
  /** Where it came from, in words. */
  readonly from: string;
}

export interface Stock {
  readonly boards: readonly StockBoard[];
  readonly offcuts: readonly Offcut[];
}

/** The least money for a square metre of what the trim leaves of a board, by thickness, rising, and how many there are in all; null where not said. */
export function boardPrices(boards: readonly StockBoard[]) {
  const kinds = new Map<number, { pricePerM2: number | null; onHandM2: number | null }>();
  for (const { thicknessMm, sizeMm, trimMm, price, count } of boards) {
    const areaM2 = ((sizeMm[0] - 2 * trimMm) * (sizeMm[1] - 2 * trimMm)) / 1e6;
    const perM2 = price === null ? null : price / areaM2;
    const { pricePerM2: before, onHandM2 } = kinds.get(thicknessMm) ?? { pricePerM2: null, onHandM2: 0 };
    kinds.set(thicknessMm, {
      pricePerM2: before === null || perM2 === null ? (before ?? perM2) : Math.min(before, perM2),
      onHandM2: count === null || onHandM2 === null ? null : onHandM2 + count * areaM2,
    });
  }
  return [...kinds]
    .map(([thicknessMm, kind]) => ({ thicknessMm, ...kind }))
    .sort((a, b) => a.thicknessMm - b.thicknessMm);
}
