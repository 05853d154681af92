/**
 * What seams cost: the objective that a division of a stack makes small.
 *
 * A sum of objectives, as in dividing objects too large for a machine (Luo, Baran, Rusinkiewicz, Matusik 2012), all told as a
 * length of seam so that they can be weighed against one another. With B the long side of the largest piece that may be cut:
 *
 *   each piece                                                 PIECE        1 B
 *   each millimetre of seam                                                 1
 *     of it where no layer lies on it (summits and flats)      UNCOVERED  + 0.5
 *     of it in a zone that is looked at closely                SEEN       + 6
 *     of it along a seam of the next layer, nearer than the
 *     stagger: from brick-laying, a joint over a joint         RUNS_OVER  + 15, and 1 B once for each seam
 *   each corner between seam and outline under 35°             SHARP_END    0.25 B
 *   each neck that a seam leaves between it and the outline     NECK         2 B
 *   each piece narrower than the least width (portion.ts)       SLIVER      40 B
 *
 * The weights are ours, found by trial: a joint over a joint is worth a piece, for it is the fault that the trade calls by that
 * name. A sliver is worth a stack: it is left only where the foam is so narrow by itself. Whatever a division may cost, a piece always fits its board and may be carried.
 */
import { alongside } from '../../geometry/alongside.ts';
import type { Chord, ChordEnd } from '../../geometry/chord.ts';
import { length } from '../../geometry/exact-math.ts';
import { lengthInside } from '../../geometry/length-inside.ts';
import { type Region, squaredDistanceToSegment } from '../../geometry/ring.ts';
import { LET_PASS } from '../../model/seam.ts';
import { type Room, targetsMm } from './room.ts';

/** What the search weighs. */
export interface Wanted {
  readonly room: Room;
  /** Seams of the layers above and beneath, as far as they are known: x, y of one end, x, y of the other, seam by seam. */
  readonly seamsNear: readonly number[];
  /** A seam nearer than this to one of a next layer runs over it. */
  readonly staggerMm: number;
  /** Pieces and necks narrower than this are slivers. */
  readonly leastWidthMm: number;
  /** Where the foam is looked at closely; not said, nowhere. */
  readonly seen?: readonly Region[];
  /** Where the layer above lies: nobody sees seams there; not said, everywhere. */
  readonly covered?: readonly Region[];
}

const UNCOVERED = 0.5;
const SEEN = 6;
const RUNS_OVER = 15;
const NECK = 2;
const SLIVER = 40;
const SHARP_END = 0.25;
/** Ends sharper than this between seam and outline break off: sine of 35°. */
const SHARP_SINE = 0.57;

/** What one piece costs. */
export const pieceMm = ({ room }: Wanted): number => targetsMm(room)[0][0];

/** What a piece costs beyond that by its width. */
export const sliverMm = (widthMm: number, wanted: Wanted): number =>
  widthMm < wanted.leastWidthMm ? SLIVER * pieceMm(wanted) : 0;

/** The same of all that a cut leaves. */
export const sliversMm = (portions: readonly { readonly widthMm: number }[], wanted: Wanted): number =>
  portions.reduce((sum, { widthMm }) => sum + sliverMm(widthMm, wanted), 0);

/** What chords cost by themselves, without those near them. */
export function ownCost(region: Region, chords: readonly Chord[], wanted: Wanted): number {
  const board = pieceMm(wanted);
  const { covered, seen } = wanted;
  let cost = 0;
  for (const { a, b } of chords) {
    const long = length(b.x - a.x, b.y - a.y);
    cost += long;
    if (covered) cost += UNCOVERED * (long - lengthInside(a.x, a.y, b.x, b.y, covered));
    if (seen) cost += SEEN * lengthInside(a.x, a.y, b.x, b.y, seen);
    cost += SHARP_END * board * (sharpness(region, a, b, long) + sharpness(region, b, a, long));
    if (leavesNeck(region, a, b, long, wanted.leastWidthMm)) cost += NECK * board;
  }
  return cost;
}

/** About what the chords of a line cost by themselves, told from its lengths in all, under the next layer, and where it is looked at closely. */
export function lineCost(
  longMm: number,
  coveredMm: number,
  seenMm: number,
  sines: ArrayLike<number>,
  wanted: Wanted,
): number {
  let sharp = 0;
  for (let i = 0; i < sines.length; i++) if (sines[i] < SHARP_SINE) sharp++;
  return longMm + UNCOVERED * (longMm - coveredMm) + SEEN * seenMm + SHARP_END * pieceMm(wanted) * sharp;
}

/** What a straight seam costs by running along others. */
export function overCost(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  others: readonly number[],
  wanted: Pick<Wanted, 'staggerMm' | 'room'>,
): number {
  const { staggerMm, room } = wanted;
  const over = alongside(ax, ay, bx, by, others, staggerMm).length;
  return RUNS_OVER * over + (over > staggerMm * LET_PASS ? targetsMm(room)[0][0] : 0);
}

/** What chords cost by running along the seams near them. */
export const nearCost = (chords: readonly Chord[], wanted: Wanted): number =>
  chords.reduce((sum, { a, b }) => sum + overCost(a.x, a.y, b.x, b.y, wanted.seamsNear, wanted), 0);

/** How many of the two corners beside a chord's end are sharp. */
function sharpness(region: Region, end: ChordEnd, other: ChordEnd, long: number): number {
  const ring = region[end.ring];
  const at = 2 * end.edge;
  const ahead = (at + 2) % ring.length;
  const behind = end.isNew ? at : (at - 2 + ring.length) % ring.length;
  const isSharp = (x: number, y: number) => {
    const edge = length(x - end.x, y - end.y);
    const cross = (x - end.x) * (other.y - end.y) - (y - end.y) * (other.x - end.x);
    const dot = (x - end.x) * (other.x - end.x) + (y - end.y) * (other.y - end.y);
    return dot > 0 && Math.abs(cross) < SHARP_SINE * edge * long;
  };
  return (isSharp(ring[ahead], ring[ahead + 1]) ? 1 : 0) + (isSharp(ring[behind], ring[behind + 1]) ? 1 : 0);
}

/** Whether some point of the outline comes near the chord, away from the chord's ends. */
function leavesNeck(region: Region, a: ChordEnd, b: ChordEnd, long: number, leastWidthMm: number): boolean {
  const near = leastWidthMm * leastWidthMm;
  for (const ring of region) {
    for (let i = 0; i < ring.length; i += 2) {
      const x = ring[i];
      const y = ring[i + 1];
      if (squaredDistanceToSegment(x, y, a.x, a.y, b.x, b.y) >= near) continue;
      const along = ((x - a.x) * (b.x - a.x) + (y - a.y) * (b.y - a.y)) / long;
      if (along > leastWidthMm && along < long - leastWidthMm) return true;
    }
  }
  return false;
}
