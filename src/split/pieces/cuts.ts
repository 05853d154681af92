/**
 * Straight cuts through a portion of a layer, and what each is worth.
 *
 * Lines are laid across the portion along the sides of its smallest rectangle and along the axes, at equal steps, at a
 * board's length and width from either end, and a stagger short of those. What a line passes through between leaving one
 * ring and coming back to it divides the portion: one chord across a bay or a point of land, two round a void; the whole
 * line is a cut too. Each chord is also tried turned to the shortest way across. Ends stand on points of the outline.
 *
 * The cost of a cut is a sum of objectives, as in dividing objects too large for a machine (Luo, Baran, Rusinkiewicz,
 * Matusik 2012), in millimetres of seam: pieces still needed, seam length, slivers and sharp ends, and, from brick-laying
 * (a joint over a joint is a fault), the length for which a seam runs along one of the layer above.
 */
import { alongside } from '../../geometry/alongside.ts';
import {
  type Chord,
  type ChordEnd,
  chordsOfLine,
  dividedByChords,
  type Insertion,
  isClearChord,
} from '../../geometry/chord.ts';
import { length, turn } from '../../geometry/exact-math.ts';
import { extents } from '../../geometry/hull.ts';
import { type Region, regionArea, squaredDistanceToSegment } from '../../geometry/ring.ts';
import { type Portion, portionOf } from './portion.ts';
import { type Room, targetsMm } from './room.ts';

/** What the search weighs. */
export interface Wanted {
  readonly room: Room;
  /** Seams of the layer above: x, y of one end, x, y of the other, seam by seam. */
  readonly seamsAbove: readonly number[];
  /** A seam nearer than this to one of the next layer runs over it. */
  readonly staggerMm: number;
  /** Pieces and necks narrower than this are slivers. */
  readonly leastWidthMm: number;
}

/** A cut that has been tried. */
export interface Cut {
  readonly portions: readonly Portion[];
  readonly insertions: readonly Insertion[];
  /** What the cut itself costs, millimetres of seam. */
  readonly cost: number;
  /** With the pieces that it leaves to be divided. */
  readonly total: number;
}

/** One piece more is worth this much seam: about the way round the end of a board (our weight, chosen by trial). */
export const PIECE_MM = 2500;
const SLIVER_MM = 5000;
const SHARP_END_MM = 600;
const RUNS_OVER = 15;
const RUNS_OVER_MM = 2500;
/** In staggers: where seams cross askew they run together for about so long. */
const LET_PASS = 0.33;
/** Ends sharper than this between seam and outline break off: sine of 35°. */
const SHARP_SINE = 0.57;
/** Equal steps across a portion. */
const STEPS = 12;
/** A chord is turned when another is shorter by a tenth. */
const MUCH_SHORTER = 0.81;

/** The best cuts through a portion, at most so many, best first. Empty when no line passes clear. */
export function cutsOf(portion: Portion, wanted: Wanted, most: number): Cut[] {
  const { region } = portion;
  const found = new Map<string, { chords: readonly Chord[]; cost: number }>();
  const consider = (chords: readonly Chord[]) => {
    const key = chords.map(({ a, b }) => `${a.x},${a.y},${b.x},${b.y}`).join(' ');
    if (!found.has(key)) found.set(key, { chords, cost: costOf(region, chords, wanted) });
  };
  const reach = Math.min(wanted.leastWidthMm, wanted.staggerMm) / 2;
  for (const [nx, ny, cs] of linesAcross(portion, wanted)) {
    for (const c of cs) {
      let passages = passagesOf(chordsOfLine(region, nx, ny, c, reach));
      if (passages.length === 0) passages = passagesOf(chordsOfLine(region, nx, ny, c, 0));
      for (const chords of passages) {
        consider(chords);
        consider(chords.map((chord) => shortestNear(region, chord)));
      }
    }
  }
  // Cheapest chords first: once they cost more than the best cuts in all, no later one need be followed.
  const boardMm2 = targetsMm(wanted.room).reduce((most, [long, short]) => Math.max(most, long * short), 0);
  const fewest = Math.max(2, Math.ceil(regionArea(region) / boardMm2));
  const best: Cut[] = [];
  for (const { chords, cost } of [...found.values()].sort((p, q) => p.cost - q.cost)) {
    const limit = best.length === most ? best[most - 1].total : Infinity;
    if (cost + fewest * PIECE_MM >= limit) break;
    const cut = follow(region, chords, cost, limit, wanted);
    if (!cut) continue;
    const place = best.findIndex(({ total }) => cut.total < total);
    best.splice(place < 0 ? best.length : place, 0, cut);
    if (best.length > most) best.pop();
  }
  return best;
}

/** Lines to try: normal, and distances along it. */
function* linesAcross(portion: Portion, { room, staggerMm, leastWidthMm }: Wanted) {
  const directions = [portion.directionDeg, portion.directionDeg + 90, 0, 90].map((deg) => deg % 180);
  const sides = [...new Set(targetsMm(room).flat())];
  for (const [i, direction] of directions.entries()) {
    // Sketches often lie square: nothing is to be tried twice.
    if (directions.slice(0, i).some((other) => Math.abs(((other - direction + 270) % 180) - 90) < 1)) continue;
    const { cos, sin } = turn(direction);
    const [least, most] = extents(portion.hull, cos, sin);
    const span = most - least;
    const steps: number[] = [];
    // What fits is to be halved, more or less.
    const [from, to] = portion.fits ? [3, STEPS - 3] : [1, STEPS - 1];
    for (let k = from; k <= to; k++) steps.push((span * k) / STEPS);
    for (const side of sides) {
      if (side >= span) continue;
      const equal = span / Math.ceil(span / side);
      for (const back of [0, 1.25 * staggerMm, 2.5 * staggerMm]) {
        steps.push(side - back, span - side + back, equal - back, span - equal + back);
      }
    }
    const kept = steps.filter((step) => step > leastWidthMm && step < span - leastWidthMm);
    const clear = kept.length > 0 ? kept : [span / 2];
    yield [cos, sin, clear.map((step) => least + step)] as const;
  }
}

/**
 * Of the chords in which a line passes through a portion: each run that leaves a ring and comes back to it, which divides
 * the portion, and all together.
 */
function passagesOf(chords: readonly (Chord | null)[]): (readonly Chord[])[] {
  const passages: (readonly Chord[])[] = [];
  for (let i = 0; i < chords.length; i++) {
    const run: Chord[] = [];
    for (let j = i; j < chords.length; j++) {
      const chord = chords[j];
      if (chord === null) break;
      run.push(chord);
      if (chord.b.ring !== run[0].a.ring) continue;
      passages.push(run);
      break;
    }
  }
  if (passages.length > 1 && chords.every((chord) => chord !== null)) passages.push(chords);
  return passages;
}

/** A chord from the same start to the point of the other side that is nearest to it, where that is much shorter. */
function shortestNear(region: Region, chord: Chord): Chord {
  const { a, b } = chord;
  const ring = region[b.ring];
  const dx = b.x - a.x;
  const dy = b.y - a.y;
  let least = MUCH_SHORTER * (dx * dx + dy * dy);
  let nearest = -1;
  for (let i = 0; i < ring.length; i += 2) {
    const ex = ring[i] - a.x;
    const ey = ring[i + 1] - a.y;
    const here = ex * ex + ey * ey;
    // Round a corner the nearest point is next to the start: only what lies across counts.
    if (here >= least || ex * dx + ey * dy < here / 2) continue;
    least = here;
    nearest = i;
  }
  if (nearest < 0) return chord;
  const end: ChordEnd = { x: ring[nearest], y: ring[nearest + 1], ring: b.ring, edge: nearest / 2, isNew: false };
  const shorter = { a, b: end };
  return isClearChord(region, shorter) ? shorter : chord;
}

/** What a cut costs by its chords alone. */
function costOf(region: Region, chords: readonly Chord[], wanted: Wanted): number {
  let cost = 0;
  for (const { a, b } of chords) {
    const long = length(b.x - a.x, b.y - a.y);
    const over = alongside(a.x, a.y, b.x, b.y, wanted.seamsAbove, wanted.staggerMm).length;
    cost += long + RUNS_OVER * over + (over > wanted.staggerMm * LET_PASS ? RUNS_OVER_MM : 0);
    cost += SHARP_END_MM * (sharpness(region, a, b, long) + sharpness(region, b, a, long));
    if (leavesNeck(region, a, b, long, wanted.leastWidthMm)) cost += SLIVER_MM;
  }
  return cost;
}

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

/** Follow a cut to the areas that it makes; null when it makes none, or when it will cost the limit or more. */
function follow(
  region: Region,
  chords: readonly Chord[],
  chordCost: number,
  limit: number,
  { room, leastWidthMm }: Wanted,
): Cut | null {
  const divided = dividedByChords(region, chords);
  if (!divided || divided.regions.length < 2) return null;
  const portions: Portion[] = [];
  let cost = chordCost;
  let needs = divided.regions.length;
  for (const each of divided.regions) {
    if (cost + PIECE_MM * needs >= limit) return null;
    const portion = portionOf(each, room);
    portions.push(portion);
    needs += portion.needs - 1;
    if (portion.widthMm < leastWidthMm) cost += SLIVER_MM;
  }
  return { portions, insertions: divided.insertions, cost, total: cost + PIECE_MM * needs };
}
