import { CLIP_UNITS } from './tolerance.ts';

/** A coordinate on the grid of SNAP: the double nearest to a whole number of thousandths. */
export const snapped = (value: number): number => Math.round(value * CLIP_UNITS) / CLIP_UNITS;
