import type { Ring } from '../../geometry/ring.ts';
import type { Turns } from '../../model/facts.ts';

/**
 * A blank as bounds see it: grown by half the gap, from inside, so that nothing here is more than the truth. Two of these
 * never overlap in a layout that keeps the gap, and they lie in boards grown by half the gap all round.
 */
export interface BoundItem {
  /** Items of one shape have one number. */
  readonly shape: number;
  readonly areaMm2: number;
  /** Holes that are left after the gap, not less than they are: area, and the radius of the largest circle in each. */
  readonly holes: readonly { readonly areaMm2: number; readonly inradiusMm: number }[];
  /** Radius of a circle inside it. */
  readonly inradiusMm: number;
  /** Its outline, not more than the truth, with few points. */
  readonly inner: readonly Ring[];
  readonly turns: Turns;
  readonly mayMirror: boolean;
}

/** A kind of board on sale, grown by half the gap all round. */
export interface BoundBoard {
  readonly widthMm: number;
  readonly heightMm: number;
  /** Less what is kept out of. */
  readonly areaMm2: number;
  /** null when the job does not say. */
  readonly price: number | null;
  /** null when as many as are needed can be had. */
  readonly count: number | null;
}

/** Foam that is had already (a saved offcut, the rest of a board begun), grown by half the gap: not less than it is. */
export interface BoundOwned {
  readonly areaMm2: number;
  /** Of its box. */
  readonly widthMm: number;
  readonly heightMm: number;
}

/** One thickness: a packing problem of its own. */
export interface BoundCase {
  readonly items: readonly BoundItem[];
  readonly boards: readonly BoundBoard[];
  readonly owned: readonly BoundOwned[];
}

/** The share of a board that rounding may make of nothing: 3.0000000001 boards are 3. */
const NOISE = 1e-9;

/** The whole number not under a ratio, save for rounding. */
export const ceiling = (ratio: number): number => Math.ceil(ratio - NOISE * Math.max(1, Math.abs(ratio)));

/** Whether something of an area and an inscribed circle may lie in owned foam: no proof to the contrary. */
export const mayLie = ({ areaMm2, inradiusMm }: BoundItem, room: BoundOwned): boolean =>
  areaMm2 <= room.areaMm2 * (1 + NOISE) && 2 * inradiusMm <= Math.min(room.widthMm, room.heightMm) * (1 + NOISE);
