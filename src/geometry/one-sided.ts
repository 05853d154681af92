/**
 * Outlines with fewer points that have moved to one side only: out, in, or either.
 *
 * Dropping points, however chosen (Imai and Iri 1988; Douglas and Peucker 1973), cuts the corners of a hill and fills
 * those of a bay: it moves both ways. To move one way only, two steps are wanted, each the other's dual:
 *
 *      drop a point of a bay                 close an edge of a headland
 *
 *      a ─────────── b    new edge                     p         new corner, where the edges
 *       ╲  added    ╱                                ╱   ╲       beside b–c meet when they are
 *         ╲       ╱                                b ───── c     drawn out; b and c go
 *           ╲ v ╱                                ╱           ╲
 *      ░░░░░░░░░░░░░░░ what is in              a ░░░░░░░░░░░░░ d
 *
 * (the second is the segment collapse of Kronenfeld and others 2020, with the corner put so that nothing is lost in
 * place of so that the area is kept). Both only add; run on what is out, they only take away. Steps that cost little
 * come first, after Visvalingam and Whyatt 1993, in a few rounds of rising limits instead of a queue.
 *
 * What an edge has moved is bounded by adding up: a step costs what it moves plus what had been moved there before. On a
 * smooth curve, whose steps grow fourfold, the bound is a third above the truth.
 *
 * All is whole numbers and exact (whole.ts), so that three things hold to the last unit, without clipping afterwards:
 * outlines stay simple and nested as they were; what is added or taken never passes an edge of the fences, so that what
 * lay inside a fence stays inside; and no point moves further than the tolerance.
 */
import { Chains, EdgeGrid } from './edge-grid.ts';
import { type Box, type Region, type Ring, ringsOf, squaredDistanceToSegment } from './ring.ts';
import { type Fence, isClear, keepsOff, type Step } from './steps.ts';
import { orient } from './whole.ts';

export interface SimplifyOptions {
  /** Furthest that an outline may move, in whole units. */
  readonly tolerance: number;
  /** Which way: `out` only adds, `in` only takes away. */
  readonly moves: 'out' | 'in' | 'either';
  /** What the regions lie in, or cross. Where outlines run along its edges they are not moved out. */
  readonly around?: Fence;
  /** What lies in the regions, or crosses them. Where outlines run along its edges they are not moved in. */
  readonly within?: Fence;
  /** Edges along its sides stay as they are. */
  readonly border?: Box;
}

/** Rounds of rising limits: the first takes a 64th of the tolerance. */
const LIMITS = [1 / 64, 1 / 16, 1 / 4, 1];
/** A round ends when nothing moves any more, or after so many times round; hardly anything moves after the tenth. */
const MOST_TURNS = 40;

/**
 * Simplify regions in whole numbers: simple, touching at single points at most (arrange.ts). The same regions and rings
 * come out in the same order. About O(points); nothing is done when the tolerance is 0.
 */
export function simplify(regions: readonly Region[], options: SimplifyOptions): Region[] {
  if (options.tolerance <= 0 || regions.length === 0) return [...regions];
  const rings = new Simplifier(ringsOf(regions), options).rings();
  let at = 0;
  return regions.map((region) => region.map(() => rings[at++]));
}

class Simplifier {
  readonly #chains: Chains;
  readonly #grid: EdgeGrid;
  readonly #options: SimplifyOptions;
  /** How far the edge that starts at a point has moved at most. */
  readonly #moved: Float64Array;
  /** Edges that stay as they are. */
  readonly #isFixed: Uint8Array;
  /** Points left in each ring. */
  readonly #left: Int32Array;
  /** Points whose surroundings have changed since they were last tried. */
  readonly #isFresh: Uint8Array;
  /** The step that is being tried. One object, since most points are tried several times. */
  readonly #step: Step = { a: 0, b: 0, c: 0, d: 0, x: 0, y: 0, moves: 0 };
  /** How far rounding its corner turns the edges beside. */
  #swing = 0;

  constructor(rings: readonly Ring[], options: SimplifyOptions) {
    const chains = new Chains(rings);
    this.#chains = chains;
    this.#grid = new EdgeGrid(chains);
    this.#options = options;
    this.#moved = new Float64Array(chains.count);
    this.#isFixed = new Uint8Array(chains.count);
    this.#isFresh = new Uint8Array(chains.count);
    this.#left = new Int32Array(rings.length);
    for (let i = 0; i < rings.length; i++) this.#left[i] = chains.starts[i + 1] - chains.starts[i];
    if (options.border) this.#fix(options.border);
  }

  rings(): Ring[] {
    for (const share of LIMITS) this.#round(share * this.#options.tolerance);
    const { x, y, next, starts } = this.#chains;
    const rings: Ring[] = [];
    for (let i = 0; i + 1 < starts.length; i++) {
      const ring = new Float64Array(2 * this.#left[i]);
      let length = 0;
      for (let p = starts[i]; p < starts[i + 1]; p++) {
        if (next[p] < 0) continue;
        ring[length++] = x[p];
        ring[length++] = y[p];
      }
      rings.push(ring);
    }
    return rings;
  }

  #fix([minX, minY, maxX, maxY]: Box): void {
    const { x, y, next, count } = this.#chains;
    for (let p = 0; p < count; p++) {
      const q = next[p];
      const isAlong =
        (x[p] === x[q] && (x[p] === minX || x[p] === maxX)) || (y[p] === y[q] && (y[p] === minY || y[p] === maxY));
      if (isAlong) this.#isFixed[p] = 1;
    }
  }

  #round(limit: number): void {
    const { next, starts } = this.#chains;
    this.#isFresh.fill(1);
    for (let ring = 0; ring + 1 < starts.length; ring++) {
      for (let turn = 0, isMoving = true; isMoving && turn < MOST_TURNS; turn++) {
        isMoving = false;
        for (let p = starts[ring]; p < starts[ring + 1]; p++) {
          if (next[p] < 0 || this.#isFresh[p] === 0) continue;
          this.#isFresh[p] = 0;
          if (!this.#drop(p, limit) && !this.#close(p, limit)) continue;
          isMoving = true;
          // What was just moved rests, so that it does not take all of the tolerance before its neighbours had any.
          p++;
        }
      }
    }
  }

  /** Drop a point if that moves the outline the right way, not too far, and across nothing. */
  #drop(v: number, limit: number): boolean {
    const { x, y, next, prev, ring } = this.#chains;
    if (this.#left[ring[v]] <= 3) return false;
    const a = prev[v];
    const b = next[v];
    if (this.#isFixed[a] || this.#isFixed[v]) return false;
    const turn = orient(x[a], y[a], x[v], y[v], x[b], y[b]);
    if (turn !== 0 && !this.#mayMove(turn < 0)) return false;
    const moves = Math.sqrt(squaredDistanceToSegment(x[v], y[v], x[a], y[a], x[b], y[b]));
    const cost = moves + Math.max(this.#moved[a], this.#moved[v]);
    if (cost > limit) return false;
    this.#name(a, v, v, b);
    this.#step.x = x[v];
    this.#step.y = y[v];
    this.#step.moves = moves;
    // A point in line leaves the outline where it is.
    if (!this.#mayStep(turn === 0 ? undefined : this.#fence(turn < 0))) return false;
    next[a] = b;
    prev[b] = a;
    next[v] = -1;
    this.#left[ring[v]]--;
    this.#moved[a] = cost;
    this.#grid.add(a);
    this.#refresh(a, b);
    return true;
  }

  /** Put a corner in place of the edge b–c, on the same terms. The corner takes b's place in the chain. */
  #close(b: number, limit: number): boolean {
    const { x, y, next, prev, ring } = this.#chains;
    const a = prev[b];
    const c = next[b];
    const d = next[c];
    if (this.#left[ring[b]] <= 3 || d === a) return false;
    if (this.#isFixed[a] || this.#isFixed[b] || this.#isFixed[c]) return false;
    const sign = orient(x[a], y[a], x[b], y[b], x[c], y[c]) > 0 ? 1 : -1;
    if (!this.#mayMove(sign > 0) || orient(x[b], y[b], x[c], y[c], x[d], y[d]) * sign <= 0) return false;
    this.#name(a, b, c, d);
    if (!this.#putCorner(sign, limit)) return false;
    const swing = this.#swing;
    // The edge itself moves; of those beside only what they are drawn out by does, and that no further.
    const cost = this.#step.moves + this.#moved[b];
    const beside = swing + Math.max(this.#moved[a], this.#moved[c]);
    if (cost > limit || beside > limit || !this.#mayStep(this.#fence(sign > 0))) return false;
    x[b] = this.#step.x;
    y[b] = this.#step.y;
    next[b] = d;
    prev[d] = b;
    next[c] = -1;
    this.#left[ring[b]]--;
    this.#moved[a] = Math.max(this.#moved[a] + swing, cost);
    this.#moved[b] = Math.max(this.#moved[c] + swing, cost);
    this.#grid.add(a);
    this.#grid.add(b);
    this.#refresh(a, d);
    this.#isFresh[b] = 1;
    return true;
  }

  /** Whether an outline may move out (or else in). */
  #mayMove(isOut: boolean): boolean {
    return this.#options.moves !== (isOut ? 'in' : 'out');
  }

  /** What an outline could run into when it moves out (or else in). */
  #fence(isOut: boolean): Fence | undefined {
    return isOut ? this.#options.around : this.#options.within;
  }

  #name(a: number, b: number, c: number, d: number): void {
    this.#step.a = a;
    this.#step.b = b;
    this.#step.c = c;
    this.#step.d = d;
  }

  #mayStep(fence: Fence | undefined): boolean {
    return isClear(this.#chains, this.#grid, this.#step) && (!fence || keepsOff(fence, this.#chains, this.#step));
  }

  #refresh(a: number, b: number): void {
    const { next, prev } = this.#chains;
    this.#isFresh[prev[prev[a]]] = 1;
    this.#isFresh[prev[a]] = 1;
    this.#isFresh[a] = 1;
    this.#isFresh[b] = 1;
    this.#isFresh[next[b]] = 1;
  }

  /**
   * Put the step's corner where a–b and d–c meet when they are drawn out, on the nearest whole point from which nothing is
   * lost: b and c on the inner side of its edges. False when there is none within reach.
   */
  #putCorner(sign: number, limit: number): boolean {
    const { x, y } = this.#chains;
    const step = this.#step;
    const { a, b, c, d } = step;
    const ux = x[b] - x[a];
    const uy = y[b] - y[a];
    const vx = x[c] - x[d];
    const vy = y[c] - y[d];
    // Both turns go one way; the lines meet ahead when they add up to less than half a circle.
    const cross = (ux * vy - uy * vx) * -sign;
    if (cross <= 0) return false;
    const along = ((vx * (y[b] - y[d]) - vy * (x[b] - x[d])) * -sign) / cross;
    const atX = x[b] + along * ux;
    const atY = y[b] + along * uy;
    const reach = limit + 2;
    if (squaredDistanceToSegment(atX, atY, x[b], y[b], x[c], y[c]) > reach * reach) return false;
    const firstX = Math.floor(atX);
    const firstY = Math.floor(atY);
    step.moves = Infinity;
    for (let px = firstX; px <= firstX + 1; px++) {
      for (let py = firstY; py <= firstY + 1; py++) {
        if ((px === x[a] && py === y[a]) || (px === x[d] && py === y[d])) continue;
        if (orient(x[b], y[b], x[c], y[c], px, py) * sign >= 0) continue;
        if (orient(x[a], y[a], px, py, x[b], y[b]) * sign < 0) continue;
        if (orient(px, py, x[d], y[d], x[c], y[c]) * sign < 0) continue;
        const swingB = squaredDistanceToSegment(x[b], y[b], x[a], y[a], px, py);
        const swingC = squaredDistanceToSegment(x[c], y[c], px, py, x[d], y[d]);
        const swing = Math.sqrt(Math.max(swingB, swingC));
        const moves = Math.sqrt(squaredDistanceToSegment(px, py, x[b], y[b], x[c], y[c])) + swing;
        if (moves >= step.moves) continue;
        step.moves = moves;
        step.x = px;
        step.y = py;
        this.#swing = swing;
      }
    }
    return step.moves < Infinity;
  }
}
