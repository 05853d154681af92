export const CUTS = ['proud', 'shy', 'middle'] as const;

/** How an outline stands to the ground in its layer's thickness. */
export type Cut = (typeof CUTS)[number];

/** Micrometres in a millimetre. Levels are whole micrometres, so that no sum of doubles ever decides what is flat. */
const UM_IN_MM = 1000;

export const wholeUm = (mm: number): number => Math.round(mm * UM_IN_MM) + 0;

/** The bottom of the layer that has k layers beneath it. */
const levelMm = (k: number, thicknessMm: number): number => wholeUm(k * thicknessMm) / UM_IN_MM;

/** Bottoms and tops of the layers, from 0 up: one more than layers. */
export const levelsMm = (layers: number, thicknessMm: number): Float64Array =>
  Float64Array.from({ length: layers + 1 }, (_, k) => levelMm(k, thicknessMm));

/** Half way between two levels: whole or half micrometres. */
export const halfwayMm = (lowMm: number, highMm: number): number => (wholeUm(lowMm) + wholeUm(highMm)) / (2 * UM_IN_MM);

/** How many layers the ground reaches into: flat ground exactly at a level does not reach into the layer above it. */
export function layersUpTo(highMm: number, thicknessMm: number): number {
  let layers = Math.max(0, Math.ceil(highMm / thicknessMm) + 1);
  while (layers > 0 && levelMm(layers - 1, thicknessMm) >= highMm) layers--;
  return layers;
}
