/**
 * Every tolerance of the geometry, with its reason. Functions take them as parameters; these are the documented values.
 * What arithmetic cannot resolve and what the user lets go are two different numbers and have two names.
 */

/** Coordinates that leave slice and split are multiples of this: a thousandth of a millimetre. */
export const SNAP = 0.001;

/** Units of the clipping grid per millimetre. Up to 47 m it needs no big integers (clipper-lib 6.4). */
export const CLIP_UNITS = 1000;

/** How far an outline may be simplified: half a millimetre is finer than any hand holds a wire (common practice, no source). */
export const SIMPLIFY_MM = 0.5;

/** Sag allowed where an offset is rounded. The offset falls short by up to 2.25 times this (measured, clipper-lib 6.4). */
export const ARC_SAG_MM = 0.02;
