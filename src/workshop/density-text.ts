import { isInFeet, numberText, type Unit } from '../units.ts';

/** Exactly, from the pound and the foot (international yard and pound agreement, 1959). */
const KG_M3_IN_LB_FT3 = 0.45359237 / (0.3048 * 0.3048 * 0.3048);

/** A density for people: kilograms in a cubic metre, or pounds in a cubic foot where the job is in inches or feet. */
export const densityText = (kgM3: number, unit: Unit): string =>
  isInFeet(unit) ? `${numberText(kgM3 / KG_M3_IN_LB_FT3, 2)} lb/ft³` : `${numberText(kgM3, 1)} kg/m³`;
