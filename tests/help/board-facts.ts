import type { Facts } from '../../src/model/facts.ts';

/** What slice reads of boards that are as thick as they are sold; a price for a square metre of each, and how many of those there are, where said. */
export const boardFacts = (
  thicknessesMm: readonly number[],
  pricesPerM2: readonly number[] = [],
  onHandM2: readonly (number | null)[] = [],
): Pick<Facts, 'thicknessesMm' | 'soldAs' | 'boardPrices' | 'zones'> => ({
  thicknessesMm,
  soldAs: thicknessesMm.map((thicknessMm) => ({ thicknessMm, nominalMm: thicknessMm })),
  boardPrices: thicknessesMm.map((thicknessMm, i) => ({
    thicknessMm,
    pricePerM2: pricesPerM2[i] ?? null,
    onHandM2: onHandM2[i] ?? null,
  })),
  zones: [],
});

/** Of a tool of which only the kind and the kerf are said. */
export const NOT_SAID = { throatMm: null, wireMm: null, bladeMm: null, tableMm: null };
