import { refuse } from '../../findings.ts';
import { mm } from './stack-text.ts';

export const CUTS = ['proud', 'shy', 'middle'] as const;

/** How an outline stands to the ground in its layer's thickness. */
export type Cut = (typeof CUTS)[number];

/** Micrometres in a millimetre. Levels are whole micrometres, so that no sum of doubles ever decides what is flat. */
const UM_IN_MM = 1000;

export const wholeUm = (mm: number): number => Math.round(mm * UM_IN_MM) + 0;

/** Bottoms and tops of layers of these thicknesses, from 0 up: one more than layers, exact sums of whole micrometres. */
export function levelsMm(thicknessesMm: readonly number[]): Float64Array {
  const levels = new Float64Array(thicknessesMm.length + 1);
  let um = 0;
  for (let k = 0; k < thicknessesMm.length; k++) levels[k + 1] = (um += wholeUm(thicknessesMm[k])) / UM_IN_MM;
  return levels;
}

/** More layers than any stack that is cut by hand has. */
export const MOST_LAYERS = 2000;

/** Refuse what is so high that no stack of boards of this thickness is meant. */
export function bounded(highMm: number, thinnestMm: number, path: string): void {
  if (highMm > MOST_LAYERS * thinnestMm) tooMany(highMm, thinnestMm, path);
}

/** Half way between two levels: whole or half micrometres. */
export const halfwayMm = (lowMm: number, highMm: number): number => (wholeUm(lowMm) + wholeUm(highMm)) / (2 * UM_IN_MM);

/**
 * As many thicknesses of a list as the ground reaches into, from the ground up; its last again and again when it is too
 * short. Flat ground exactly at a level does not reach into the layer above it.
 */
export function thicknessesUpTo(highMm: number, listMm: readonly number[]): number[] {
  const stack: number[] = [];
  for (let um = 0; um / UM_IN_MM < highMm; um += wholeUm(stack[stack.length - 1])) {
    stack.push(listMm[Math.min(stack.length, listMm.length - 1)]);
  }
  return stack;
}

const tooMany = (highMm: number, thicknessMm: number, path: string): never =>
  refuse(
    'slice/too-many',
    `Ground ${mm(highMm)} high makes more than ${MOST_LAYERS} layers of ${mm(thicknessMm)}.`,
    'Check the unit of the heights, or use thicker boards.',
    { path },
  );
