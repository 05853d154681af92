/**
 * One ring with fewer points, moved to one side only or to either, in one pass.
 *
 * From a point on, the line is sought that goes furthest along the ring with every point it passes to its left (that is
 * moving out: what is in is on the left) and none further than the tolerance: each point narrows the directions left
 * (Zhao and Saalfeld 1997 call it a sleeve; theirs is for both sides and ends on points of the line). Such a line lies
 * along what it passes, so where the ring turns away the next line begins at one of two places:
 *
 *      a headland: on the line, where the ring         a bay: on the ring itself,
 *      is a tolerance off it                           at the last point it passes
 *
 *           v ──────── line                            ░░░░░░░░░░░░░░░░░░
 *          ╱ ░░░░░░░░░                                 ░░╲        ╱░░░░░░
 *         ╱ ░░░░░░░░░░                                 ───v──────v───────  line
 *
 * These are the fewest lines that a start allows on curves of one sense (Imai and Iri 1987 for both ends free). Moving
 * in is moving out seen in a mirror. All that decides on which side a point lies is whole numbers and exact (whole.ts).
 * A line runs forward along every edge that it passes, and turns by at most a right angle at a headland: so between the
 * ring and the line there is nothing else of this stretch. Of other stretches and other rings nothing is known here:
 * one-sided.ts looks afterwards.
 */
import { type Box, type Ring, ringArea } from './ring.ts';
import { type Drawn, Edges } from './sleeve/edges.ts';
import { orient } from './whole.ts';

export type Moves = 'out' | 'in' | 'either';

/** Rounding moves a new corner by less than this. */
const ROUNDING = 2;

/** Simplifies rings in whole units, one after another in the same working memory. */
export class Sleeve {
  readonly #tolerance: number;
  readonly #isEither: boolean;
  /** −1 where x is seen in a mirror. */
  readonly #mirror: 1 | -1;
  readonly #box: Box;
  #ring: Ring = new Float64Array(0);
  #pinned: Uint8Array = new Uint8Array(0);
  #count = 0;
  /** Where the pass ends: the number of a point, counted on past the ring's end, and where it stands. */
  #end = 0;
  #endX = 0;
  #endY = 0;
  /** Where the line at hand begins. */
  #x = 0;
  #y = 0;
  /** The directions left to it: from (rx, ry) counter-clockwise to (lx, ly). Moving one way, (lx, ly) ends on a point. */
  #lx = 0;
  #ly = 0;
  #rx = 0;
  #ry = 0;
  /** The last point passed, and the last of them that the line may end on. */
  #passed = 0;
  #seen = 0;
  /** The corner found last. */
  #vx = 0;
  #vy = 0;
  readonly #edges = new Edges();

  /** @param box what no new corner may leave. */
  constructor(tolerance: number, moves: Moves, box: Box) {
    this.#tolerance = Math.max(0, tolerance - ROUNDING);
    this.#isEither = moves === 'either';
    this.#mirror = moves === 'in' ? -1 : 1;
    this.#box = moves === 'in' ? [-box[2], box[1], -box[0], box[3]] : box;
  }

  /**
   * Simplify a ring of three points or more. Edges that are pinned stay as they are, ends and all. Null when it would
   * have no fewer points, less than a ring would be left, or one turned inside out. O(points) as a rule.
   */
  simplify(ring: Ring, pinned: Uint8Array): Drawn | null {
    this.#ring = ring;
    this.#pinned = pinned;
    this.#count = ring.length / 2;
    const held = pinned.indexOf(1);
    this.#beginAt(held + 1);
    let next = held + 2;
    let start = held + 1;
    if (held < 0) {
      // The end of a first line is a better place to begin than any point of the ring.
      this.#line(next);
      start = this.#edges.afterFirst();
      next = start + 1;
      // A headland's corner comes after the point that its edge starts at, and before the next.
      this.#end = this.#count + (this.#edges.beforeFirst() === start ? next : start);
      this.#endX = this.#x;
      this.#endY = this.#y;
      this.#edges.length = 0;
    }
    while (next <= this.#end) next = this.#line(next);
    if (this.#edges.length < 3 || this.#edges.length >= this.#count) return null;
    const drawn = this.#edges.closed(this.#mirror, start);
    return ringArea(drawn.ring) * ringArea(ring) > 0 ? drawn : null;
  }

  #beginAt(point: number): void {
    this.#edges.length = 0;
    const at = 2 * (point % this.#count);
    this.#x = this.#endX = this.#mirror * this.#ring[at];
    this.#y = this.#endY = this.#ring[at + 1];
    this.#end = point + this.#count;
  }

  #pointX(i: number): number {
    return i === this.#end ? this.#endX : this.#mirror * this.#ring[2 * (i % this.#count)];
  }

  #pointY(i: number): number {
    return i === this.#end ? this.#endY : this.#ring[2 * (i % this.#count) + 1];
  }

  /** Draw the line that passes point i first. Returns the point that the next one passes first. */
  #line(i: number): number {
    const pinned = this.#pinned;
    const count = this.#count;
    if (pinned[(i - 1) % count] === 1) return this.#endOn(i);
    if (!this.#start(i)) return i + 1;
    let k = i + 1;
    while (k <= this.#end && pinned[(k - 1) % count] === 0 && this.#take(k)) k++;
    if (this.#seen === this.#passed) return this.#endOn(this.#passed);
    const isHeld = k > this.#end || pinned[(k - 1) % count] === 1;
    if (this.#isEither) return !isHeld && this.#endAlong() ? k : this.#endOn(this.#seen);
    if (isHeld) return this.#endBefore(i) ? k : this.#endOn(this.#seen);
    return this.#endAtHeadland(k) ? k : this.#endOn(this.#seen);
  }

  #draw(x: number, y: number, after: number, before: number): void {
    this.#edges.add(x, y, after, before);
    this.#x = x;
    this.#y = y;
  }

  /** End the line on a point of the ring. */
  #endOn(i: number): number {
    this.#draw(this.#pointX(i), this.#pointY(i), i, i - 1);
    return i + 1;
  }

  /** Which ways lead past the first point; false when the line would begin on it. */
  #start(i: number): boolean {
    const dx = this.#pointX(i) - this.#x;
    const dy = this.#pointY(i) - this.#y;
    if (dx === 0 && dy === 0) return false;
    const off = this.#tolerance;
    const along = Math.sqrt(Math.max(0, dx * dx + dy * dy - off * off));
    this.#rx = dx * along + dy * off;
    this.#ry = dy * along - dx * off;
    this.#lx = this.#isEither ? dx * along - dy * off : dx;
    this.#ly = this.#isEither ? dy * along + dx * off : dy;
    this.#seen = this.#passed = i;
    return true;
  }

  /** Narrow the ways to those that pass point k too; false, and nothing changed, when there are none. */
  #take(k: number): boolean {
    const kx = this.#pointX(k);
    const ky = this.#pointY(k);
    const dx = kx - this.#x;
    const dy = ky - this.#y;
    const ex = kx - this.#pointX(k - 1);
    const ey = ky - this.#pointY(k - 1);
    const off = this.#tolerance;
    let [rx, ry, lx, ly] = [this.#rx, this.#ry, this.#lx, this.#ly];
    const squared = dx * dx + dy * dy - off * off;
    const isFar = squared > 0;
    const along = isFar ? Math.sqrt(squared) : 0;
    if (isFar) {
      const x = dx * along + dy * off;
      const y = dy * along - dx * off;
      if (rx * y - ry * x > 0) [rx, ry] = [x, y];
    }
    let isSeen = false;
    if (this.#isEither) {
      const x = dx * along - dy * off;
      const y = dy * along + dx * off;
      if (isFar && lx * y - ly * x < 0) [lx, ly] = [x, y];
    } else {
      const turn = lx * dy - ly * dx;
      isSeen = turn < 0 || (turn === 0 && lx * dx + ly * dy > 0);
      if (isSeen) [lx, ly] = [dx, dy];
    }
    if (rx * ly - ry * lx < 0) return false;
    // No line runs backward along an edge.
    const isLeftBack = lx * ex + ly * ey < 0;
    const isRightBack = rx * ex + ry * ey < 0;
    if (isLeftBack && (isRightBack || !this.#isEither)) return false;
    if (isLeftBack) [lx, ly] = [-ey, ex];
    if (isRightBack) [rx, ry] = [ey, -ex];
    if (this.#isEither) isSeen = rx * dy - ry * dx >= 0 && dx * ly - dy * lx >= 0;
    this.#rx = rx;
    this.#ry = ry;
    this.#lx = lx;
    this.#ly = ly;
    this.#passed = k;
    if (isSeen) this.#seen = k;
    return true;
  }

  /** End the line on itself, where the ring, on its way to point k, is a tolerance off it. */
  #endAtHeadland(k: number): boolean {
    const lx = this.#lx;
    const ly = this.#ly;
    const squared = lx * lx + ly * ly;
    const px = this.#pointX(k - 1) - this.#x;
    const py = this.#pointY(k - 1) - this.#y;
    const kx = this.#pointX(k) - this.#x;
    const ky = this.#pointY(k) - this.#y;
    const off = lx * py - ly * px;
    const offAfter = lx * ky - ly * kx;
    const most = this.#tolerance * Math.sqrt(squared);
    const share = offAfter > most && offAfter > off ? (most - off) / (offAfter - off) : 0;
    const along = lx * px + ly * py;
    const to = along + Math.max(0, share * (lx * kx + ly * ky - along));
    const isFound = this.#isCornerNear(this.#x + (lx * to) / squared, this.#y + (ly * to) / squared, k - 1, k, true);
    if (isFound) this.#draw(this.#vx, this.#vy, k - 1, k - 1);
    return isFound;
  }

  /** End the line where one that ends on the last point passed, and has all since point i to its left, begins. */
  #endBefore(i: number): boolean {
    const end = this.#passed;
    const x = this.#pointX(end);
    const y = this.#pointY(end);
    let q = end - 1;
    for (let j = end - 2; j >= i; j--) {
      if (orient(this.#pointX(j), this.#pointY(j), x, y, this.#pointX(q), this.#pointY(q)) > 0) q = j;
    }
    const bx = x - this.#pointX(q);
    const by = y - this.#pointY(q);
    const cross = this.#lx * by - this.#ly * bx;
    if (cross <= 0) return false;
    const share = ((x - this.#x) * by - (y - this.#y) * bx) / cross;
    if (!this.#isCornerNear(this.#x + share * this.#lx, this.#y + share * this.#ly, q, end, false)) return false;
    const dx = x - this.#vx;
    const dy = y - this.#vy;
    for (let j = i; j < end; j++) {
      const ex = this.#pointX(j + 1) - this.#pointX(j);
      const ey = this.#pointY(j + 1) - this.#pointY(j);
      if (ex * dx + ey * dy < 0) return false;
    }
    this.#draw(this.#vx, this.#vy, i - 1, end - 1);
    this.#endOn(end);
    return true;
  }

  /** End a line that may pass points on either side half way between the ways left, beside the last point passed. */
  #endAlong(): boolean {
    const left = Math.sqrt(this.#lx * this.#lx + this.#ly * this.#ly);
    const right = Math.sqrt(this.#rx * this.#rx + this.#ry * this.#ry);
    const ux = this.#lx / left + this.#rx / right;
    const uy = this.#ly / left + this.#ry / right;
    const squared = ux * ux + uy * uy;
    const along = ux * (this.#pointX(this.#passed) - this.#x) + uy * (this.#pointY(this.#passed) - this.#y);
    if (!(squared > 0 && along > 0)) return false;
    const x = Math.round(this.#x + (ux * along) / squared);
    const y = Math.round(this.#y + (uy * along) / squared);
    const dx = x - this.#x;
    const dy = y - this.#y;
    const [minX, minY, maxX, maxY] = this.#box;
    if (x < minX || x > maxX || y < minY || y > maxY || dx * ux + dy * uy <= 0) return false;
    if (this.#rx * dy - this.#ry * dx < 0 || dx * this.#ly - dy * this.#lx < 0) return false;
    this.#draw(x, y, this.#passed, this.#passed - 1);
    return true;
  }

  /**
   * Find the whole point nearest to (x, y) at which the line may end so that p and k, and all that it has passed, lie to the
   * left of it and of one that goes on to k.
   */
  #isCornerNear(x: number, y: number, p: number, k: number, isPastP: boolean): boolean {
    const [minX, minY, maxX, maxY] = this.#box;
    const px = this.#pointX(p);
    const py = this.#pointY(p);
    const kx = this.#pointX(k);
    const ky = this.#pointY(k);
    let least = Infinity;
    for (let i = 0; i < 4; i++) {
      const vx = Math.floor(x) + (i & 1);
      const vy = Math.floor(y) + (i >> 1);
      const dx = vx - this.#x;
      const dy = vy - this.#y;
      const far = (vx - x) * (vx - x) + (vy - y) * (vy - y);
      if (far >= least || vx < minX || vx > maxX || vy < minY || vy > maxY) continue;
      // On the line or right of it; not beyond the ways left; past p; right of p–k; turning by a right angle at most.
      if (dx * this.#ly - dy * this.#lx < 0 || dx * this.#lx + dy * this.#ly <= 0) continue;
      if (this.#rx * dy - this.#ry * dx < 0) continue;
      if (isPastP && (vx - px) * dx + (vy - py) * dy < 0) continue;
      if (orient(px, py, kx, ky, vx, vy) > 0 || (kx - vx) * dx + (ky - vy) * dy < 0) continue;
      least = far;
      this.#vx = vx;
      this.#vy = vy;
    }
    return least < Infinity;
  }
}
