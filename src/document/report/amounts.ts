import { isInFeet, lengthText, numberText, thicknessText, type Unit } from '../../units.ts';

const FOOT_IN_M = 0.3048;
/** Exactly (international yard and pound agreement, 1959). */
const POUND_IN_KG = 0.45359237;

/** Three figures or so, never more than three decimals. */
const amount = (value: number): string => {
  const size = Math.abs(value);
  return numberText(value, size >= 100 ? 0 : size >= 10 ? 1 : size >= 1 ? 2 : 3);
};

/** An area for people: square metres, or square feet where the job is in inches or feet. */
export const areaText = (m2: number, unit: Unit): string =>
  isInFeet(unit) ? `${amount(m2 / (FOOT_IN_M * FOOT_IN_M))} ft²` : `${amount(m2)} m²`;

export const volumeText = (m3: number, unit: Unit): string =>
  isInFeet(unit) ? `${amount(m3 / (FOOT_IN_M * FOOT_IN_M * FOOT_IN_M))} ft³` : `${amount(m3)} m³`;

export const massText = (kg: number, unit: Unit): string =>
  isInFeet(unit) ? `${amount(kg / POUND_IN_KG)} lb` : `${amount(kg)} kg`;

/** A long way, such as all that is cut: metres or feet. */
export const wayText = (m: number, unit: Unit): string =>
  isInFeet(unit) ? `${amount(m / FOOT_IN_M)} ft` : `${amount(m)} m`;

/** `2400 × 1200 mm`: the unit once. */
export const sizeText = (sidesMm: readonly number[], unit: Unit): string =>
  `${sidesMm.map((side) => lengthText(side, unit).replace(/ \S+$/, '')).join(' × ')} ${unit}`;

/** `2400 × 1200 × 49.2 mm`: a board with its thickness. */
export const boardText = (sizeMm: readonly number[], thicknessMm: number, unit: Unit): string =>
  `${sizeText(sizeMm, unit).replace(/ \S+$/, '')} × ${thicknessText(thicknessMm, unit)}`;
