import { numberText } from '../units.ts';

/** Minutes to trim, lay and tape one page (common practice, no source). */
export const MINUTES_A_PAGE = 2;

/** A time for people: `46 minutes`, `3.2 hours`. */
export const timeText = (minutes: number): string =>
  minutes < 60 ? `${minutes} minutes` : `${numberText(minutes / 60, 1)} hours`;
