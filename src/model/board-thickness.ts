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
