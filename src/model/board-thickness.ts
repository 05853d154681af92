import { refuse } from '../findings.ts';
import { numberText } from '../units.ts';
import type { Facts } from './facts.ts';
import { settledThicknessMm } from './stock.ts';

/** The board that is so thick, else the one that is sold as so thick. Refuses where there is none, or several. */
export function boardThickness(
  saidMm: number,
  { thicknessesMm, soldAs }: Pick<Facts, 'thicknessesMm' | 'soldAs'>,
  path: string,
): number {
  const settledMm = settledThicknessMm(saidMm);
  if (thicknessesMm.length === 0 || thicknessesMm.includes(settledMm)) return settledMm;
  const sold = soldAs.filter(({ nominalMm }) => nominalMm === settledMm).map(({ thicknessMm }) => thicknessMm);
  if (sold.length > 1) severalMeasured(saidMm, sold, path);
  return sold[0] ?? noBoard(saidMm, thicknessesMm, path);
}

/** What a plugin says of the boards that it wants. */
interface Wanted {
  /** Where the job says the thickness. */
  readonly path: string;
  /** What is cut from the boards: `layer`, `rib`. */
  readonly each: string;
  /** The way out where boards of several thicknesses are on offer. */
  readonly fix: string;
}

/** The thickness that is said, as a board on offer has it; not said, the only one on offer. Refuses where there are several, or none. */
export function oneThickness(
  saidMm: number | undefined,
  facts: Pick<Facts, 'thicknessesMm' | 'soldAs'>,
  wanted: Wanted,
): number {
  if (saidMm !== undefined) return boardThickness(saidMm, facts, wanted.path);
  const { thicknessesMm } = facts;
  return thicknessesMm.length === 1 ? thicknessesMm[0] : whichBoard(thicknessesMm, wanted);
}

export const whichBoard = (offeredMm: readonly number[], { path, each, fix }: Wanted): never =>
  refuse(
    'slice/which-board',
    offeredMm.length === 0
      ? `No boards are on offer, so it is not known how thick a ${each} is.`
      : `Boards of several thicknesses are on offer: ${offeredMm.map(mm).join(', ')}.`,
    offeredMm.length === 0 ? 'Say the thickness.' : fix,
    { path },
  );

const mm = (value: number): string => `${numberText(value, 3)} mm`;

const noBoard = (saidMm: number, offeredMm: readonly number[], path: string): never =>
  refuse(
    'slice/no-board',
    `No board on offer is ${mm(saidMm)} thick; there are ${offeredMm.map(mm).join(', ')}.`,
    'Say one of these, or add the board to stock.boards.',
    { path },
  );

const severalMeasured = (saidMm: number, measuredMm: readonly number[], path: string): never =>
  refuse(
    'slice/which-board',
    `Boards sold as ${mm(saidMm)} measure ${measuredMm.map(mm).join(' and ')}.`,
    'Say which by what they measure.',
    { path },
  );
