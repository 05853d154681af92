import Delaunator from 'delaunator';
import { orient } from './whole.ts';

/** Twice round every crossed edge is more than an insertion has ever been seen to take. */
const MOST_TRIES = 64;

const after = (edge: number): number => (edge % 3 === 2 ? edge - 2 : edge + 1);
/** The half-edge that comes before another in its triangle. */
export const before = (edge: number): number => (edge % 3 === 0 ? edge + 2 : edge - 1);

/**
 * A Delaunay triangulation of points with whole-number coordinates, into which edges can be put that it must hold: those in
 * its way are turned in their quadrilaterals until none is left (Sloan, "A fast algorithm for generating constrained
 * Delaunay triangulations", Computers & Structures 47, 1993). Exact (whole.ts). Every triangle runs counter-clockwise;
 * half-edge e goes from `triangles[e]` to `triangles[after(e)]`. No two points may be the same.
 */
export class Triangulation {
  readonly triangles: Uint32Array;
  /** The half-edge that runs the other way; −1 on the hull. */
  readonly twins: Int32Array;
  readonly #x: Float64Array;
  readonly #y: Float64Array;
  /** 1 for half-edges that must stay. */
  readonly #isFixed: Uint8Array;
  /** A half-edge that starts at each point; −1 for none. */
  readonly #out: Int32Array;

  constructor(x: Float64Array, y: Float64Array) {
    const points = new Float64Array(2 * x.length);
    for (let i = 0; i < x.length; i++) {
      points[2 * i] = x[i];
      // Delaunator's triangles run counter-clockwise where y points down.
      points[2 * i + 1] = -y[i];
    }
    const { triangles, halfedges } = new Delaunator(points);
    this.triangles = triangles;
    this.twins = halfedges;
    this.#x = x;
    this.#y = y;
    this.#isFixed = new Uint8Array(triangles.length);
    this.#out = new Int32Array(x.length).fill(-1);
    for (let e = 0; e < triangles.length; e++) this.#out[triangles[e]] = e;
  }

  /** The half-edge from a to b, or from b to a where a–b is on the hull; −1 when there is none. */
  edge(a: number, b: number): number {
    const { triangles } = this;
    for (const e of this.#around(a)) {
      if (triangles[after(e)] === b) return e;
      if (triangles[before(e)] === b) return this.twins[before(e)] < 0 ? before(e) : this.twins[before(e)];
    }
    return -1;
  }

  /** The corners left of a → b as seen from a, counter-clockwise up to the first edge that must stay, its end included. */
  cornersAfter(a: number, b: number): number[] {
    const corners: number[] = [];
    for (let e = this.edge(a, b); e >= 0 && this.triangles[e] === a; e = this.twins[before(e)]) {
      corners.push(this.triangles[before(e)]);
      if (this.#isFixed[before(e)]) break;
    }
    return corners;
  }

  /** The corners left of b → a as seen from a, clockwise up to the first edge that must stay, its end included. */
  cornersBefore(a: number, b: number): number[] {
    const corners: number[] = [];
    for (let e = this.edge(b, a); e >= 0 && this.triangles[e] !== a; e = this.twins[after(e)]) {
      corners.push(this.triangles[before(e)]);
      if (this.#isFixed[after(e)]) break;
    }
    return corners;
  }

  /** Whether the edge a–b is one that was put in. */
  isFixed(a: number, b: number): boolean {
    const e = this.edge(a, b);
    return e >= 0 && this.#isFixed[e] === 1;
  }

  /** Put in an edge that must stay. False when a point or another such edge lies across it: then it is left out. */
  fix(a: number, b: number): boolean {
    const crossed = this.#crossedBy(a, b);
    if (crossed === null || !this.#clear(a, b, crossed)) return false;
    const e = this.edge(a, b);
    if (e < 0) return false;
    this.#isFixed[e] = 1;
    if (this.twins[e] >= 0) this.#isFixed[this.twins[e]] = 1;
    return true;
  }

  /** Turn an edge in its quadrilateral. False where that is not convex, on the hull, and for edges that must stay. */
  turn(e: number): boolean {
    const { triangles } = this;
    const twin = this.twins[e];
    if (twin < 0 || this.#isFixed[e]) return false;
    const [p, q] = [triangles[e], triangles[twin]];
    const [left, right] = [triangles[before(e)], triangles[before(twin)]];
    if (this.#side(right, left, p) <= 0 || this.#side(right, left, q) >= 0) return false;
    const [fromLeft, fromRight] = [before(e), before(twin)];
    triangles[e] = right;
    triangles[twin] = left;
    this.#link(e, this.twins[fromRight], this.#isFixed[fromRight]);
    this.#link(twin, this.twins[fromLeft], this.#isFixed[fromLeft]);
    this.#link(fromLeft, fromRight, 0);
    for (const each of [e, after(e), before(e), twin, after(twin), before(twin)]) this.#out[triangles[each]] = each;
    return true;
  }

  #link(a: number, b: number, isFixed: number): void {
    this.twins[a] = b;
    this.#isFixed[a] = isFixed;
    if (b < 0) return;
    this.twins[b] = a;
    this.#isFixed[b] = isFixed;
  }

  #side(a: number, b: number, c: number): number {
    const x = this.#x;
    const y = this.#y;
    return orient(x[a], y[a], x[b], y[b], x[c], y[c]);
  }

  /** The half-edges that start at a point, each once. */
  *#around(a: number): Generator<number> {
    const first = this.#out[a];
    let e = first;
    while (e >= 0) {
      yield e;
      e = this.twins[before(e)];
      if (e === first) return;
    }
    // The hull was met: the rest lies the other way round.
    for (e = first < 0 ? -1 : this.twins[first]; e >= 0; e = this.twins[e]) {
      e = after(e);
      yield e;
    }
  }

  /** The edges across a–b as pairs of points, from a on; null when a point lies on it, or an edge that must stay. */
  #crossedBy(a: number, b: number): [number, number][] | null {
    if (this.edge(a, b) >= 0) return [];
    const { triangles } = this;
    for (const out of this.#around(a)) {
      let [right, left] = [triangles[after(out)], triangles[before(out)]];
      if (this.#side(a, b, right) >= 0 || this.#side(a, b, left) <= 0) continue;
      const crossed: [number, number][] = [];
      for (let e = after(out); ; ) {
        const twin = this.twins[e];
        if (twin < 0 || this.#isFixed[e]) return null;
        crossed.push([right, left]);
        const ahead = triangles[before(twin)];
        if (ahead === b) return crossed;
        const side = this.#side(a, b, ahead);
        if (side === 0) return null;
        e = side > 0 ? after(twin) : before(twin);
        if (side > 0) left = ahead;
        else right = ahead;
      }
    }
    return null;
  }

  /** Turn the edges that cross a–b out of its way. */
  #clear(a: number, b: number, crossed: readonly [number, number][]): boolean {
    const waiting = [...crossed];
    for (let tries = MOST_TRIES * waiting.length; waiting.length > 0; tries--) {
      if (tries === 0) return false;
      const [p, q] = waiting.shift() as [number, number];
      const e = this.edge(p, q);
      const [left, right] = [this.triangles[before(e)], this.triangles[before(this.twins[e])]];
      if (!this.turn(e)) {
        waiting.push([p, q]);
        continue;
      }
      const isAtEnd = left === a || left === b || right === a || right === b;
      if (!isAtEnd && this.#side(a, b, left) > 0 !== this.#side(a, b, right) > 0) waiting.push([left, right]);
    }
    return true;
  }
}
