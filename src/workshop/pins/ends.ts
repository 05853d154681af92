import type { Layer } from '../../model/layer.ts';

/** The lower end of a pin stays this far above the underside of the lowest layer, or a quarter of a thin one. */
export const ABOVE_UNDERSIDE_MM = 10;
/** Pins are cut to whole fives of a millimetre in layers from here up, to whole ones in thinner ones. */
const LEAST_FOR_FIVES_MM = 20;

/** In what steps a pin that stands in a layer is cut to length. */
export const stepFor = ({ thicknessMm }: Pick<Layer, 'thicknessMm'>): number =>
  thicknessMm >= LEAST_FOR_FIVES_MM ? 5 : 1;
