/**
 * Stress of expanded polystyrene at 1 % strain by least density: what builders of geofoam keep lasting loads under. Source:
 * ASTM D6817, property table, as reproduced by two makers of geofoam (geofoamusa.com/?p=9377; plymouthfoam.com); that the
 * stress at 1 % is the limit for lasting load: geofoam.org, "Strength considerations". Other foams differ.
 */
export const LASTING_KPA: readonly { readonly type: string; readonly densityKgM3: number; readonly kPa: number }[] = [
  { type: 'EPS12', densityKgM3: 11.2, kPa: 15 },
  { type: 'EPS15', densityKgM3: 14.4, kPa: 25 },
  { type: 'EPS19', densityKgM3: 18.4, kPa: 40 },
  { type: 'EPS22', densityKgM3: 21.6, kPa: 50 },
  { type: 'EPS29', densityKgM3: 28.8, kPa: 75 },
  { type: 'EPS39', densityKgM3: 38.4, kPa: 103 },
];

/** What gravity makes of a kilogram for each square metre, kPa (standard gravity, 9.80665 m/s², ISO 80000-3). */
export const KPA_PER_KG_M2 = 0.00980665;

/**
 * The pressure that expanded polystyrene of a density takes for long without creeping much, between types on a straight line.
 * Null below and above the table: nothing is read into it.
 */
export function lastingKPa(densityKgM3: number): number | null {
  const i = LASTING_KPA.findIndex((row) => row.densityKgM3 >= densityKgM3);
  if (i < 0) return null;
  const above = LASTING_KPA[i];
  if (above.densityKgM3 === densityKgM3) return above.kPa;
  if (i === 0) return null;
  const below = LASTING_KPA[i - 1];
  const share = (densityKgM3 - below.densityKgM3) / (above.densityKgM3 - below.densityKgM3);
  return below.kPa + share * (above.kPa - below.kPa);
}
