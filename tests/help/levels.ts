/** Bottoms and tops of so many equal layers, from 0 up, in whole micrometres. */
export const evenLevelsMm = (layers: number, thicknessMm: number): Float64Array =>
  Float64Array.from({ length: layers + 1 }, (_, k) => Math.round(k * thicknessMm * 1000) / 1000);
