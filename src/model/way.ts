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

/** The largest of a flat piece, as it lies: its longer side, and its shorter side. */
export type FlatMm = readonly [long: number, short: number];

/**
 * What a flat piece no thicker than it is wide may measure to pass the whole way: the sizes up to which passesDoor, passesStair
 * and goesInto let it. 0 where not even an edge of it passes; Infinity where nothing is said.
 */
export function largestOnWay({ door, stair, lift, van }: Way, thickMm: number): FlatMm {
  let [long, short] = [Infinity, Infinity];
  if (door) {
    const onEdge = thickMm <= door.widthMm ? door.heightMm : 0;
    const lying = thickMm <= door.heightMm ? door.widthMm : 0;
    short = Math.min(short, Math.max(onEdge, lying));
  }
  if (stair) {
    short = Math.min(short, thickMm > stair.widthMm ? 0 : (stair.heightMm ?? Infinity));
    if (stair.turns) long = Math.min(long, longestRoundCorner(stair.widthMm, thickMm));
  }
  for (const inside of [lift, van]) {
    if (!inside) continue;
    const room = [inside.lengthMm, inside.widthMm, inside.heightMm].sort((a, b) => b - a);
    long = Math.min(long, thickMm <= room[2] ? room[0] : 0);
    short = Math.min(short, thickMm <= room[2] ? room[1] : 0);
  }
  return [Math.max(0, long), Math.max(0, short)];
}

/** The heaviest piece that the lift and the van take; Infinity where nothing is said. */
export const heaviestOnWay = ({ lift, van }: Way): number =>
  Math.min(lift?.payloadKg ?? Infinity, van?.payloadKg ?? Infinity);
