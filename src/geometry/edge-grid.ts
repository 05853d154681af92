import type { Region, Ring } from './ring.ts';

/** Closed rings as points that know their neighbours. The edge of a point is the one that starts at it. */
export class Chains {
  readonly count: number;
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** −1 where a point has been taken out. */
  readonly next: Int32Array;
  readonly prev: Int32Array;
  /** The ring of each point, by its place in the list. */
  readonly ring: Int32Array;
  /** First point of each ring, and one past the last. */
  readonly starts: Int32Array;

  constructor(rings: readonly Ring[]) {
    let count = 0;
    for (const ring of rings) count += ring.length / 2;
    this.count = count;
    this.x = new Float64Array(count);
    this.y = new Float64Array(count);
    this.next = new Int32Array(count);
    this.prev = new Int32Array(count);
    this.ring = new Int32Array(count);
    this.starts = new Int32Array(rings.length + 1);
    let at = 0;
    for (let i = 0; i < rings.length; i++) {
      const ring = rings[i];
      const start = at;
      for (let j = 0; j < ring.length; j += 2, at++) {
        this.x[at] = ring[j];
        this.y[at] = ring[j + 1];
        this.next[at] = at + 1;
        this.prev[at] = at - 1;
        this.ring[at] = i;
      }
      this.next[at - 1] = start;
      this.prev[start] = at - 1;
      this.starts[i + 1] = at;
    }
  }
}

/**
 * Finds the edges of chains that are near a segment. A hashed grid whose cell is a few mean edges wide: memory and time
 * to fill grow with the number of edges, however long a few of them are. An edge that has changed is added again; what
 * it was before stays, and only makes more candidates. (A tree of boxes cannot be added to; a dense grid of the same
 * cell is too large where one small detail lies in a wide plan.)
 */
export class EdgeGrid {
  /** What the last `near` found, in its first places. */
  found = new Int32Array(64);
  readonly minX: number;
  readonly #chains: Chains;
  readonly #minY: number;
  readonly #perUnit: number;
  readonly #heads: Int32Array;
  #edges: Int32Array;
  #after: Int32Array;
  #entries = 0;
  #buckets = new Int32Array(64);
  /** The last query that met an edge, so that none is given twice. */
  readonly #seen: Int32Array;
  #query = 0;

  /** @param isFilled put every edge in at once; otherwise `add` does it one by one. */
  constructor(chains: Chains, isFilled = true) {
    const { count, x, y, next } = chains;
    let minX = Infinity;
    let minY = Infinity;
    let length = 0;
    for (let i = 0; i < count; i++) {
      if (x[i] < minX) minX = x[i];
      if (y[i] < minY) minY = y[i];
      length += Math.abs(x[next[i]] - x[i]) + Math.abs(y[next[i]] - y[i]);
    }
    this.#chains = chains;
    this.minX = minX;
    this.#minY = minY;
    // Twice the mean edge: about 1.6 cells an edge, and few edges that are near and do not touch.
    this.#perUnit = length > 0 ? count / (2 * length) : 1;
    let heads = 64;
    while (heads < 2 * count) heads *= 2;
    this.#heads = new Int32Array(heads).fill(-1);
    this.#edges = new Int32Array(2 * count + 64);
    this.#after = new Int32Array(2 * count + 64);
    this.#seen = new Int32Array(count);
    if (isFilled) for (let edge = 0; edge < count; edge++) this.add(edge);
  }

  /** The width of a cell, in the chains' unit. */
  get cell(): number {
    return 1 / this.#perUnit;
  }

  /** Put in the edge that starts at a point, as it now is. */
  add(edge: number): void {
    const { x, y, next } = this.#chains;
    const end = next[edge];
    const count = this.#bucketsOf(x[edge], y[edge], x[end], y[end], 0);
    if (this.#entries + count > this.#edges.length) {
      const size = 2 * this.#edges.length + count;
      this.#edges = grown(this.#edges, size);
      this.#after = grown(this.#after, size);
    }
    for (let i = 0; i < count; i++) {
      const bucket = this.#buckets[i];
      this.#edges[this.#entries] = edge;
      this.#after[this.#entries] = this.#heads[bucket];
      this.#heads[bucket] = this.#entries++;
    }
  }

  /**
   * Find every edge that may come within `reach` of the segment (x0, y0)–(x1, y1), each once, and more. Their starts are
   * put into `found`; returns how many. Edges whose start has been taken out are left out.
   */
  near(x0: number, y0: number, x1: number, y1: number, reach: number): number {
    const { next } = this.#chains;
    const count = this.#bucketsOf(x0, y0, x1, y1, reach);
    const query = ++this.#query;
    let found = 0;
    for (let i = 0; i < count; i++) {
      for (let entry = this.#heads[this.#buckets[i]]; entry >= 0; entry = this.#after[entry]) {
        const edge = this.#edges[entry];
        if (this.#seen[edge] === query) continue;
        this.#seen[edge] = query;
        if (next[edge] < 0) continue;
        if (found === this.found.length) this.found = grown(this.found, 2 * found);
        this.found[found++] = edge;
      }
    }
    return found;
  }

  /** The buckets of the cells that the segment passes within `reach`: for each row of cells, those from its least to its largest x there. */
  #bucketsOf(x0: number, y0: number, x1: number, y1: number, reach: number): number {
    // A millionth of a cell more, since a crossing with a row is rounded.
    const pad = reach * this.#perUnit + 1e-6;
    const isRising = y0 <= y1;
    const ax = ((isRising ? x0 : x1) - this.minX) * this.#perUnit;
    const ay = ((isRising ? y0 : y1) - this.#minY) * this.#perUnit;
    const bx = ((isRising ? x1 : x0) - this.minX) * this.#perUnit;
    const by = ((isRising ? y1 : y0) - this.#minY) * this.#perUnit;
    const slope = by > ay ? (bx - ax) / (by - ay) : 0;
    const mask = this.#heads.length - 1;
    const lastRow = Math.floor(by + pad);
    let count = 0;
    for (let row = Math.floor(ay - pad); row <= lastRow; row++) {
      let from = ax;
      let to = bx;
      if (row - pad > ay) from = ax + slope * (row - pad - ay);
      if (row + 1 + pad < by) to = ax + slope * (row + 1 + pad - ay);
      const last = Math.floor((from > to ? from : to) + pad);
      let column = Math.floor((from < to ? from : to) - pad);
      if (count + last - column >= this.#buckets.length)
        this.#buckets = grown(this.#buckets, 2 * (count + last - column + 1));
      // Neighbours in a row stay neighbours in memory: a walk along a row reads it in order. Rows are strewn.
      const first = Math.imul(row, 0x9e3779b1) >>> 7;
      for (; column <= last; column++) this.#buckets[count++] = (first + column) & mask;
    }
    return count;
  }
}

/** Edges that nothing may be moved across; touching is allowed. */
export class Fence {
  readonly chains: Chains;
  readonly grid: EdgeGrid;

  constructor(regions: readonly Region[]) {
    this.chains = new Chains(regions.flat());
    this.grid = new EdgeGrid(this.chains);
  }
}

function grown(from: Int32Array, size: number): Int32Array<ArrayBuffer> {
  const to = new Int32Array(size);
  to.set(from);
  return to;
}
