import type { Ring } from '../ring.ts';

/** A ring as it was simplified. Edge i of it runs from its point i to the next. */
export interface Drawn {
  readonly ring: Ring;
  /** The edges of the given ring that each edge stands for, from first to last; these may count on past the ring's end. */
  readonly first: Int32Array;
  readonly last: Int32Array;
}

/** The edges of one ring while they are drawn, one ring after another in the same memory. */
export class Edges {
  length = 0;
  #points = new Float64Array(512);
  /** By point, the edge of the given ring with which the line after it begins, and the line before it ends. */
  #after = new Int32Array(256);
  #before = new Int32Array(256);

  add(x: number, y: number, after: number, before: number): void {
    const at = this.length++;
    if (2 * at === this.#points.length) {
      this.#points = longer(this.#points, new Float64Array(4 * at));
      this.#after = longer(this.#after, new Int32Array(2 * at));
      this.#before = longer(this.#before, new Int32Array(2 * at));
    }
    this.#points[2 * at] = x;
    this.#points[2 * at + 1] = y;
    this.#after[at] = after;
    this.#before[at] = before;
  }

  afterFirst(): number {
    return this.#after[0];
  }

  beforeFirst(): number {
    return this.#before[0];
  }

  /** The closed ring, x times `mirror`; its last edge begins with edge `start` of the given ring. */
  closed(mirror: 1 | -1, start: number): Drawn {
    const points = this.length;
    this.#after[points - 1] = start;
    const ring = new Float64Array(2 * points);
    const last = new Int32Array(points);
    for (let i = 0; i < points; i++) {
      ring[2 * i] = this.#points[2 * i] * mirror + 0;
      ring[2 * i + 1] = this.#points[2 * i + 1];
      last[i] = this.#before[i + 1 < points ? i + 1 : 0];
    }
    return { ring, first: this.#after.slice(0, points), last };
  }
}

function longer<T extends Float64Array | Int32Array>(from: T, to: T): T {
  to.set(from);
  return to;
}
