import { ringHull } from '../geometry/ring-hull.ts';
import type { Facts } from '../model/facts.ts';
import type { Piece } from '../model/piece.ts';
import { type BoxMm, boxesOf, smallestBox } from '../model/way.ts';
import { flatLiftKg } from './lifting.ts';

/** One way longer than so many times what is too large both ways: it bends and catches the wind (common practice, no source). */
export const TIMES_ONE_WAY = 1.5;

type Said = Pick<Facts, 'carry' | 'work'>;

/**
 * How many carry a piece: two where its smallest box is larger both ways than the job's rule says, or one way than half as
 * much again, or where it is heavier than one takes.
 */
export const handsOf = (piece: Piece, massKg: number, facts: Said): 1 | 2 =>
  handsFor(smallestBox(boxesOf(ringHull(piece.region[0]), piece.thicknessMm)), massKg, facts);

/** The same of the smallest box round a piece. */
export function handsFor(box: BoxMm, massKg: number, facts: Said): 1 | 2 {
  const mostMm = facts.work.rules.twoPersonMm.value;
  const [long, short] = box;
  return short > mostMm || long > TIMES_ONE_WAY * mostMm || massKg > oneTakesKg(box, facts) ? 2 : 1;
}

/** What one takes of a board held flat: the lifting figure, and no more than the job says of one carrier. */
export const oneTakesKg = ([, short]: BoxMm, { carry }: Said): number =>
  Math.min(carry.massKg ?? Infinity, flatLiftKg(short));
