/**
 * Single straight cuts through a portion of a layer, and what each is worth (cut-cost.ts): for what no parallel cuts divide
 * (parallel.ts), and for pieces that are wished to be divided once more.
 *
 * Lines are laid across the portion along the sides of its smallest rectangle and along the axes, at equal steps, at a
 * board's length and width from either end, and a stagger short of those. What a line passes through between leaving one
 * ring and coming back to it divides the portion: one chord across a bay or a point of land, two round a void; the whole
 * line is a cut too. Each chord is also tried turned to the shortest way across. Ends stand on points of the outline.
 *
 * Following every cut to the areas that it makes took nine tenths of the time: cuts are first ranked by what their chords cost
 * and by the boards that cover both sides, and the best few are followed.
 */

import {
  type Chord,
  type ChordEnd,
  chordsOfLine,
  dividedByChords,
  isClearChord,
  onGrid,
} from '../../geometry/chord.ts';
import { length, turn } from '../../geometry/exact-math.ts';
import { extents } from '../../geometry/hull.ts';
import type { Insertion } from '../../geometry/insertions.ts';
import type { Region } from '../../geometry/ring.ts';
import { nearCost, ownCost, pieceMm, sliverMm, sliversMm, type Wanted } from './cut-cost.ts';
import { type Portion, portionOf } from './portion.ts';
import { targetsMm } from './room.ts';
import { Sides } from './sides.ts';

/** A cut that has been tried. */
export interface Cut {
  readonly portions: readonly Portion[];
  readonly chords: readonly Chord[];
  readonly insertions: readonly Insertion[];
  /** What the cut itself costs, without the seams near it. */
  readonly cost: number;
  /** What it costs by running along those. */
  readonly near: number;
  /** With both, and with the pieces that it leaves to be divided. */
  readonly total: number;
}

/** Ends are put on a corner of the outline so near; so much narrower than a board are strips left. */
export const TO_CORNER_MM = 2;
export const SPARE_MM = 2 * TO_CORNER_MM + 1;
/** Equal steps across a portion. */
const STEPS = 12;
/** A chord is turned when another is shorter by a tenth. */
const MUCH_SHORTER = 0.81;
/** So many cuts are followed for each that is asked for, and so many more. */
const FOLLOWED = 3;
const FOLLOWED_MORE = 3;

/** The best cuts through a portion, at most so many, best first. Empty when no line passes clear. */
export function cutsOf(portion: Portion, wanted: Wanted, most: number): Cut[] {
  const best = bestOf(portion, wanted, most, FOLLOWED * most + FOLLOWED_MORE);
  // What promises most may be none, where two chords end on one point.
  return best.length > 0 ? best : bestOf(portion, wanted, most, Infinity);
}

function bestOf(portion: Portion, wanted: Wanted, most: number, followed: number): Cut[] {
  const { region } = portion;
  const shortlist = new Shortlist(portion, wanted, followed);
  for (const [nx, ny, cs] of linesAcross(portion, wanted)) {
    for (const c of cs) {
      for (const chords of passagesOf(chordsOfLine(region, nx, ny, c, TO_CORNER_MM))) {
        shortlist.consider(chords);
        const turned = chords.map((chord) => shortestNear(region, chord));
        if (turned.some((chord, i) => chord !== chords[i])) shortlist.consider(turned);
      }
    }
  }
  const best: Cut[] = [];
  for (const { chords, cost } of shortlist.inOrder) {
    const limit = best.length === most ? best[most - 1].total : Infinity;
    const cut = follow(region, chords, cost, limit, wanted);
    if (!cut) continue;
    const place = best.findIndex(({ total }) => cut.total < total);
    best.splice(place < 0 ? best.length : place, 0, cut);
    if (best.length > most) best.pop();
  }
  return best.flatMap((cut) => settled(region, cut, wanted) ?? []);
}

interface Ranked {
  readonly chords: readonly Chord[];
  /** What they cost, with the seams near them. */
  readonly cost: number;
  /** With the pieces that both sides will take, about. */
  readonly rank: number;
}

/** The cuts that promise least of all that are considered. */
class Shortlist {
  readonly inOrder: Ranked[] = [];
  readonly #region: Region;
  readonly #wanted: Wanted;
  readonly #most: number;
  readonly #sides: Sides;

  constructor(portion: Portion, wanted: Wanted, most: number) {
    this.#region = portion.region;
    this.#wanted = wanted;
    this.#most = most;
    this.#sides = new Sides(portion, wanted.room);
  }

  consider(chords: readonly Chord[]): void {
    const list = this.inOrder;
    const limit = list.length < this.#most ? Infinity : list[list.length - 1].rank;
    const pieces = pieceMm(this.#wanted) * this.#sides.needs(chords);
    let long = 0;
    for (const { a, b } of chords) long += length(b.x - a.x, b.y - a.y);
    // Seams cost no less than they are long: most cuts need no closer look.
    if (pieces + long >= limit) return;
    const cost = ownCost(this.#region, chords, this.#wanted) + nearCost(chords, this.#wanted);
    const rank = cost + pieces;
    if (rank >= limit || list.some((other) => isSame(other.chords, chords))) return;
    const place = list.findIndex((other) => rank < other.rank);
    list.splice(place < 0 ? list.length : place, 0, { chords, cost, rank });
    if (list.length > this.#most) list.pop();
  }
}

const isSame = (p: readonly Chord[], q: readonly Chord[]): boolean =>
  p.length === q.length &&
  p.every(({ a, b }, i) => a.x === q[i].a.x && a.y === q[i].a.y && b.x === q[i].b.x && b.y === q[i].b.y);

/** Lines to try: normal, and distances along it. */
function* linesAcross(portion: Portion, { room, staggerMm, leastWidthMm }: Wanted) {
  const directions = [portion.directionDeg, portion.directionDeg + 90, 0, 90].map((deg) => deg % 180);
  const sides = [...new Set(targetsMm(room).flat())].map((side) => side - SPARE_MM);
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

/** The chord from either end to the point of the other side that is nearest to it, where that is much shorter: the shortest. */
function shortestNear(region: Region, chord: Chord): Chord {
  const { a, b } = chord;
  const square = (a.x - b.x) * (a.x - b.x) + (a.y - b.y) * (a.y - b.y);
  const fromA = nearestAcross(region, a, b, MUCH_SHORTER * square);
  const fromB = nearestAcross(region, b, a, fromA ? fromA.squared : MUCH_SHORTER * square);
  const shorter = fromB ? { a: fromB.end, b } : fromA ? { a, b: fromA.end } : chord;
  return shorter === chord || isClearChord(region, shorter) ? shorter : chord;
}

/** The corner of the ring on which a chord from `a` ends that is nearest to `a`; null when none is nearer than asked. */
function nearestAcross(region: Region, a: ChordEnd, b: ChordEnd, under: number) {
  const ring = region[b.ring];
  const dx = b.x - a.x;
  const dy = b.y - a.y;
  let least = under;
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
  if (nearest < 0) return null;
  const end: ChordEnd = { x: ring[nearest], y: ring[nearest + 1], ring: b.ring, edge: nearest / 2, isNew: false };
  return { end, squared: least };
}

/** Follow a cut to the areas that it makes; null when it makes none, or when it will cost the limit or more. */
function follow(
  region: Region,
  chords: readonly Chord[],
  chordCost: number,
  limit: number,
  wanted: Wanted,
): Cut | null {
  const divided = dividedByChords(region, chords);
  if (!divided || divided.regions.length < 2) return null;
  const portions: Portion[] = [];
  let total = chordCost + pieceMm(wanted) * divided.regions.length;
  for (const each of divided.regions) {
    if (total >= limit) return null;
    const portion = portionOf(each, wanted.room);
    portions.push(portion);
    total += sliverMm(portion.widthMm, wanted) + pieceMm(wanted) * (portion.needs - 1);
  }
  return total < limit ? { portions, chords, insertions: divided.insertions, cost: 0, near: 0, total } : null;
}

/** A cut with its ends on the grid; null when it is not clear there. */
function settled(region: Region, { chords: raw, total }: Cut, wanted: Wanted): Cut | null {
  const chords: Chord[] = [];
  for (const chord of raw) {
    const there = onGrid(region, chord);
    if (!there) return null;
    chords.push(there);
  }
  const divided = dividedByChords(region, chords);
  if (!divided || divided.regions.length < 2) return null;
  const portions = divided.regions.map((each) => portionOf(each, wanted.room));
  const cost = ownCost(region, chords, wanted) + sliversMm(portions, wanted);
  return { portions, chords, insertions: divided.insertions, cost, near: nearCost(chords, wanted), total };
}
