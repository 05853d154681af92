import { exp, ln } from '../../geometry/exact-math.ts';

const CELSIUS = [200, 300, 400, 500, 600, 700, 800, 900, 1000, 1100] as const;

/**
 * Amps that hold straight nichrome wire at a temperature in still air, by American gauge. Source: Pelican Wire, pages of
 * alloys 650 and 675, the same figures on both, so good to a few per cent. Rows of 0.202 to 0.812 mm: thicker wire is not
 * in the source and not read into it.
 */
export const AMPS_IN_AIR: readonly { readonly awg: number; readonly mm: number; readonly amps: readonly number[] }[] = [
  { awg: 32, mm: 0.202, amps: [0.66, 0.86, 1.05, 1.22, 1.42, 1.69, 1.95, 2.22, 2.51, 2.77] },
  { awg: 31, mm: 0.227, amps: [0.77, 0.99, 1.22, 1.4, 1.68, 1.97, 2.28, 2.55, 2.92, 3.24] },
  { awg: 30, mm: 0.255, amps: [0.9, 1.15, 1.4, 1.67, 1.97, 2.28, 2.67, 2.96, 3.42, 3.8] },
  { awg: 29, mm: 0.286, amps: [1.08, 1.35, 1.62, 1.95, 2.3, 2.65, 3.12, 3.45, 3.99, 4.45] },
  { awg: 28, mm: 0.321, amps: [1.21, 1.53, 1.84, 2.18, 2.6, 3.04, 3.55, 4.06, 4.55, 5.1] },
  { awg: 27, mm: 0.361, amps: [1.39, 1.75, 2.13, 2.55, 2.95, 3.52, 4.05, 4.7, 5.3, 5.95] },
  { awg: 26, mm: 0.405, amps: [1.61, 2, 2.48, 2.9, 3.4, 3.95, 4.65, 5.4, 6.1, 6.9] },
  { awg: 25, mm: 0.455, amps: [1.85, 2.35, 2.9, 3.4, 4, 4.65, 5.45, 6.3, 7.15, 8.05] },
  { awg: 24, mm: 0.511, amps: [2.16, 2.75, 3.4, 3.9, 4.6, 5.4, 6.35, 7.25, 8.3, 9.4] },
  { awg: 23, mm: 0.573, amps: [2.45, 3.1, 3.7, 4.45, 5.1, 6.3, 7.3, 8.45, 9.7, 10.9] },
  { awg: 22, mm: 0.644, amps: [2.85, 3.55, 4.25, 5.1, 6, 7.3, 8.4, 9.6, 11.15, 12.6] },
  { awg: 21, mm: 0.723, amps: [3.3, 4.05, 4.95, 5.9, 7.1, 8.3, 9.85, 11.2, 13.1, 14.8] },
  { awg: 20, mm: 0.812, amps: [3.85, 4.7, 5.8, 6.9, 8.2, 9.7, 11.4, 13.3, 15.4, 17.4] },
];

/** Amps by the table: powers of the diameter between gauges, straight lines between temperatures; null outside it. */
export function tableAmps(diameterMm: number, celsius: number): number | null {
  const column = CELSIUS.findIndex((at) => at >= celsius);
  const row = AMPS_IN_AIR.findIndex(({ mm }) => mm >= diameterMm);
  if (column < 0 || row < 0 || celsius < CELSIUS[0] || diameterMm < AMPS_IN_AIR[0].mm) return null;
  const [left, lower] = [Math.max(0, column - 1), Math.max(0, row - 1)];
  const share = column === left ? 0 : (celsius - CELSIUS[left]) / (CELSIUS[column] - CELSIUS[left]);
  const at = ({ amps }: (typeof AMPS_IN_AIR)[number]) => amps[left] + share * (amps[column] - amps[left]);
  if (row === lower) return at(AMPS_IN_AIR[row]);
  const [a, b] = [AMPS_IN_AIR[lower], AMPS_IN_AIR[row]];
  const along = ln(diameterMm / a.mm) / ln(b.mm / a.mm);
  return at(a) * exp(along * ln(at(b) / at(a)));
}

/** What the table holds, in words: for saying that a wire is outside it. */
export const TABLE_RANGE = 'nichrome of 0.20 to 0.81 mm, 200 to 1100 °C';
