import { PI } from '../../geometry/exact-math.ts';
import type { ALLOYS } from '../../model/work.ts';

/** What a wire is made of. Resistivity is that at 20 °C. */
export interface Alloy {
  readonly microOhmM: number;
  readonly densityKgM3: number;
  /** Mean expansion at cutting heat, 10⁻⁶ a kelvin. */
  readonly growthPerMillionK: number;
  /** Annealed, at 20 °C. */
  readonly breaksMPa: number;
  /** Resistance over that at 20 °C, by temperature, rising. */
  readonly factors: readonly (readonly [celsius: number, factor: number])[];
  readonly source: string;
}

const row = (from: number, factors: readonly number[]) => factors.map((factor, i) => [from + 100 * i, factor] as const);

/**
 * Nichrome 80: Kanthal, data sheet "Nikrothal 80" (resistivity, density, factors; as two public files transcribe it),
 * Pelican Wire, alloy 650 (strength). Nichrome 60: Pelican Wire, alloy 675; factors of Cr15Ni60, hltegang.com. Stainless
 * 304: AISI 304 sheet (scribd.com/document/416534641): 0.72 at 20 °C and 1.16 µΩ·m at 650 °C. Stainless 316:
 * tubingchina.com, 316 physical property; its factor of 0.0009 a kelvin is from memory. Growth of nichrome: from memory,
 * within the makers' 13.4 (20 to 100 °C) to 18 (to 1000 °C).
 */
export const ALLOY: Readonly<Record<(typeof ALLOYS)[number], Alloy>> = {
  'nichrome 80': {
    microOhmM: 1.09,
    densityKgM3: 8300,
    growthPerMillionK: 15,
    breaksMPa: 689,
    factors: [[20, 1], ...row(100, [1.01, 1.02, 1.03, 1.04, 1.05, 1.04, 1.04, 1.04, 1.04, 1.05, 1.06, 1.07])],
    source: 'Kanthal, Nikrothal 80; Pelican Wire, alloy 650',
  },
  'nichrome 60': {
    microOhmM: 1.12,
    densityKgM3: 8250,
    growthPerMillionK: 15,
    breaksMPa: 655,
    factors: [[20, 1], ...row(100, [1.011, 1.024, 1.038, 1.052, 1.064, 1.069, 1.073, 1.078, 1.088, 1.095, 1.109])],
    source: 'Pelican Wire, alloy 675; hltegang.com, Cr15Ni60',
  },
  'stainless 304': {
    microOhmM: 0.72,
    densityKgM3: 8000,
    growthPerMillionK: 17.8,
    breaksMPa: 505,
    factors: [
      [20, 1],
      [650, 1.16 / 0.72],
    ],
    source: 'AISI 304 data sheet',
  },
  'stainless 316': {
    microOhmM: 0.74,
    densityKgM3: 8000,
    growthPerMillionK: 18.2,
    breaksMPa: 600,
    factors: [
      [20, 1],
      [300, 1 + 280 * 0.0009],
    ],
    source: 'tubingchina.com, 316; its change with heat from memory',
  },
};

/** Resistance at a temperature over that at 20 °C, on straight lines between rows; null outside the table. */
export function heatFactor({ factors }: Alloy, celsius: number): number | null {
  const i = factors.findIndex(([at]) => at >= celsius);
  if (i < 0 || celsius < factors[0][0]) return null;
  if (i === 0) return factors[0][1];
  const [[low, a], [high, b]] = [factors[i - 1], factors[i]];
  return a + ((b - a) * (celsius - low)) / (high - low);
}

/** Ohms of a metre, cold. */
export const ohmsAMetre = ({ microOhmM }: Alloy, diameterMm: number): number =>
  (4 * microOhmM) / (PI * diameterMm * diameterMm);
