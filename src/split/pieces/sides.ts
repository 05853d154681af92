import type { Chord, ChordEnd } from '../../geometry/chord.ts';
import type { Portion } from './portion.ts';
import { type Room, targetsMm } from './room.ts';

/** Judges how many pieces the two sides of a cut will take, by the boards that cover their boxes along the cut. */
export class Sides {
  readonly #portion: Portion;
  readonly #targetsMm: readonly (readonly [long: number, short: number])[];
  readonly #mostMm2: number;

  constructor(portion: Portion, room: Room) {
    this.#portion = portion;
    this.#targetsMm = targetsMm(room);
    this.#mostMm2 = room.mostMm2;
  }

  needs(chords: readonly Chord[]): number {
    const [{ a, b }] = chords;
    const isEar = chords.length === 1 && a.ring === 0 && b.ring === 0;
    return isEar ? this.#alongRing(a, b) : this.#byLine(a, b);
  }

  /** Of one chord between two points of the outline: each side is a stretch of it. */
  #alongRing(a: ChordEnd, b: ChordEnd): number {
    const afterA = (2 * a.edge + 2) % this.#portion.region[0].length;
    const afterB = (2 * b.edge + 2) % this.#portion.region[0].length;
    const one = this.#stretch(a, b, afterA, 2 * b.edge);
    return one + this.#stretch(b, a, afterB, 2 * a.edge);
  }

  #stretch(a: ChordEnd, b: ChordEnd, from: number, to: number): number {
    const ring = this.#portion.region[0];
    const dx = b.x - a.x;
    const dy = b.y - a.y;
    const long = Math.sqrt(dx * dx + dy * dy);
    let [least, most, low, high, twice] = [0, long, 0, 0, 0];
    let [px, py] = [0, 0];
    for (let i = from, k = 0; k < ring.length; i = i + 2 < ring.length ? i + 2 : 0, k += 2) {
      const x = ring[i] - a.x;
      const y = ring[i + 1] - a.y;
      const along = (x * dx + y * dy) / long;
      const across = (y * dx - x * dy) / long;
      if (along < least) least = along;
      if (along > most) most = along;
      if (across < low) low = across;
      if (across > high) high = across;
      twice += px * y - py * x;
      px = x;
      py = y;
      if (i === to) break;
    }
    twice += px * dy - py * dx;
    return this.#cover(most - least, high - low, Math.abs(twice) / 2);
  }

  /** Of a cut round voids: each side is what lies on that side of its line. */
  #byLine(a: ChordEnd, b: ChordEnd): number {
    const { hull, areaMm2 } = this.#portion;
    const dx = b.x - a.x;
    const dy = b.y - a.y;
    const long = Math.sqrt(dx * dx + dy * dy);
    let [left, right, least, most, lowest, highest] = [0, 0, Infinity, -Infinity, Infinity, -Infinity];
    for (let i = 0; i < hull.length; i += 2) {
      const x = hull[i] - a.x;
      const y = hull[i + 1] - a.y;
      const along = (x * dx + y * dy) / long;
      const across = (y * dx - x * dy) / long;
      if (across >= 0) {
        left = Math.max(left, across);
        least = Math.min(least, along);
        most = Math.max(most, along);
      } else {
        right = Math.max(right, -across);
        lowest = Math.min(lowest, along);
        highest = Math.max(highest, along);
      }
    }
    const share = left / (left + right);
    return (
      this.#cover(Math.max(0, most - least), left, share * areaMm2) +
      this.#cover(Math.max(0, highest - lowest), right, (1 - share) * areaMm2)
    );
  }

  #cover(along: number, across: number, area: number): number {
    let needs = Infinity;
    for (const [long, short] of this.#targetsMm) {
      const boards = Math.min(
        Math.ceil(along / long) * Math.ceil(across / short),
        Math.ceil(along / short) * Math.ceil(across / long),
      );
      needs = Math.min(needs, Math.max(1, boards, area / this.#mostMm2));
    }
    return needs;
  }
}
