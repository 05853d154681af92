import { Chains, EdgeGrid } from './edge-grid.ts';
import { type Point, type Region, ringsOf } from './ring.ts';

/** A stretch of material that is narrower than asked for. */
export interface ThinPlace {
  readonly width: number;
  /** The middle of the narrowest width. */
  readonly at: Point;
  /** How far it goes on: across the box of the middles of all its widths. */
  readonly length: number;
  /** Each width met: x and y of its middle, and the width. */
  readonly widths: Float64Array;
}

/** Walls that lean towards one another by up to 60° hold a width between them; more is a corner. */
const LEAST_FACING = 0.5;
/** What rounding may turn a right angle by, and what share of a width the grid of the outlines may take. */
const SQUARE = 1e-6;
const ROUNDED = 1e-4;

/**
 * Find where material is narrower than `least`, the narrowest first.
 *
 * A width is the shortest way from a point of an outline, through the material, to another that faces it: the walls there
 * close in on one another by 60° at most, as at points of the medial axis whose separation is 120° or more (Foskey, Lin,
 * Manocha 2003). Between straight walls the least width is at a corner of one of them; so corners are looked at, and points
 * along longer walls so that what lies between is met too. A point where two walls run together has width 0. Widths nearer
 * than `least` to one another are one place. Chips are let go: places where no width cuts off as much of its outline as
 * twice `least`, unless the whole outline is hardly longer than that.
 *
 * About O(points + length / least + edges within `least` of them). (Shrinking and growing again finds no neck between two
 * round areas, and took 80 s on a rough outline of 30,000 points.)
 */
export function thinPlaces(regions: readonly Region[], least: number): ThinPlace[] {
  const rings = ringsOf(regions);
  if (rings.length === 0 || least <= 0) return [];
  return placesOf(new Walls(rings, least).widths(), least);
}

class Walls {
  readonly #chains: Chains;
  readonly #grid: EdgeGrid;
  readonly #least: number;
  /** Between points that are looked at along an edge. */
  readonly #spacing: number;
  /** Way along its ring to each point; and round each ring. */
  readonly #along: Float64Array;
  readonly #round: Float64Array;
  /** Unit vector of the edge that starts at each point. */
  readonly #ux: Float64Array;
  readonly #uy: Float64Array;
  readonly #found: number[] = [];

  constructor(rings: readonly Float64Array[], least: number) {
    const chains = new Chains(rings);
    const { count, x, y, next, starts } = chains;
    this.#chains = chains;
    this.#grid = new EdgeGrid(chains);
    this.#least = least * (1 - ROUNDED);
    this.#spacing = least / 2;
    this.#along = new Float64Array(count);
    this.#round = new Float64Array(rings.length);
    this.#ux = new Float64Array(count);
    this.#uy = new Float64Array(count);
    for (let r = 0; r < rings.length; r++) {
      let way = 0;
      for (let v = starts[r]; v < starts[r + 1]; v++) {
        const dx = x[next[v]] - x[v];
        const dy = y[next[v]] - y[v];
        const length = Math.sqrt(dx * dx + dy * dy);
        this.#along[v] = way;
        this.#ux[v] = length > 0 ? dx / length : 0;
        this.#uy[v] = length > 0 ? dy / length : 0;
        way += length;
      }
      this.#round[r] = way;
    }
  }

  /** x, y, width and whether only a chip is cut off, of each. */
  widths(): number[] {
    for (let v = 0; v < this.#chains.count; v++) {
      this.#tip(v);
      this.#across(v);
      this.#between(v);
    }
    return this.#found;
  }

  /** Where two walls of some length run together at a corner, or at a short edge. */
  #tip(v: number): void {
    const { x, y, prev, next } = this.#chains;
    const before = prev[v];
    if (this.#lengthOf(before) < this.#spacing) return;
    const after = next[v];
    if (this.#lengthOf(v) >= this.#spacing) {
      if (this.#isConvex(v) && this.#isOpposed(before, v)) this.#found.push(x[v], y[v], 0, 1);
    }
    const width = this.#lengthOf(v);
    if (width >= this.#least || this.#lengthOf(after) < this.#spacing || !this.#isOpposed(before, after)) return;
    if (this.#isConvex(v) && this.#isConvex(after))
      this.#found.push((x[v] + x[after]) / 2, (y[v] + y[after]) / 2, width, 1);
  }

  #isConvex(v: number): boolean {
    const before = this.#chains.prev[v];
    return this.#ux[before] * this.#uy[v] > this.#uy[before] * this.#ux[v];
  }

  /** From points along a longer edge square to edges that run the other way. */
  #between(e: number): void {
    const { x, y, next } = this.#chains;
    const length = this.#lengthOf(e);
    if (length <= this.#spacing) return;
    const near = this.#grid.near(x[e], y[e], x[next[e]], y[next[e]], this.#least);
    const count = Math.ceil(length / this.#spacing);
    for (let i = 0; i < near; i++) {
      const f = this.#grid.found[i];
      if (!this.#isOpposed(e, f)) continue;
      const longest = this.#lengthOf(f);
      for (let k = 1; k < count; k++) {
        const px = x[e] + (k / count) * length * this.#ux[e];
        const py = y[e] + (k / count) * length * this.#uy[e];
        const t = (px - x[f]) * this.#ux[f] + (py - y[f]) * this.#uy[f];
        if (t <= 0 || t >= longest) continue;
        // To the left of an edge there is material.
        const width = (py - y[f]) * this.#ux[f] - (px - x[f]) * this.#uy[f];
        if (width <= 0 || width >= this.#least) continue;
        const isChip = this.#isChip(e, (k / count) * length, f, t);
        this.#found.push(px + (this.#uy[f] * width) / 2, py - (this.#ux[f] * width) / 2, width, isChip ? 1 : 0);
      }
    }
  }

  #isOpposed(e: number, f: number): boolean {
    return this.#ux[e] * this.#ux[f] + this.#uy[e] * this.#uy[f] <= -LEAST_FACING;
  }

  #across(v: number): void {
    const { x, y, next, prev } = this.#chains;
    const ux = this.#ux;
    const uy = this.#uy;
    const px = x[v];
    const py = y[v];
    const before = prev[v];
    const near = this.#grid.near(px, py, px, py, this.#least);
    const found = this.#grid.found;
    const most = this.#least * this.#least;
    for (let i = 0; i < near; i++) {
      const edge = found[i];
      if (edge === v || edge === before) continue;
      const fx = x[edge] - px;
      const fy = y[edge] - py;
      const t = -(fx * ux[edge] + fy * uy[edge]);
      const isCorner = t <= 0;
      if (isCorner && edge === next[v]) continue;
      const dx = isCorner ? fx : fx + t * ux[edge];
      const dy = isCorner ? fy : fy + t * uy[edge];
      const squared = dx * dx + dy * dy;
      if (squared >= most || squared === 0) continue;
      // There is material on the left of an edge; its end belongs to the edge that starts there.
      if (!isCorner && (ux[edge] * dy > uy[edge] * dx || t > this.#lengthOf(edge) * (1 - 1e-12))) continue;
      const width = Math.sqrt(squared);
      if (!this.#faces(v, dx / width, dy / width)) continue;
      if (isCorner && !this.#isNearest(edge, -dx / width, -dy / width)) continue;
      this.#found.push(px + dx / 2, py + dy / 2, width, this.#isChip(v, 0, edge, Math.max(t, 0)) ? 1 : 0);
    }
  }

  /** Whether the material at a corner lies in a direction, and a wall there is square to it within what counts as facing. */
  #faces(v: number, dx: number, dy: number): boolean {
    const before = this.#chains.prev[v];
    const first = this.#ux[before] * dy - this.#uy[before] * dx;
    const second = this.#ux[v] * dy - this.#uy[v] * dx;
    const turns = this.#ux[before] * this.#uy[v] - this.#uy[before] * this.#ux[v];
    if (turns >= 0) return Math.min(first, second) >= -SQUARE && Math.max(first, second) >= LEAST_FACING;
    if (Math.max(first, second) >= LEAST_FACING) return true;
    return this.#isNearest(v, dx, dy);
  }

  /** Whether no point of the outline beside a corner is nearer to what lies in a direction through the material. */
  #isNearest(v: number, dx: number, dy: number): boolean {
    const before = this.#chains.prev[v];
    if (dx * this.#ux[v] + dy * this.#uy[v] > SQUARE || dx * this.#ux[before] + dy * this.#uy[before] < -SQUARE)
      return false;
    const first = this.#ux[before] * dy - this.#uy[before] * dx;
    const second = this.#ux[v] * dy - this.#uy[v] * dx;
    return Math.max(first, second) > 0;
  }

  /** Whether the outline between points of two edges, so far from their starts, is short and the rest of it is not. */
  #isChip(e: number, s: number, f: number, t: number): boolean {
    const { ring } = this.#chains;
    if (ring[e] !== ring[f]) return false;
    const round = this.#round[ring[e]];
    if (round < 4 * this.#least) return false;
    const way = Math.abs(this.#along[f] + t - this.#along[e] - s);
    return Math.min(way, round - way) < 2 * this.#least;
  }

  #lengthOf(v: number): number {
    const next = this.#chains.next[v];
    return (next > v ? this.#along[next] : this.#round[this.#chains.ring[v]]) - this.#along[v];
  }
}

/** Join widths whose middles are near one another, and let chips go. Cells are as wide as they may be apart. */
function placesOf(found: readonly number[], least: number): ThinPlace[] {
  const count = found.length / 4;
  let [minX, minY, maxX] = [Infinity, Infinity, -Infinity];
  for (let i = 0; i < found.length; i += 4) {
    minX = Math.min(minX, found[i]);
    minY = Math.min(minY, found[i + 1]);
    maxX = Math.max(maxX, found[i]);
  }
  const across = Math.floor((maxX - minX) / least) + 3;
  const cellOf = (i: number) =>
    (Math.floor((found[4 * i + 1] - minY) / least) + 1) * across + Math.floor((found[4 * i] - minX) / least) + 1;
  const firsts = new Map<number, number>();
  const after = new Int32Array(count);
  for (let i = 0; i < count; i++) {
    const cell = cellOf(i);
    after[i] = firsts.get(cell) ?? -1;
    firsts.set(cell, i);
  }
  const taken = new Uint8Array(count);
  const places: ThinPlace[] = [];
  // A place has a width that cuts off more than a chip: it is found from there.
  for (let first = 0; first < count; first++) {
    if (taken[first] || found[4 * first + 3] === 1) continue;
    taken[first] = 1;
    const members = [first];
    for (const i of members) {
      const cell = cellOf(i);
      for (let beside = 0; beside < 9; beside++) {
        const at = cell + ((beside % 3) - 1) + (Math.floor(beside / 3) - 1) * across;
        for (let other = firsts.get(at) ?? -1; other >= 0; other = after[other]) {
          if (taken[other]) continue;
          const dx = found[4 * other] - found[4 * i];
          const dy = found[4 * other + 1] - found[4 * i + 1];
          if (dx * dx + dy * dy > least * least) continue;
          taken[other] = 1;
          members.push(other);
        }
      }
    }
    const widths = new Float64Array(3 * members.length);
    for (const [k, i] of members.entries()) {
      for (let value = 0; value < 3; value++) widths[3 * k + value] = found[4 * i + value];
    }
    places.push(placeOf(widths));
  }
  return places.sort((a, b) => a.width - b.width || a.at[0] - b.at[0] || a.at[1] - b.at[1]);
}

function placeOf(widths: Float64Array): ThinPlace {
  let [minX, minY, maxX, maxY, width] = [Infinity, Infinity, -Infinity, -Infinity, Infinity];
  for (let i = 0; i < widths.length; i += 3) {
    minX = Math.min(minX, widths[i]);
    maxX = Math.max(maxX, widths[i]);
    minY = Math.min(minY, widths[i + 1]);
    maxY = Math.max(maxY, widths[i + 1]);
    width = Math.min(width, widths[i + 2]);
  }
  // Of equal widths the one nearest to the middle of all.
  let best = 0;
  let nearest = Infinity;
  for (let i = 0; i < widths.length; i += 3) {
    if (widths[i + 2] > width * (1 + 1e-6)) continue;
    const [dx, dy] = [widths[i] - (minX + maxX) / 2, widths[i + 1] - (minY + maxY) / 2];
    if (dx * dx + dy * dy >= nearest) continue;
    nearest = dx * dx + dy * dy;
    best = i;
  }
  const [dx, dy] = [maxX - minX, maxY - minY];
  return { width, at: [widths[best], widths[best + 1]], length: Math.sqrt(dx * dx + dy * dy), widths };
}
