import type { Inside, Way } from './facts.ts';

/** A piece by the box round it: its longer side, its shorter side and its thickness. */
export type BoxMm = readonly [long: number, short: number, thick: number];

/** Whether a box passes a door lengthwise, square to it, lying or on edge. Askew it might pass a lower one: nobody should count on it. */
export const passesDoor = ([, short, thick]: BoxMm, { widthMm, heightMm }: NonNullable<Way['door']>): boolean =>
  (thick <= widthMm && short <= heightMm) || (short <= widthMm && thick <= heightMm);

/**
 * Whether a box, carried on its long edge, passes a stair, and the corner of its landing.
 *
 * Round a corner between two ways of width a: where the outer long side of a rectangle touches both outer walls and leans by
 * θ, the inner corner is a sin θ + a cos θ − L sin θ cos θ off that side, and that has to be T at least for every θ. In
 * s = sin θ + cos θ, from 1 to √2, it is a s − L (s² − 1) / 2, which bends down, so that its least is at an end: T ≤ a where
 * it starts, and T ≤ √2 a − L / 2 at 45°. Hence L ≤ 2 (√2 a − T). For T = 0 this is the ladder problem's (a^⅔ + a^⅔)^(3/2) =
 * 2 √2 a (Moser's and Hammersley's sofa problem, Croft, Falconer, Guy, Unsolved Problems in Geometry, G5; from memory).
 */
export function passesStair([long, short, thick]: BoxMm, stair: NonNullable<Way['stair']>): boolean {
  const { widthMm, heightMm, turns } = stair;
  return (
    thick <= widthMm &&
    (heightMm === null || short <= heightMm) &&
    (!turns || long <= longestRoundCorner(widthMm, thick))
  );
}

/** The longest rectangle of some thickness that goes round a right-angled corner of a way so wide. */
export const longestRoundCorner = (widthMm: number, thickMm: number): number => 2 * (Math.SQRT2 * widthMm - thickMm);

/** Whether a box goes into a van or a lift, square to it, whichever way up. */
export function goesInto(box: BoxMm, { lengthMm, widthMm, heightMm }: Inside): boolean {
  const room = [lengthMm, widthMm, heightMm].sort((a, b) => b - a);
  return [...box].sort((a, b) => b - a).every((side, i) => side <= room[i]);
}
