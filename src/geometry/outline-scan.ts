import { BLOCK, BLOCK_BITS, rangesOfBlocks } from './block-ranges.ts';
import { AT_U, AT_V, BY_U, BY_V, E, FROM, N, ON_ROW, PIECES, POINTS, S, TO, TOLD, W } from './outline-cells.ts';

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

/** What is told of a point: it lies near an end of its edge. */
export const NEAR_END = 1;
/** The piece that starts at it lies in a cell that has a point near an end of its edge. */
export const CLOSE = 8;
/** What starts at it runs along the border of the grid. */
export const ON_BORDER = 16;

/** `before` of a point that is the first of its row. */
export const NONE = -1;

/**
 * Finds the points of an outline at one level, and what follows what; the next level overwrites them, so that memory is
 * asked for once. Points come row by row of cells, and in a row from west to east.
 *
 * O(posts) once; then O(blocks + cells of the blocks that the level crosses).
 */
export class OutlineScan {
  readonly posts: Posts;
  readonly #ranges: Float64Array;
  /** Points nearer to an end of their edge than this share of it are NEAR_END. */
  readonly #near: number;
  #level = 0;
  /** Posts exactly at the level are out. */
  #isStrict = false;
  /** Points in steps from the origin: a post is a whole number, exactly. */
  u = new Float64Array(1024);
  v = new Float64Array(1024);
  /** The point that follows each point, what is in on the left. */
  next = new Int32Array(1024);
  /** The point before a point in its row of posts; only where ON_ROW. */
  before = new Int32Array(1024);
  told = new Uint8Array(1024);
  count = 0;
  /** Points from this one on are corners of the grid. */
  firstCorner = 0;
  /** Points on the edges of the cell at hand. */
  readonly #met = new Int32Array(8);
  /** Values at its posts SW SE NE NW, and at its centre. */
  readonly #ends = new Float64Array(5);
  /** Points on the edges of the grid's border, by cell: valid only where the posts of the edge differ. */
  readonly #south: Int32Array;
  readonly west: Int32Array;
  readonly #east: Int32Array;
  /** While rows are scanned: the upper edges of the row before. */
  readonly #north: Int32Array;
  readonly #runs: Int32Array;
  /** The last point found on the row of posts beneath the cells at hand, for the first row, and on the one above them. */
  #lastSouth = NONE;
  #lastNorth = NONE;

  constructor(posts: Posts, near = 0) {
    this.posts = posts;
    this.#near = near;
    this.#ranges = rangesOfBlocks(posts.columns, posts.rows, posts.values);
    this.#south = new Int32Array(posts.columns - 1);
    this.#north = new Int32Array(posts.columns - 1);
    this.west = new Int32Array(posts.rows - 1);
    this.#east = new Int32Array(posts.rows - 1);
    this.#runs = new Int32Array(posts.columns + 2);
  }

  scan(level: number, rule: InRule): void {
    this.#level = level;
    this.#isStrict = rule === 'above';
    this.count = 0;
    this.#lastSouth = NONE;
    this.#cells();
    this.firstCorner = this.count;
    this.#border();
  }

  isIn(value: number): boolean {
    return this.#isStrict ? value > this.#level : value >= this.#level;
  }

  /** The last point, or the corner, before a row of posts leaves what is in along the west border; NONE when its first post is out. */
  onWestBorder(row: number): number {
    const { columns, values } = this.posts;
    let at = row;
    if (!this.isIn(values[row * columns])) return NONE;
    while (at > 0 && this.isIn(values[(at - 1) * columns])) at--;
    return at > 0 ? this.west[at - 1] : this.firstCorner;
  }

  #makeRoom(points: number): void {
    if (this.count + points <= this.u.length) return;
    const size = Math.max(this.u.length * 2, this.count + points);
    const [u, v, next, before, told] = [this.u, this.v, this.next, this.before, this.told];
    this.u = new Float64Array(size);
    this.v = new Float64Array(size);
    this.next = new Int32Array(size);
    this.before = new Int32Array(size);
    this.told = new Uint8Array(size);
    this.u.set(u);
    this.v.set(v);
    this.next.set(next);
    this.before.set(before);
    this.told.set(told);
  }

  #cells(): void {
    const { columns, rows } = this.posts;
    const across = (columns - 2 + BLOCK) >> BLOCK_BITS;
    const ranges = this.#ranges;
    const runs = this.#runs;
    for (let firstRow = 0, at = 0; firstRow < rows - 1; firstRow += BLOCK) {
      // First and last column of the runs of blocks that the level crosses.
      let ends = 0;
      for (let block = 0; block < across; block++, at += 2) {
        if (this.isIn(ranges[at]) || !this.isIn(ranges[at + 1])) continue;
        const from = block << BLOCK_BITS;
        if (ends === 0 || runs[ends - 1] !== from) {
          runs[ends] = from;
          ends += 2;
        }
        runs[ends - 1] = from + BLOCK;
      }
      for (let row = firstRow; row < Math.min(firstRow + BLOCK, rows - 1); row++) {
        // At most eight points a cell, so that none of them need ask for room.
        this.#makeRoom(8 * columns);
        this.#lastNorth = NONE;
        for (let run = 0; run < ends; run += 2) this.#strip(row, runs[run], Math.min(runs[run + 1], columns - 1));
      }
    }
  }

  /**
   * The cells of one row of a run of blocks. Who shares an edge with a cell shares its two posts, so where the level crosses the
   * edge it has not been skipped: the cell below left its upper point in #north, the one before its right point in #east.
   */
  #strip(row: number, from: number, to: number): void {
    const { columns, values } = this.posts;
    const { u, v, next, before, told } = this;
    const isStrict = this.#isStrict;
    const level = this.#level;
    const met = this.#met;
    const below = this.#north;
    const near = this.#near;
    const far = 1 - near;
    const ends = this.#ends;
    let lastNorth = this.#lastNorth;
    let count = this.count;
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
        // How far along its edge from a to b the level is met is (level − a) ÷ (b − a): exactly 1 when b lies on it.
        if (column === 0 && swIn !== nwIn) {
          const along = (level - sw) / (nw - sw);
          u[count] = 0;
          v[count] = row + along;
          told[count] = along < near || along > far ? NEAR_END : 0;
          met[W] = this.west[row] = count++;
        }
        if (row === 0 && swIn !== seIn) {
          const along = (level - sw) / (se - sw);
          u[count] = column + along;
          v[count] = 0;
          told[count] = ON_ROW | (swIn << 2) | (along < near || along > far ? NEAR_END : 0);
          before[count] = this.#lastSouth;
          met[S] = this.#south[column] = this.#lastSouth = count++;
        }
        ends[0] = sw;
        ends[1] = se;
        ends[2] = ne;
        ends[3] = nw;
        ends[4] = centre;
        const pattern = rim | (centreIn << 4);
        for (let i = 7 * pattern; POINTS[i] >= 0; i++) {
          const edge = POINTS[i];
          const from = ends[FROM[edge]];
          const along = (level - from) / (ends[TO[edge]] - from);
          u[count] = column + AT_U[edge] + along * BY_U[edge];
          v[count] = row + AT_V[edge] + along * BY_V[edge];
          told[count] = TOLD[i] | (along < near || along > far ? NEAR_END : 0);
          before[count] = lastNorth;
          met[edge] = count++;
        }
        if (nwIn !== neIn) below[column] = lastNorth = met[N];
        const first = 9 * pattern;
        let isNear = 0;
        for (let i = first; PIECES[i] >= 0; i += 2) {
          const start = met[PIECES[i]];
          const end = met[PIECES[i + 1]];
          next[start] = end;
          isNear |= told[start] | told[end];
        }
        if ((isNear & NEAR_END) !== 0) {
          for (let i = first; PIECES[i] >= 0; i += 2) told[met[PIECES[i]]] |= CLOSE;
        }
      }
      sw = se;
      nw = ne;
      swIn = seIn;
      nwIn = neIn;
    }
    this.count = count;
    this.#lastNorth = lastNorth;
    this.#east[row] = met[E];
  }

  /** Follow the border counter-clockwise from its south-west corner, and join what is in along it. */
  #border(): void {
    const { columns, rows, values } = this.posts;
    this.#makeRoom(4);
    const corners = [0, columns - 1, rows * columns - 1, (rows - 1) * columns];
    const strides = [1, columns, -1, -columns];
    const points = [this.#south, this.#east, this.#north, this.west];
    const us = [0, columns - 1, columns - 1, 0];
    const vs = [0, 0, rows - 1, rows - 1];
    let first = -1;
    let last = -1;
    const join = (point: number) => {
      this.next[last] = point;
      this.told[last] |= ON_BORDER;
    };
    for (let side = 0; side < 4; side++) {
      let at = corners[side];
      let isIn = this.isIn(values[at]);
      if (isIn) {
        const corner = this.count++;
        this.u[corner] = us[side];
        this.v[corner] = vs[side];
        this.told[corner] = 0;
        if (last >= 0) join(corner);
        if (side === 0) first = corner;
        last = corner;
      }
      const edges = points[side];
      for (let i = 0; i < edges.length; i++) {
        at += strides[side];
        const willBeIn = this.isIn(values[at]);
        if (isIn === willBeIn) continue;
        const point = edges[side < 2 ? i : edges.length - 1 - i];
        if (isIn) join(point);
        last = isIn ? -1 : point;
        isIn = willBeIn;
      }
    }
    if (last >= 0) join(first);
  }
}
