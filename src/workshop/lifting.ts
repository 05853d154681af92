/** A lift, in centimetres and degrees as the equation has it. */
export interface Lift {
  /** From between the ankles to between the hands. */
  readonly outCm: number;
  /** Of the hands over the floor at the start. */
  readonly highCm: number;
  readonly liftedCm: number;
  readonly turnedDeg?: number;
  /** For how often and how long; 1 for once in a while. */
  readonly often?: number;
  readonly grip?: number;
}

/**
 * The weight that nearly all may lift, kg: revised NIOSH lifting equation (Pub. 94-110, rev. 9/2021; its multiplier for turning
 * from memory). A screening figure and no permission. 0 where the hands are out of its range.
 */
export function recommendedKg({ outCm, highCm, liftedCm, turnedDeg = 0, often = 1, grip = 1 }: Lift): number {
  if (outCm > 63 || highCm < 0 || highCm > 175 || liftedCm > 175 || turnedDeg > 135) return 0;
  const out = 25 / Math.max(25, outCm);
  const high = 1 - 0.003 * Math.abs(highCm - 75);
  const lifted = 0.82 + 4.5 / Math.max(25, liftedCm);
  return 23 * out * high * lifted * (1 - 0.0032 * turnedDeg) * often * grip;
}

/** A board held flat before the body: half its shorter side reaches out, 25 to 63 cm; from table height, once in a while. */
export const flatLiftKg = (shorterMm: number): number =>
  recommendedKg({ outCm: Math.min(63, Math.max(25, shorterMm / 20)), highCm: 75, liftedCm: 25 });

/** What one bag from the floor may weigh by the same equation: hands 40 cm out, 15 cm up, lifted by 60 (our choice). */
export const bagLiftKg = (): number => recommendedKg({ outCm: 40, highCm: 15, liftedCm: 60 });
