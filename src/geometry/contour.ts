/**
 * Outlines of a surface given by posts on a grid, at any level.
 *
 * Between four posts the surface is four flat triangles that meet at the mean of the posts, so an outline is exact: one
 * straight piece a triangle. Whether a post is in is decided once, by one comparison; a point of an outline belongs to
 * one edge and is computed once, so that all who meet there agree to the last bit, and no coordinate is ever compared to
 * find out what joins what.
 *
 *     NW───N───NE     Edges of a cell: S E N W (0…3) between posts, and 4…7 from each post to the centre.
 *      │ 7   6 │      A piece runs through each triangle that the level cuts, with what is in on its left.
 *      W   ×   E      Across the border of the grid nothing is in: outlines close along it, with square corners.
 *      │ 4   5 │
 *     SW───S───SE
 *
 * Roads not taken: outlines of cells with four straight edges and no centre broke the volume law on 254 of 400 random
 * grids; this on none. Looking at every cell for every level cost 10 times the blocks below. Joining pieces by the
 * points they end on (a map of ends) is not needed: every point knows its next one as soon as both exist.
 */
import { BLOCK, BLOCK_BITS, rangesOfBlocks } from './block-ranges.ts';
import { type Ring, ringArea } from './ring.ts';

/** Post (column, row) stands at (originX + column × stepX, originY + row × stepY); values row by row, row 0 lowest y. */
export interface Posts {
  readonly columns: number;
  readonly rows: number;
  readonly stepX: number;
  readonly stepY: number;
  readonly originX: number;
  readonly originY: number;
  readonly values: Float64Array | Float32Array;
}

/** What lies in: `above` the closure of { value > level }, `at least` { value ≥ level }. */
export type InRule = 'above' | 'at least';

/** The centre of a cell. One order of addition, so that every reader has the same bits. */
export const centreOf = (sw: number, se: number, nw: number, ne: number): number => (sw + se + (nw + ne)) / 4;

const [S, E, N, W] = [0, 1, 2, 3];

/**
 * For each pattern of posts that are in (bits SW 1, SE 2, NE 4, NW 8, centre 16): up to four pieces as pairs of edges,
 * from and to; −1 ends the list. A triangle's piece runs from the edge on which its rim, run counter-clockwise, leaves
 * what is in, to the edge on which it comes back.
 */
const PIECES = piecesOfCells();

function piecesOfCells(): Int8Array {
  const pieces = new Int8Array(32 * 9).fill(-1);
  for (let pattern = 0; pattern < 32; pattern++) {
    let at = pattern * 9;
    for (let side = 0; side < 4; side++) {
      const after = (side + 1) % 4;
      const isIn = [(pattern >> side) & 1, (pattern >> after) & 1, pattern >> 4];
      const edges = [side, 4 + after, 4 + side];
      const leaves = edges.filter((_, i) => isIn[i] > isIn[(i + 1) % 3]);
      const returns = edges.filter((_, i) => isIn[i] < isIn[(i + 1) % 3]);
      if (leaves.length === 1) {
        pieces[at++] = leaves[0];
        pieces[at++] = returns[0];
      }
    }
  }
  return pieces;
}

/**
 * Make ready to outline the same posts at many levels. The function that comes out gives, for a level, rings without
 * repeated points: outer ones counter-clockwise, holes clockwise, in a fixed order, not sorted under one another. They
 * never cross; where posts lie exactly on the level they may touch, and run along each other. Rings without area are
 * left out. Values must be finite. A level for 32-bit values should have passed through Math.fround.
 *
 * O(posts) once; then O(blocks + cells of the blocks that the level crosses), with memory for one row and the outline.
 */
export function contours(posts: Posts): (level: number, rule: InRule) => Ring[] {
  if (posts.columns < 2 || posts.rows < 2) return () => [];
  const ranges = rangesOfBlocks(posts.columns, posts.rows, posts.values);
  return (level, rule) => new Outline(posts, ranges, level, rule === 'above').rings();
}

/** The outline at one level while it is being made. */
class Outline {
  readonly #posts: Posts;
  readonly #ranges: Float64Array;
  readonly #level: number;
  /** Posts exactly at the level are out. */
  readonly #isStrict: boolean;
  /** Points in steps from the origin: a post is a whole number, exactly. */
  #u = new Float64Array(1024);
  #v = new Float64Array(1024);
  /** The point that follows each point, what is in on the left. */
  #next = new Int32Array(1024);
  #count = 0;
  /** Points on the edges of the cell at hand. */
  readonly #met = new Int32Array(8);
  /** Points on the edges of the grid's border, by cell: valid only where the posts of the edge differ. */
  readonly #south: Int32Array;
  readonly #west: Int32Array;
  readonly #east: Int32Array;
  /** While rows are scanned: the upper edges of the row before. */
  readonly #north: Int32Array;

  constructor(posts: Posts, ranges: Float64Array, level: number, isStrict: boolean) {
    this.#posts = posts;
    this.#ranges = ranges;
    this.#level = level;
    this.#isStrict = isStrict;
    this.#south = new Int32Array(posts.columns - 1);
    this.#north = new Int32Array(posts.columns - 1);
    this.#west = new Int32Array(posts.rows - 1);
    this.#east = new Int32Array(posts.rows - 1);
  }

  rings(): Ring[] {
    this.#cells();
    this.#border();
    return this.#collect();
  }

  #isIn(value: number): boolean {
    return this.#isStrict ? value > this.#level : value >= this.#level;
  }

  /** How far along from a to b the level is met, 0…1; exactly 1 when b lies on it. */
  #along(a: number, b: number): number {
    return (this.#level - a) / (b - a);
  }

  #point(u: number, v: number): number {
    this.#u[this.#count] = u;
    this.#v[this.#count] = v;
    return this.#count++;
  }

  #makeRoom(points: number): void {
    if (this.#count + points <= this.#u.length) return;
    const size = Math.max(this.#u.length * 2, this.#count + points);
    const u = new Float64Array(size);
    const v = new Float64Array(size);
    const next = new Int32Array(size);
    u.set(this.#u);
    v.set(this.#v);
    next.set(this.#next);
    this.#u = u;
    this.#v = v;
    this.#next = next;
  }

  #cells(): void {
    const { columns, rows } = this.#posts;
    const across = (columns - 2 + BLOCK) >> BLOCK_BITS;
    for (let row = 0; row < rows - 1; row++) {
      // At most eight points a cell, so that none of them need ask for room.
      this.#makeRoom(8 * columns);
      const blockRow = (row >> BLOCK_BITS) * across;
      for (let block = 0; block < across; block++) {
        const range = 2 * (blockRow + block);
        if (this.#isIn(this.#ranges[range]) || !this.#isIn(this.#ranges[range + 1])) continue;
        this.#strip(row, block << BLOCK_BITS, Math.min((block + 1) << BLOCK_BITS, columns - 1));
      }
    }
  }

  /**
   * The cells of one row of a block. Who shares an edge with a cell shares its two posts, so where the level crosses the
   * edge it has not been skipped: the cell below left its upper point in #north, the one before its right point in #east.
   */
  #strip(row: number, from: number, to: number): void {
    const { columns, values } = this.#posts;
    const isStrict = this.#isStrict;
    const level = this.#level;
    const met = this.#met;
    const next = this.#next;
    const below = this.#north;
    let at = row * columns + from;
    let sw = values[at];
    let nw = values[at + columns];
    let swIn = (isStrict ? sw > level : sw >= level) ? 1 : 0;
    let nwIn = (isStrict ? nw > level : nw >= level) ? 1 : 0;
    met[E] = this.#east[row];
    for (let column = from; column < to; column++, at++) {
      const se = values[at + 1];
      const ne = values[at + columns + 1];
      const seIn = (isStrict ? se > level : se >= level) ? 1 : 0;
      const neIn = (isStrict ? ne > level : ne >= level) ? 1 : 0;
      const rim = swIn | (seIn << 1) | (neIn << 2) | (nwIn << 3);
      if (rim !== 0 && rim !== 15) {
        const centre = centreOf(sw, se, nw, ne);
        const centreIn = (isStrict ? centre > level : centre >= level) ? 1 : 0;
        met[W] = met[E];
        met[S] = below[column];
        if (column === 0 && swIn !== nwIn) met[W] = this.#west[row] = this.#point(0, row + this.#along(sw, nw));
        if (row === 0 && swIn !== seIn) met[S] = this.#south[column] = this.#point(column + this.#along(sw, se), 0);
        if (seIn !== neIn) met[E] = this.#point(column + 1, row + this.#along(se, ne));
        if (nwIn !== neIn) met[N] = below[column] = this.#point(column + this.#along(nw, ne), row + 1);
        if (swIn !== centreIn) {
          const half = this.#along(sw, centre) / 2;
          met[4] = this.#point(column + half, row + half);
        }
        if (seIn !== centreIn) {
          const half = this.#along(se, centre) / 2;
          met[5] = this.#point(column + 1 - half, row + half);
        }
        if (neIn !== centreIn) {
          const half = this.#along(ne, centre) / 2;
          met[6] = this.#point(column + 1 - half, row + 1 - half);
        }
        if (nwIn !== centreIn) {
          const half = this.#along(nw, centre) / 2;
          met[7] = this.#point(column + half, row + 1 - half);
        }
        for (let i = 9 * (rim | (centreIn << 4)); PIECES[i] >= 0; i += 2) next[met[PIECES[i]]] = met[PIECES[i + 1]];
      }
      sw = se;
      nw = ne;
      swIn = seIn;
      nwIn = neIn;
    }
    this.#east[row] = met[E];
  }

  /** Follow the border counter-clockwise from its south-west corner, and join what is in along it. */
  #border(): void {
    const { columns, rows, values } = this.#posts;
    this.#makeRoom(4);
    const corners = [0, columns - 1, rows * columns - 1, (rows - 1) * columns];
    const strides = [1, columns, -1, -columns];
    const points = [this.#south, this.#east, this.#north, this.#west];
    const us = [0, columns - 1, columns - 1, 0];
    const vs = [0, 0, rows - 1, rows - 1];
    let first = -1;
    let last = -1;
    for (let side = 0; side < 4; side++) {
      let at = corners[side];
      let isIn = this.#isIn(values[at]);
      if (isIn) {
        const corner = this.#point(us[side], vs[side]);
        if (last >= 0) this.#next[last] = corner;
        if (side === 0) first = corner;
        last = corner;
      }
      const edges = points[side];
      for (let i = 0; i < edges.length; i++) {
        at += strides[side];
        const willBeIn = this.#isIn(values[at]);
        if (isIn === willBeIn) continue;
        const point = edges[side < 2 ? i : edges.length - 1 - i];
        if (isIn) this.#next[last] = point;
        last = isIn ? -1 : point;
        isIn = willBeIn;
      }
    }
    if (last >= 0) this.#next[last] = first;
  }

  /** Walk every ring once, from its earliest point. */
  #collect(): Ring[] {
    const { stepX, stepY, originX, originY } = this.#posts;
    const next = this.#next;
    const rings: Ring[] = [];
    const walked = new Float64Array(2 * this.#count);
    for (let begin = 0; begin < this.#count; begin++) {
      let length = 0;
      for (let point = begin; next[point] >= 0; ) {
        const x = originX + this.#u[point] * stepX;
        const y = originY + this.#v[point] * stepY;
        // Where a post lies on the level, the points of several edges are that post.
        if (length === 0 || x !== walked[length - 2] || y !== walked[length - 1]) {
          walked[length] = x;
          walked[length + 1] = y;
          length += 2;
        }
        const after = next[point];
        next[point] = -1;
        point = after;
      }
      while (length > 2 && walked[length - 2] === walked[0] && walked[length - 1] === walked[1]) length -= 2;
      if (length < 6) continue;
      const ring = walked.slice(0, length);
      if (ringArea(ring) !== 0) rings.push(ring);
    }
    return rings;
  }
}
