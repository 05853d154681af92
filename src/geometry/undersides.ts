import { Pairs } from './pairs.ts';
import type { Ring } from './ring.ts';
import { bucketed, closedRing, crossing, ranksOf, type Surface, withoutRepeat } from './sections.ts';

/**
 * Find what a closed surface overhangs, band by band. For each band between two neighbouring rising levels: the outline
 * in plan of the downward-facing surface strictly between them. Triangles that face up, stand upright or lie exactly in
 * a level do not count.
 *
 * The rings are such that their winding number at a point is the number of downward faces over and under it within the
 * band. So with the section at the band's lower level they wind round (nonzero) all that the solid covers anywhere in
 * the band; and the section at the upper level less them is positive where the solid fills the band from below to above:
 * who is in the solid at the top and not all the way down must meet a downward face on the way.
 *
 *     upper ──┬──────┬──        Triangles are cut to the band and laid flat. Edges between two of them run both ways
 *             │solid/           and cancel by number, not by coordinate: only the outline of each patch is left.
 *     lower ──┴───/────
 *
 * Yields progress 0…1. O(triangles + what is cut).
 */
export function* undersides(surface: Surface, levels: ArrayLike<number>): Generator<number, Ring[][], unknown> {
  const { positions, triangles } = surface;
  const above = ranksOf(positions, levels, 'above');
  const atOrAbove = ranksOf(positions, levels, 'at or above');
  const bands = Math.max(0, levels.length - 1);
  const { starts, members } = bucketed(triangles.length / 3, bands, (triangle, range) => {
    const a = triangles[3 * triangle];
    const b = triangles[3 * triangle + 1];
    const c = triangles[3 * triangle + 2];
    if (!facesDown(positions, a, b, c)) {
      range[0] = range[1] = 0;
      return;
    }
    // In band k when the lowest vertex is below level k + 1 and the highest above level k.
    range[0] = Math.max(0, Math.min(atOrAbove[a], atOrAbove[b], atOrAbove[c]) - 1);
    range[1] = Math.min(bands, Math.max(above[a], above[b], above[c]));
  });
  const result: Ring[][] = [];
  for (let k = 0; k < bands; k++) {
    const within = members.subarray(starts[k], starts[k + 1]);
    result.push(within.length === 0 ? [] : new Band(surface, levels[k], levels[k + 1]).outline(within));
    yield (k + 1) / bands;
  }
  return result;
}

function facesDown(positions: Float64Array, a: number, b: number, c: number): boolean {
  const ux = positions[3 * b] - positions[3 * a];
  const uy = positions[3 * b + 1] - positions[3 * a + 1];
  const vx = positions[3 * c] - positions[3 * a];
  const vy = positions[3 * c + 1] - positions[3 * a + 1];
  return ux * vy - uy * vx < 0;
}

const BELOW = -1;
const WITHIN = 0;
const ABOVE = 1;

/** Adds up the outlines of triangles cut to one band. */
class Band {
  readonly #surface: Surface;
  readonly #lower: number;
  readonly #upper: number;
  /** A vertex v is (v, v); a point of the edge between v < w at the lower level is (v, w), at the upper one (w, v). */
  readonly #points = new Pairs();
  #xy = new Float64Array(64);
  /** Undirected edges, the lower point number first, and how often each is run that way more than the other. */
  readonly #edges = new Pairs();
  #net = new Int32Array(32);

  constructor(surface: Surface, lower: number, upper: number) {
    this.#surface = surface;
    this.#lower = lower;
    this.#upper = upper;
  }

  outline(members: Uint32Array): Ring[] {
    const { triangles } = this.#surface;
    // Run backwards: seen from above, a downward face runs clockwise.
    for (const triangle of members) {
      const at = 3 * triangle;
      this.#add(triangles[at], triangles[at + 2], triangles[at + 1]);
    }
    return this.#rings();
  }

  #add(a: number, b: number, c: number): void {
    const corners = [a, b, c];
    let begin = -1;
    let last = -1;
    for (let corner = 0; corner < 3; corner++) {
      const v = corners[corner];
      const w = corners[(corner + 1) % 3];
      const from = this.#side(v);
      const to = this.#side(w);
      const low = v < w ? v : w;
      const high = v < w ? w : v;
      const met = [
        from === WITHIN ? this.#point(v, v) : -1,
        from === ABOVE && to !== ABOVE ? this.#point(high, low) : -1,
        (from === BELOW) !== (to === BELOW) ? this.#point(low, high) : -1,
        from !== ABOVE && to === ABOVE ? this.#point(high, low) : -1,
      ];
      for (const point of met) {
        if (point < 0) continue;
        if (begin < 0) begin = point;
        else this.#edge(last, point);
        last = point;
      }
    }
    if (begin >= 0) this.#edge(last, begin);
  }

  #side(v: number): number {
    const z = this.#surface.positions[3 * v + 2];
    return z <= this.#lower ? BELOW : z >= this.#upper ? ABOVE : WITHIN;
  }

  #point(v: number, w: number): number {
    const known = this.#points.size;
    const point = this.#points.number(v, w);
    if (point < known) return point;
    if (2 * point + 2 > this.#xy.length) this.#xy = grown(this.#xy, new Float64Array(this.#xy.length * 2));
    const { positions } = this.#surface;
    if (v === w) {
      this.#xy[2 * point] = positions[3 * v];
      this.#xy[2 * point + 1] = positions[3 * v + 1];
    } else crossing(positions, v, w, v < w ? this.#lower : this.#upper, this.#xy, 2 * point);
    return point;
  }

  #edge(from: number, to: number): void {
    if (from === to) return;
    const edge = from < to ? this.#edges.number(from, to) : this.#edges.number(to, from);
    if (edge >= this.#net.length) this.#net = grown(this.#net, new Int32Array(this.#net.length * 2));
    this.#net[edge] += from < to ? 1 : -1;
  }

  /** Join what was not cancelled. As many edges leave a point as reach it, so every walk comes home. */
  #rings(): Ring[] {
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
