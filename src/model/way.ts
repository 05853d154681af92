import { flushRectangles } from '../geometry/enclosing.ts';
import type { Ring } from '../geometry/ring.ts';
import type { Inside, Way } from './facts.ts';

/** A piece by the box round it: its longer side, its shorter side and its thickness. */
export type BoxMm = readonly [long: number, short: number, thick: number];

/**
 * The boxes round a piece that have a side along one of its own; it is not tilted.
 * @param hull of its outline.
 */
export function boxesOf(hull: Ring, thicknessMm: number): BoxMm[] {
  const flush = flushRectangles(hull);
  const boxes: BoxMm[] = [];
  for (let i = 0; i < flush.length; i += 2) {
    boxes.push([Math.max(flush[i], flush[i + 1]), Math.min(flush[i], flush[i + 1]), thicknessMm]);
  }
  return boxes;
}

/** The one of least area; the first of several. */
export const smallestBox = (boxes: readonly BoxMm[]): BoxMm =>
  boxes.reduce((best, box) => (box[0] * box[1] < best[0] * best[1] ? box : best));

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

/** What may stop a piece on its way: an opening by size, the lift by weight too, the van's payload. */
export type Hurdle = 'door' | 'stair' | 'lift' | 'van' | 'payload';

/** What stops a piece of these boxes and this weight, of all that is said of the way. Each opening may take another box. */
export function hurdlesOf(boxes: readonly BoxMm[], massKg: number, { door, stair, lift, van }: Way): Hurdle[] {
  const none = (passes: (box: BoxMm) => boolean) => !boxes.some(passes);
  const hurdles: Hurdle[] = [];
  if (door && none((box) => passesDoor(box, door))) hurdles.push('door');
  if (stair && none((box) => passesStair(box, stair))) hurdles.push('stair');
  if (lift && (none((box) => goesInto(box, lift)) || massKg > (lift.payloadKg ?? Infinity))) hurdles.push('lift');
  if (van && none((box) => goesInto(box, van))) hurdles.push('van');
  if (van && massKg > (van.payloadKg ?? Infinity)) hurdles.push('payload');
  return hurdles;
}

/** Whether a piece passes all that is said of the way, by size and weight. */
export const passesWay = (boxes: readonly BoxMm[], massKg: number, way: Way): boolean =>
  hurdlesOf(boxes, massKg, way).length === 0;

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
