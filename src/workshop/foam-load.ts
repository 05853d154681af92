import { D6817 } from '../model/foam.ts';
import { GRAVITY } from '../units.ts';

/** What gravity makes of a kilogram for each square metre, kPa. */
export const KPA_PER_KG_M2 = GRAVITY / 1000;

/** Kilograms in a cubic metre from and to which lastingKPa knows a pressure. */
export const LASTING_FROM_TO = [D6817[0].densityKgM3, D6817[D6817.length - 1].densityKgM3] as const;

/**
 * The pressure that expanded polystyrene of a density takes for long without creeping much: its stress at 1 % strain, which
 * builders of geofoam keep lasting loads under (geofoam.org, "Strength considerations"), between types on a straight line.
 * Null below and above the table: nothing is read into it. Other foams differ.
 */
export function lastingKPa(densityKgM3: number): number | null {
  const i = D6817.findIndex((row) => row.densityKgM3 >= densityKgM3);
  if (i < 0) return null;
  const above = D6817[i];
  if (above.densityKgM3 === densityKgM3) return above.kPaAt1;
  if (i === 0) return null;
  const below = D6817[i - 1];
  const share = (densityKgM3 - below.densityKgM3) / (above.densityKgM3 - below.densityKgM3);
  return below.kPaAt1 + share * (above.kPaAt1 - below.kPaAt1);
}
