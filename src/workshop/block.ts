/** Shares of a cut that binary rounding may lose: 0.6 / 0.2 is 2.9999999999999996 and must count as 3. */
const ROUNDING = 1e-9;

/** Boards out of a block's height. */
export interface Yield {
  readonly boards: number;
  /** Left over beside the boards and their kerfs, between the crusts. */
  readonly restMm: number;
}

/** How many boards of a thickness a height gives, a kerf between each two; the crust comes off both faces first. */
export function boardsFrom(heightMm: number, thicknessMm: number, kerfMm: number, crustMm: number): Yield {
  const usableMm = Math.max(0, heightMm - 2 * crustMm);
  const boards = Math.max(0, Math.floor((usableMm + kerfMm) / (thicknessMm + kerfMm) + ROUNDING));
  return { boards, restMm: usableMm - boards * thicknessMm - Math.max(0, boards - 1) * kerfMm };
}

/** One way to divide a landform's height into layers, and a block into boards of that thickness. */
export interface Thickness extends Yield {
  readonly layers: number;
  readonly thicknessMm: number;
}

/** Thinner boards sag on the bed, thicker ones are no boards (our choice). */
const LEAST_MM = 15;
const MOST_MM = 300;
const EITHER_WAY = 4;

/**
 * Thicknesses that divide a height evenly, about a wanted one: a free thickness is why one buys a block. Rising. Each with
 * what the block gives and leaves.
 */
export function thicknessesFor(
  landformMm: number,
  wantedMm: number,
  block: { readonly heightMm: number; readonly kerfMm: number; readonly crustMm: number },
): Thickness[] {
  const about = Math.max(1, Math.round(landformMm / wantedMm));
  const counts = Array.from({ length: 2 * EITHER_WAY + 1 }, (_, i) => about + EITHER_WAY - i);
  return counts
    .filter((layers) => layers >= 1)
    .map((layers) => ({ layers, thicknessMm: Math.ceil((landformMm / layers) * 10 - ROUNDING) / 10 }))
    .filter(({ thicknessMm }) => thicknessMm >= LEAST_MM && thicknessMm <= MOST_MM)
    .map((each) => ({ ...each, ...boardsFrom(block.heightMm, each.thicknessMm, block.kerfMm, block.crustMm) }))
    .filter(({ boards }) => boards > 0);
}

/** A cut through a block: what falls, and the height of the wire over the bed. */
export interface BlockCut {
  readonly number: number;
  readonly gives: string;
  /** Of the rails that the wire runs on: the middle of its kerf. */
  readonly railMm: number;
}

/** The cuts from the top down, so that what is left stays heavy and lies still. The crust below stays on the bed. */
export function blockCuts(heightMm: number, thicknessMm: number, kerfMm: number, crustMm: number): BlockCut[] {
  const { boards, restMm } = boardsFrom(heightMm, thicknessMm, kerfMm, crustMm);
  const top = crustMm > 0 ? [{ gives: 'upper crust', railMm: heightMm - crustMm + kerfMm / 2 }] : [];
  const downMm = (i: number) => heightMm - crustMm - i * thicknessMm - (i - 1) * kerfMm - kerfMm / 2;
  const cuts = Array.from({ length: boards }, (_, i) => ({ gives: `board ${i + 1}`, railMm: downMm(i + 1) }));
  // With nothing under it the last board needs no cut.
  const needed = restMm + crustMm > ROUNDING ? cuts : cuts.slice(0, -1);
  return [...top, ...needed].map((cut, i) => ({ number: i + 1, ...cut }));
}

export const blockMassKg = ([a, b]: readonly [number, number], heightMm: number, densityKgM3: number): number =>
  (a * b * heightMm * densityKgM3) / 1e9;

/** A block on sale where the job says none (a maker's civil blocks, sundolitt.co.uk). */
export const USUAL_BLOCK = { sizeMm: [2400, 1200], heightMm: 1000 } as const;
