import { Pairs } from './pairs.ts';
import type { Ring } from './ring.ts';
import { closedRing, withoutRepeat } from './sections.ts';

/**
 * Adds up outlines of flat faces by their directed edges. Points are known by pairs of numbers, never by coordinates, so
 * edges that are run both ways cancel exactly and only the outline of the sum is left.
 */
export class EdgeSum {
  readonly #points = new Pairs();
  #xy = new Float64Array(64);
  /** Undirected edges, the lower point number first, and how often each is run that way more than the other. */
  readonly #edges = new Pairs();
  #net = new Int32Array(32);

  /** How many points there are. */
  get size(): number {
    return this.#points.size;
  }

  /** x and y of each point: to be written for one that is new. */
  get xy(): Float64Array {
    return this.#xy;
  }

  /** The number of the point of a pair. One not met before is numbered next, and has no place yet. */
  point(first: number, second: number): number {
    const point = this.#points.number(first, second);
    if (2 * point + 2 > this.#xy.length) this.#xy = grown(this.#xy, new Float64Array(this.#xy.length * 2));
    return point;
  }

  edge(from: number, to: number): void {
    if (from === to) return;
    const edge = from < to ? this.#edges.number(from, to) : this.#edges.number(to, from);
    if (edge >= this.#net.length) this.#net = grown(this.#net, new Int32Array(this.#net.length * 2));
    this.#net[edge] += from < to ? 1 : -1;
  }

  /** Join what was not cancelled. As many edges leave a point as reach it, so every walk comes home. Once. */
  rings(): Ring[] {
    const edges = this.#edges;
    const left = this.#net;
    const first = new Int32Array(this.#points.size).fill(-1);
    const next = new Int32Array(edges.size);
    let total = 0;
    for (let edge = edges.size - 1; edge >= 0; edge--) {
      if (left[edge] === 0) continue;
      const from = left[edge] > 0 ? edges.firstOf(edge) : edges.secondOf(edge);
      next[edge] = first[from];
      first[from] = edge;
      total += Math.abs(left[edge]);
    }
    const rings: Ring[] = [];
    const ring = new Float64Array(2 * total);
    for (let begin = 0; begin < first.length; begin++) {
      while (first[begin] >= 0) {
        let length = 0;
        let point = begin;
        do {
          const edge = first[point];
          if (edge < 0) throw new Error('a surface that is cut must be closed');
          ring[length] = this.#xy[2 * point];
          ring[length + 1] = this.#xy[2 * point + 1];
          length = withoutRepeat(ring, length);
          const to = left[edge] > 0 ? edges.secondOf(edge) : edges.firstOf(edge);
          left[edge] -= Math.sign(left[edge]);
          if (left[edge] === 0) first[point] = next[edge];
          point = to;
        } while (point !== begin);
        const closed = closedRing(ring, length);
        if (closed) rings.push(closed);
      }
    }
    return rings;
  }
}

function grown<T extends Float64Array | Int32Array>(from: T, to: T): T {
  to.set(from);
  return to;
}
