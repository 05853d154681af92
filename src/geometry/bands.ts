import { EdgeSum } from './edge-sum.ts';
import type { Ring } from './ring.ts';
import { bucketed, type Crossed, crossed, crossing, ranksOf, type Surface, sectionAt } from './sections.ts';

/**
 * Outline in plan what a closed surface covers, or fills, between each two neighbouring rising levels.
 *
 * `covered`: rings that wind (nonzero) round all that the solid covers at any height strictly within the band: its
 * section just above the lower level, and every face within the band that looks down. `filled`: rings that wind
 * positively round what is solid from the lower level to the upper: its section just below the upper level, less those
 * faces, since who is in the solid at the top and not all the way down must meet one on the way. Faces that look up,
 * stand upright or lie exactly in a level do not count. Where shells overlap or touch, `filled` takes too much away: see
 * undersides.ts.
 *
 *     upper ──┬──────┬──        The faces are cut to the band and laid flat. Edges that are run both ways, between two
 *             │solid/           faces or between a face and the section, cancel by number, not by coordinate: only
 *     lower ──┴───/────         the outline is left. (Left to the clipping they took 27 times as long.)
 *
 * One list of rings a band. Yields progress 0…1. O(triangles + what is cut). Throws when the surface is not closed.
 */
export function* bands(
  surface: Surface,
  levels: ArrayLike<number>,
  what: 'covered' | 'filled',
): Generator<number, Ring[][], unknown> {
  const count = Math.max(0, levels.length - 1);
  const isCovered = what === 'covered';
  const cutLevels = Float64Array.from({ length: count }, (_, k) => levels[isCovered ? k : k + 1]);
  const cuts = crossed(surface, cutLevels, isCovered ? 'above' : 'at or above');
  const { starts, members } = undersides(surface, levels);
  const result: Ring[][] = [];
  for (let k = 0; k < count; k++) {
    const down = members.subarray(starts[k], starts[k + 1]);
    if (down.length === 0) result.push(sectionAt(surface, cuts, k, cutLevels[k]));
    else {
      const band = new Band(surface, levels[k], levels[k + 1]);
      band.addFaces(down, isCovered);
      band.addSection(cuts, k, isCovered);
      result.push(band.rings());
    }
    yield (k + 1) / count;
  }
  return result;
}

/** The triangles that look down, by the bands that they reach into. */
export function undersides({ positions, triangles }: Surface, levels: ArrayLike<number>) {
  const above = ranksOf(positions, levels, 'above');
  const atOrAbove = ranksOf(positions, levels, 'at or above');
  const count = Math.max(0, levels.length - 1);
  return bucketed(triangles.length / 3, count, (triangle, range) => {
    const a = triangles[3 * triangle];
    const b = triangles[3 * triangle + 1];
    const c = triangles[3 * triangle + 2];
    range[0] = range[1] = 0;
    if (!facesDown(positions, a, b, c)) return;
    // In band k when the lowest vertex is below level k + 1 and the highest above level k.
    range[0] = Math.max(0, Math.min(atOrAbove[a], atOrAbove[b], atOrAbove[c]) - 1);
    range[1] = Math.min(count, Math.max(above[a], above[b], above[c]));
  });
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

/** Adds up directed edges in one band. */
export class Band {
  readonly #surface: Surface;
  readonly #lower: number;
  readonly #upper: number;
  /** A vertex v is (v, v); a point of the edge between v < w at the lower level is (v, w), at the upper one (w, v). */
  readonly #sum = new EdgeSum();

  constructor(surface: Surface, lower: number, upper: number) {
    this.#surface = surface;
    this.#lower = lower;
    this.#upper = upper;
  }

  /** Faces that look down run clockwise seen from above: backwards they add what they cover, as they are they take it. */
  addFaces(members: Uint32Array, isAdded: boolean): void {
    const { triangles } = this.#surface;
    for (const triangle of members) {
      const at = 3 * triangle;
      if (isAdded) this.#add(triangles[at], triangles[at + 2], triangles[at + 1]);
      else this.#add(triangles[at], triangles[at + 1], triangles[at + 2]);
    }
  }

  /** The section at the lower or upper level: in each triangle, from the edge that runs down to the one that runs up. */
  addSection(cuts: Crossed, k: number, isLower: boolean): void {
    const { triangles } = this.#surface;
    for (const triangle of cuts.membersOf(k)) {
      let start = 0;
      let end = 0;
      for (let corner = 0; corner < 3; corner++) {
        const v = triangles[3 * triangle + corner];
        const w = triangles[3 * triangle + (corner === 2 ? 0 : corner + 1)];
        const isUp = k < cuts.ranks[v];
        if (isUp === k < cuts.ranks[w]) continue;
        const point = v < w === isLower ? this.#point(v, w) : this.#point(w, v);
        if (isUp) start = point;
        else end = point;
      }
      this.#sum.edge(start, end);
    }
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
        else this.#sum.edge(last, point);
        last = point;
      }
    }
    if (begin >= 0) this.#sum.edge(last, begin);
  }

  #side(v: number): number {
    const z = this.#surface.positions[3 * v + 2];
    return z <= this.#lower ? BELOW : z >= this.#upper ? ABOVE : WITHIN;
  }

  #point(v: number, w: number): number {
    const known = this.#sum.size;
    const point = this.#sum.point(v, w);
    if (point < known) return point;
    const { positions } = this.#surface;
    const { xy } = this.#sum;
    if (v === w) {
      xy[2 * point] = positions[3 * v];
      xy[2 * point + 1] = positions[3 * v + 1];
    } else crossing(positions, v, w, v < w ? this.#lower : this.#upper, xy, 2 * point);
    return point;
  }

  /** The outline of all that was added. Once. */
  rings(): Ring[] {
    return this.#sum.rings();
  }
}
