/**
 * Parallel cuts through a large portion, all at once: the courses of a wall, laid across it in the direction and at the
 * distances that promise least.
 *
 * Cutting in stages of parallel cuts is how glass and boards are cut (Gilmore, Gomory 1965); the places of one stage that cost
 * least together are found by dynamic programming over places at equal steps (Beasley 1985). What a strip between two places
 * costs is told by the stretches in which the lines between them run through the portion (geometry/scan-lines.ts), so that a
 * direction takes O(points + lines × lines in a board) however many pieces there are. Following single chords to
 * the end, cut by cut, took 26 to 103 s for 200 layers of 10 m × 10 m.
 */

import { type Chord, chordsOfLine, type Divided, dividedByChords, onGrid } from '../../geometry/chord.ts';
import { directionDeg, turn } from '../../geometry/exact-math.ts';
import { extents } from '../../geometry/hull.ts';
import type { Insertion } from '../../geometry/insertions.ts';
import { type Region, type Ring, ringsOf } from '../../geometry/ring.ts';
import { commonLength, type Lines, type Scan, scanOf } from '../../geometry/scan-lines.ts';
import { lineCost, nearCost, overCost, ownCost, pieceMm, sliverMm, sliversMm, type Wanted } from './cut-cost.ts';
import { type Cut, SPARE_MM, TO_CORNER_MM } from './cuts.ts';
import { FEW, type Portion, portionOf } from './portion.ts';
import { targetsMm } from './room.ts';

/** Directions besides those of the portion's smallest rectangle and of its longest side, where it takes more pieces than a few. */
const DIRECTIONS_DEG = [0, 90, 45, 135, 22.5, 67.5, 112.5, 157.5];
/** Places for a line in the width of a board; fewer where the portion takes more lines than this. */
const PLACES = 16;
const MOST_LINES = 480;
/** What takes more lines than this at a board's width each is left to single cuts. */
const TOO_MANY_LINES = 8 * MOST_LINES;
/** Told from lines at steps, a piece is surely as wide as asked when it seems wider by so much. */
const SURELY = 1.25;
/** Where a line meets the outline at a point of it, it is moved by this share of a step. */
const ASIDE = [0, 0.2, -0.2];

/** A stage of parallel cuts that promises something. */
interface Stage {
  readonly lines: Lines;
  /** Numbers of the lines that are cut, rising. */
  readonly cut: readonly number[];
  /** What it will cost with all that comes after it, about. */
  readonly promise: number;
}

/** The best stages of parallel cuts through a portion, at most so many, each in another direction, the best first. */
export function parallelCutsOf(portion: Portion, wanted: Wanted, most: number): Cut[] {
  const stages: Stage[] = [];
  const tried: number[] = [];
  const sideDeg = longestSideDeg(portion.region[0]);
  const own = [sideDeg, sideDeg + 90, portion.directionDeg, portion.directionDeg + 90];
  for (const each of portion.needs > FEW ? [...own, ...DIRECTIONS_DEG] : own) {
    const deg = ((each % 180) + 180) % 180;
    if (tried.some((other) => Math.abs(((other - deg + 270) % 180) - 90) < 5)) continue;
    tried.push(deg);
    const stage = stageAcross(portion, wanted, deg);
    if (stage) stages.push(stage);
  }
  stages.sort((a, b) => a.promise - b.promise);
  const cuts: Cut[] = [];
  for (const stage of stages) {
    const cut = cutBy(portion.region, stage, wanted);
    if (cut) cuts.push(cut);
    if (cuts.length === most) break;
  }
  return cuts;
}

/** Direction of the longest edge of an outline: of strips that were cut before, that of the cut. */
function longestSideDeg(ring: Ring): number {
  let [longest, dx, dy] = [0, 1, 0];
  for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
    const [ex, ey] = [ring[i] - ring[j], ring[i + 1] - ring[j + 1]];
    if (ex * ex + ey * ey <= longest) continue;
    [longest, dx, dy] = [ex * ex + ey * ey, ex, ey];
  }
  return directionDeg(dx, dy);
}

/** The best places for lines with a normal in some direction; null when no line is worth while. */
function stageAcross(portion: Portion, wanted: Wanted, deg: number): Stage | null {
  const { cos, sin } = turn(deg);
  const [least, most] = extents(portion.hull, cos, sin);
  const targets = targetsMm(wanted.room).map(([long, short]) => [long - SPARE_MM, short - SPARE_MM] as const);
  const [long, short] = targets[0];
  const steps = Math.max(1, Math.min(PLACES, Math.floor((MOST_LINES * short) / (most - least))));
  const step = short / steps;
  const count = Math.ceil((most - least) / step) + 1;
  // As far beyond one side as beyond the other, so that ground turned round is divided alike.
  const from = (least + most - (count - 1) * step) / 2;
  if (count > TOO_MANY_LINES || !(short > 0)) return null;
  const lines: Lines = { nx: cos, ny: sin, from, step, count };
  const scan = scanOf(portion.region, lines);
  const costs = lineCosts(scan, lines, wanted);
  const reach = Math.floor(Math.max(long, short) / step);
  const total = new Float64Array(count).fill(Infinity);
  const before = new Int32Array(count).fill(-1);
  total[0] = 0;
  const strip = new Strip(scan, wanted, step, targets);
  for (let i = 0; i + 1 < count; i++) {
    if (total[i] === Infinity) continue;
    strip.startAt(i);
    for (let j = i + 1; j < count && j - i <= reach; j++) {
      // Some line is to be cut: not to cut is never all that a portion takes.
      const isWhole = i === 0 && j === count - 1;
      const cost = total[i] + strip.widenTo(j) + (j + 1 < count ? costs[j] : isWhole ? Infinity : 0);
      if (cost < total[j]) {
        total[j] = cost;
        before[j] = i;
      }
    }
  }
  const cut: number[] = [];
  for (let k = before[count - 1]; k > 0; k = before[k]) cut.unshift(k);
  return cut.length > 0 ? { lines, cut, promise: total[count - 1] } : null;
}

/** What each line costs as a seam, by itself and by running along seams near it. */
function lineCosts(scan: Scan, lines: Lines, wanted: Wanted): Float64Array {
  const { nx, ny, from, step, count } = lines;
  const covered = wanted.covered && scanOf(ringsOf(wanted.covered), lines);
  const seen = wanted.seen && scanOf(ringsOf(wanted.seen), lines);
  const costs = new Float64Array(count);
  for (let k = 0; k < count; k++) {
    const c = from + k * step;
    let longMm = 0;
    let near = 0;
    for (let i = scan.starts[k]; i < scan.starts[k + 1]; i += 2) {
      const [a, b] = [scan.along[i], scan.along[i + 1]];
      longMm += b - a;
      if (wanted.seamsNear.length > 0) {
        near += overCost(nx * c - ny * a, ny * c + nx * a, nx * c - ny * b, ny * c + nx * b, wanted.seamsNear, wanted);
      }
    }
    const coveredMm = covered ? commonLength(scan, covered, k) : longMm;
    const seenMm = seen ? commonLength(scan, seen, k) : 0;
    costs[k] =
      near + lineCost(longMm, coveredMm, seenMm, scan.sines.subarray(scan.starts[k], scan.starts[k + 1]), wanted);
  }
  return costs;
}

/** A strip that grows from line to line, and what its pieces and the cuts between them cost, about. */
class Strip {
  readonly #scan: Scan;
  readonly #step: number;
  readonly #targets: readonly (readonly [long: number, short: number])[];
  readonly #leastMm: number;
  readonly #piece: number;
  readonly #sliver: number;
  /** Stretches of the strip, apart from one another: from, to and area of each. */
  readonly #stretches: Float64Array;
  #end = 0;
  #first = 0;

  constructor(scan: Scan, wanted: Wanted, step: number, targets: readonly (readonly [number, number])[]) {
    this.#scan = scan;
    this.#step = step;
    this.#targets = targets;
    this.#leastMm = SURELY * wanted.leastWidthMm;
    this.#piece = pieceMm(wanted);
    this.#sliver = sliverMm(0, wanted);
    // No more stretches than a strip's lines have together.
    this.#stretches = new Float64Array(1.5 * scan.along.length);
  }

  startAt(line: number): void {
    this.#end = 0;
    this.#first = line;
    this.#take(line);
  }

  /** @param line the next after the last. */
  widenTo(line: number): number {
    this.#take(line);
    const widthMm = (line - this.#first) * this.#step;
    const stretches = this.#stretches;
    let cost = 0;
    for (let s = 0; s < this.#end; s += 3) {
      const longMm = stretches[s + 1] - stretches[s];
      let pieces = Infinity;
      for (let t = 0; t < this.#targets.length; t++) {
        const [long, short] = this.#targets[t];
        if (widthMm <= short) pieces = Math.min(pieces, Math.ceil(longMm / long));
        if (widthMm <= long) pieces = Math.min(pieces, Math.ceil(longMm / short));
      }
      const acrossMm = Math.min(widthMm, stretches[s + 2] / longMm);
      cost += this.#piece * pieces + (pieces - 1) * acrossMm;
      if (Math.min(acrossMm, longMm) < this.#leastMm) cost += this.#sliver;
    }
    return cost;
  }

  /** Take in where another line runs: what it meets becomes one stretch with it. */
  #take(line: number): void {
    const { starts, along } = this.#scan;
    const stretches = this.#stretches;
    for (let i = starts[line]; i < starts[line + 1]; i += 2) {
      let from = along[i];
      let to = along[i + 1];
      let area = (to - from) * this.#step;
      let kept = 0;
      for (let s = 0; s < this.#end; s += 3) {
        if (stretches[s] > to || stretches[s + 1] < from) {
          if (kept < s) stretches.copyWithin(kept, s, s + 3);
          kept += 3;
          continue;
        }
        from = Math.min(from, stretches[s]);
        to = Math.max(to, stretches[s + 1]);
        area += stretches[s + 2];
      }
      stretches[kept] = from;
      stretches[kept + 1] = to;
      stretches[kept + 2] = area;
      this.#end = kept + 3;
    }
  }
}

/** A portion cut by the lines of a stage, where they pass clear; null when none does. */
function cutBy(region: Region, { lines: { nx, ny, from, step }, cut, promise }: Stage, wanted: Wanted): Cut | null {
  let regions: readonly Region[] = [region];
  const chords: Chord[] = [];
  const insertions: Insertion[] = [];
  let cost = 0;
  for (const k of cut) {
    regions = regions.flatMap((each): readonly Region[] => {
      for (const aside of ASIDE) {
        const c = from + (k + aside) * step;
        const across = chordsOfLine(each, nx, ny, c, TO_CORNER_MM);
        if (across.length === 0) return [each];
        const there = across.map((chord) => chord && onGrid(each, chord));
        if (there.some((chord) => chord === null)) continue;
        const divided = withoutChips(each, there as Chord[], wanted);
        if (!divided) continue;
        cost += ownCost(each, divided.chords, wanted);
        chords.push(...divided.chords);
        insertions.push(...divided.insertions);
        return divided.regions;
      }
      return [each];
    });
  }
  if (regions.length < 2) return null;
  const portions = regions.map((each) => portionOf(each, wanted.room));
  return {
    portions,
    chords,
    insertions,
    cost: cost + sliversMm(portions, wanted),
    near: nearCost(chords, wanted),
    total: promise,
  };
}

/** What a line divides, with those of its chords that do it. */
interface Across extends Divided {
  readonly chords: readonly Chord[];
}

/** A region divided by the chords of a line less those that only cut off a sliver; null when they do not divide it. */
function withoutChips(region: Region, chords: readonly Chord[], wanted: Wanted): Across | null {
  let kept = chords;
  let across = acrossBy(region, kept);
  // The only chord stays whatever it leaves.
  let chips = chords.length === 1 ? 0 : chipsOf(across, wanted);
  for (const chord of chords) {
    if (chips === 0 || kept.length === 1) break;
    const fewer = kept.filter((other) => other !== chord);
    const other = acrossBy(region, fewer);
    const left = chipsOf(other, wanted);
    if (left < chips) [kept, across, chips] = [fewer, other, left];
  }
  return across;
}

function acrossBy(region: Region, chords: readonly Chord[]): Across | null {
  const divided = dividedByChords(region, chords);
  return divided && divided.regions.length >= 2 ? { ...divided, chords } : null;
}

/** How many slivers a line leaves; Infinity when it does not divide. */
const chipsOf = (across: Across | null, { room, leastWidthMm }: Wanted): number =>
  across ? across.regions.filter((each) => portionOf(each, room).widthMm < leastWidthMm).length : Infinity;
