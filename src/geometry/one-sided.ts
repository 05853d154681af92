/**
 * Outlines with fewer points that have moved to one side only: out, in, or either. Ring by ring (sleeve.ts), and looked
 * over together afterwards.
 *
 * Most lines keep clear of everything: it is cheaper to draw them all and look once at the few edges that are left than
 * to ask for every step what lies near. (Dropping points of bays and closing edges of headlands one by one, each after
 * asking: 2.6 s where this takes 0.1 s, and half as many points again.) What is looked at, exactly:
 * that no two edges meet but corner to corner, that every ring still has what is in on the same side of it, and that the
 * layer lies in the one that it has to lie in, and holds the one that it has to hold. Where an edge does not keep to that,
 * what it stands for is pinned, the ring is drawn again, and all is looked at again. With everything pinned the outlines
 * are what they were, which is known to be sound: so it comes to an end, and every result has been looked at.
 */
import { Chains, EdgeGrid, type Fence } from './edge-grid.ts';
import { type Bottom, bottomOf, crossing, leftOf } from './left-of.ts';
import { meet } from './meetings.ts';
import { type Box, isInside, type Region, type Ring, ringsOf } from './ring.ts';
import type { Drawn } from './sleeve/edges.ts';
import { type Moves, Sleeve } from './sleeve.ts';
import { orient, segmentsMeet } from './whole.ts';

export interface SimplifyOptions {
  /** Furthest that an outline may move, in whole units. */
  readonly tolerance: number;
  readonly moves: Moves;
  /** Edges along its sides stay as they are, and nothing leaves it. */
  readonly border?: Box;
  /** What the regions lie in. Where they stick out of it they do so no further: they move across none of its edges. */
  readonly around?: Fence;
  /** What lies in the regions, on the same terms. */
  readonly within?: Fence;
}

/** Times that what does not keep clear is pinned before all is. */
const MOST_ROUNDS = 30;

const ANYWHERE: Box = [-Infinity, -Infinity, Infinity, Infinity];

/**
 * Simplify regions in whole numbers: simple, touching at single points at most (arrange.ts). The same regions and rings
 * come out in the same order. About O(points); nothing is done when the tolerance is 0.
 */
export function simplify(regions: readonly Region[], options: SimplifyOptions): Region[] {
  if (options.tolerance <= 0) return [...regions];
  const rings = new CheckedRings(regions, options).rings();
  let at = 0;
  return regions.map((region) => region.map(() => rings[at++]));
}

class CheckedRings {
  readonly #options: SimplifyOptions;
  readonly #given: readonly Ring[];
  readonly #border: Box;
  readonly #pinned: Uint8Array[];
  readonly #drawn: (Drawn | null)[];
  /** Of each ring, the number of its region; of the first ring of a region, that it is no hole. */
  readonly #region: number[] = [];
  readonly #isHole: boolean[] = [];
  /** Rings of which something has been pinned since they were drawn. */
  readonly #isDue: Uint8Array;
  #isSound = true;
  #chains: Chains;
  #grid: EdgeGrid;

  constructor(regions: readonly Region[], options: SimplifyOptions) {
    this.#options = options;
    this.#given = ringsOf(regions);
    this.#border = options.border ?? ANYWHERE;
    for (const [i, region] of regions.entries()) {
      for (let ring = 0; ring < region.length; ring++) {
        this.#region.push(i);
        this.#isHole.push(ring > 0);
      }
    }
    this.#pinned = this.#given.map((ring) => alongBorder(ring, this.#border));
    this.#drawn = this.#given.map(() => null);
    this.#isDue = new Uint8Array(this.#given.length).fill(1);
    this.#chains = new Chains([]);
    this.#grid = new EdgeGrid(this.#chains);
  }

  rings(): Ring[] {
    const { tolerance, moves } = this.#options;
    const sleeve = new Sleeve(tolerance, moves, this.#border);
    for (let round = 0; round < MOST_ROUNDS; round++) {
      for (let i = 0; i < this.#given.length; i++) {
        if (this.#isDue[i] === 1) this.#drawn[i] = sleeve.simplify(this.#given[i], this.#pinned[i]);
      }
      this.#isDue.fill(0);
      this.#isSound = true;
      this.#look();
      if (this.#isSound) return this.#rings();
      // What is not sound although nothing is left to pin there is not to be told apart: all goes back.
      if (!this.#isDue.includes(1)) break;
    }
    return [...this.#given];
  }

  #rings(): Ring[] {
    return this.#given.map((ring, i) => this.#drawn[i]?.ring ?? ring);
  }

  #look(): void {
    const { around, within } = this.#options;
    this.#chains = new Chains(this.#rings());
    this.#grid = new EdgeGrid(this.#chains, false);
    this.#lookAtMeetings();
    this.#lookAtSides();
    if (around) {
      this.#lookAround(around);
      this.#lookForSwallowed(around, { chains: this.#chains, grid: this.#grid }, false);
    }
    if (within) {
      this.#lookWithin(within);
      this.#lookForSwallowed({ chains: this.#chains, grid: this.#grid }, within, true);
    }
  }

  /** That no two edges meet. Fills the grid. */
  #lookAtMeetings(): void {
    const { count, x, y, next } = this.#chains;
    const grid = this.#grid;
    for (let p = 0; p < count; p++) {
      const q = next[p];
      const found = grid.near(x[p], y[p], x[q], y[q], 0);
      for (let i = 0; i < found; i++) {
        if (!meet(this.#chains, p, grid.found[i])) continue;
        this.#pin(grid.found[i]);
        this.#pin(p);
      }
      grid.add(p);
    }
  }

  /** That what lies to the left of each ring's beginning is in, and of its region, for a hole; that it is out for others. */
  #lookAtSides(): void {
    const { x, y, ring } = this.#chains;
    const bottom: Bottom = { point: 0, left: 0, right: 0 };
    for (let i = 0; i < this.#given.length; i++) {
      bottomOf(this.#chains, i, bottom);
      const edge = leftOf(this.#chains, this.#grid, i, x[bottom.point], y[bottom.point], bottom.left);
      const isIn = edge >= 0 && goesDown(this.#chains, edge);
      if (this.#isHole[i] ? isIn && this.#region[ring[edge]] === this.#region[i] : !isIn) continue;
      this.#pinAround(this.#chains, i);
    }
  }

  /** That edges which were moved do not pass to the right of those of what they lie in. */
  #lookAround({ chains, grid }: Fence): void {
    for (let p = 0; p < this.#chains.count; p++) {
      if (!this.#isMoved(p)) continue;
      const q = this.#chains.next[p];
      const { x, y } = this.#chains;
      const found = grid.near(x[p], y[p], x[q], y[q], 0);
      for (let i = 0; i < found; i++) {
        const r = grid.found[i];
        if (!passes(this.#chains, p, chains, r)) continue;
        this.#pin(p);
        break;
      }
    }
  }

  /** That edges of what lies within do not pass to the right of edges which were moved. */
  #lookWithin({ chains, grid }: Fence): void {
    for (let p = 0; p < this.#chains.count; p++) {
      if (!this.#isMoved(p)) continue;
      const q = this.#chains.next[p];
      const { x, y } = this.#chains;
      const found = grid.near(x[p], y[p], x[q], y[q], 0);
      for (let i = 0; i < found; i++) {
        if (!passes(chains, grid.found[i], this.#chains, p)) continue;
        this.#pin(p);
        break;
      }
    }
  }

  /**
   * That no ring of what has to lie outside is inside of what has to lie inside, and no outline of that is outside, save
   * where the given regions say so.
   */
  #lookForSwallowed(outside: Edges, inside: Edges, isWithin: boolean): void {
    const bottom: Bottom = { point: 0, left: 0, right: 0 };
    const { x, y, starts } = outside.chains;
    for (let i = 0; i + 1 < starts.length; i++) {
      bottomOf(outside.chains, i, bottom);
      const low = bottom.point;
      // In the hole itself; or just outside an outline.
      const at = isClockwise(outside.chains, low) ? (bottom.left + bottom.right) / 2 : bottom.left;
      const edge = leftOf(inside.chains, inside.grid, -1, x[low], y[low], at);
      if (edge < 0 || !goesDown(inside.chains, edge)) continue;
      const from = x[low] + crossing(inside.chains, edge, x[low], y[low]);
      if (this.#wasIn((from + at) / 2, y[low]) === isWithin) this.#pinAround(outside.chains, i);
    }
    const inner = inside.chains;
    for (let i = 0; i + 1 < inner.starts.length; i++) {
      bottomOf(inner, i, bottom);
      const low = bottom.point;
      if (isClockwise(inner, low)) continue;
      const at = (bottom.left + bottom.right) / 2;
      const edge = leftOf(outside.chains, outside.grid, -1, inner.x[low], inner.y[low], at);
      if (edge >= 0 && goesDown(outside.chains, edge)) continue;
      if (this.#wasIn(at, inner.y[low]) === isWithin) this.#pinAround(inner, i);
    }
  }

  /** Whether a place half a unit above y is in the regions as they were given. */
  #wasIn(x: number, y: number): boolean {
    return isInside(x, y + 0.5, [this.#given]);
  }

  /** Whether an edge is not one of the ring as it was given. */
  #isMoved(p: number): boolean {
    const { x, y, next, ring, starts } = this.#chains;
    const lines = this.#drawn[ring[p]];
    if (!lines) return false;
    const given = this.#given[ring[p]];
    const at = (2 * lines.first[p - starts[ring[p]]]) % given.length;
    const to = (at + 2) % given.length;
    const q = next[p];
    return x[p] !== given[at] || y[p] !== given[at + 1] || x[q] !== given[to] || y[q] !== given[to + 1];
  }

  /** Pin what an edge stands for, and an edge more at either end, so that what was moved beside it goes back as well. */
  #pin(p: number): void {
    this.#isSound = false;
    const ring = this.#chains.ring[p];
    const lines = this.#drawn[ring];
    if (!lines || !this.#isMoved(p)) return;
    const pinned = this.#pinned[ring];
    const at = p - this.#chains.starts[ring];
    const n = pinned.length;
    for (let edge = lines.first[at] - 1; edge <= lines.last[at] + 1; edge++) {
      if (pinned[(edge + n) % n] === 1) continue;
      pinned[(edge + n) % n] = 1;
      this.#isDue[ring] = 1;
    }
  }

  /** Pin all that was moved near a ring, which it has swallowed, and the ring when it is one of these. */
  #pinAround(chains: Chains, ring: number): void {
    this.#isSound = false;
    const { x, y, starts } = chains;
    for (let p = starts[ring]; p < starts[ring + 1]; p++) {
      const found = this.#grid.near(x[p], y[p], x[p], y[p], this.#options.tolerance);
      for (let i = 0; i < found; i++) this.#pin(this.#grid.found[i]);
    }
  }
}

/** Edges and where they are. */
interface Edges {
  readonly chains: Chains;
  readonly grid: EdgeGrid;
}

/** Whether an edge goes down: what lies to the right of it, in plan, is in. */
const goesDown = ({ y, next }: Chains, edge: number): boolean => y[next[edge]] < y[edge];

/** Edges that run along the sides of a box. */
function alongBorder(ring: Ring, [minX, minY, maxX, maxY]: Box): Uint8Array {
  const n = ring.length;
  const isAlong = new Uint8Array(n / 2);
  for (let i = 0; i < n; i += 2) {
    const j = i + 2 < n ? i + 2 : 0;
    if (
      (ring[i] === ring[j] && (ring[i] === minX || ring[i] === maxX)) ||
      (ring[i + 1] === ring[j + 1] && (ring[i + 1] === minY || ring[i + 1] === maxY))
    ) {
      isAlong[i / 2] = 1;
    }
  }
  return isAlong;
}

/** Whether edge p meets edge r of others and comes to lie to the right of it, in whole or in part, or runs against it. */
function passes(of: Chains, p: number, others: Chains, r: number): boolean {
  const q = of.next[p];
  const s = others.next[r];
  const [px, py, qx, qy] = [of.x[p], of.y[p], of.x[q], of.y[q]];
  const [rx, ry, sx, sy] = [others.x[r], others.y[r], others.x[s], others.y[s]];
  const before = orient(rx, ry, sx, sy, px, py);
  const after = orient(rx, ry, sx, sy, qx, qy);
  if (before >= 0 && after >= 0 && (before > 0 || after > 0)) return false;
  if (!segmentsMeet(px, py, qx, qy, rx, ry, sx, sy)) return false;
  return before !== 0 || after !== 0 || (qx - px) * (sx - rx) + (qy - py) * (sy - ry) < 0;
}

/** Whether a ring, of whose points one is the lowest leftmost, runs clockwise. */
function isClockwise({ x, y, next, prev }: Chains, low: number): boolean {
  return orient(x[prev[low]], y[prev[low]], x[low], y[low], x[next[low]], y[next[low]]) < 0;
}
