/**
 * The faces of a surface that look down with air beneath them, where shells may overlap, touch or cross.
 *
 * A place is filled from one level to another when the winding number is 1 or more at every height between. Going down
 * from where it is, that ends only at a face that looks down with a winding number of 0 just beneath. In a surface whose
 * shells lie apart every such face is one; where shells overlap, one that lies inside another shell is not, and one that
 * crosses others is in some of its places. What is just beneath a face is counted in plan, as the faces above its plane:
 * up +1, down −1. Each face is cut by that plane exactly, since in plan both are flat.
 *
 * Road not taken: uniting the shells in space first needs their crossings resolved vertex by vertex; and thin slices,
 * each with the rule for shells apart, lose less and less of the overlap but always some.
 */
import Flatbush from 'flatbush';
import { Band, undersides } from './bands.ts';
import { regionsWherePositive, subtract, unite } from './clip.ts';
import { EdgeSum } from './edge-sum.ts';
import { type Region, type Ring, ringsOf } from './ring.ts';
import type { Surface } from './sections.ts';

/** Heights closer than this are the same: a thousandth of SNAP. */
const SAME = 1e-6;

const UNKNOWN = 0;
const FREE = 1;
const HELD = 2;
const MIXED = 3;

/**
 * For each two neighbouring rising levels, rings that wind (nonzero) round all that is a face looking down within, with air
 * just beneath. Yields progress 0…1. O(n log n + pairs of faces over each other); only faces that others cross are clipped.
 */
export function* freeUndersides(surface: Surface, levels: ArrayLike<number>): Generator<number, Ring[][], unknown> {
  const { starts, members } = undersides(surface, levels);
  const state = new Uint8Array(surface.triangles.length / 3);
  const plan = members.length > 0 ? new Plan(surface) : null;
  const held = new Map<number, readonly Region[]>();
  const result: Ring[][] = [];
  for (let k = 0; k + 1 < levels.length; k++) {
    const down = members.subarray(starts[k], starts[k + 1]);
    const rings: Ring[] = [];
    for (const face of down) {
      if (state[face] === UNKNOWN && plan) state[face] = plan.beneath(face);
      if (state[face] !== MIXED || !plan) continue;
      const own = new Band(surface, levels[k], levels[k + 1]);
      own.addFaces(Uint32Array.of(face), true);
      const below = held.get(face) ?? plan.heldRegions(face);
      held.set(face, below);
      rings.push(...ringsOf(subtract(unite([own.rings()]), below)));
    }
    const band = new Band(surface, levels[k], levels[k + 1]);
    band.addFaces(
      down.filter((face) => state[face] === FREE),
      true,
    );
    result.push([...band.rings(), ...rings]);
    yield (k + 1) / (levels.length - 1);
  }
  return result;
}

/** Finds faces by their place in plan. */
class Plan {
  readonly #p: Float64Array;
  readonly #t: Uint32Array;
  readonly #index: Flatbush;

  constructor({ positions, triangles }: Surface) {
    this.#p = positions;
    this.#t = triangles;
    this.#index = new Flatbush(triangles.length / 3, 16, Float64Array);
    for (let face = 0; face < triangles.length / 3; face++) this.#index.add(...this.#box(face));
    this.#index.finish();
  }

  /** What is just beneath a face that looks down. */
  beneath(face: number): typeof FREE | typeof HELD | typeof MIXED {
    const over = new Over(this.#p, this.#t, face);
    for (const other of this.#index.search(...this.#box(face))) {
      if (other !== face && over.isCrossedBy(other)) return MIXED;
    }
    // Nothing crosses it: what is beneath its middle is beneath all of it.
    const [x, y] = over.middle;
    let winding = -1;
    for (const other of this.#index.search(x, y, x, y)) if (other !== face) winding += over.windingAbove(other, x, y);
    return winding > 0 ? HELD : FREE;
  }

  /** Where in plan something solid is just beneath a face. */
  heldRegions(face: number) {
    const over = new Over(this.#p, this.#t, face);
    const sum = new EdgeSum();
    for (const other of this.#index.search(...this.#box(face))) over.addAbove(other, sum);
    return regionsWherePositive(sum.rings());
  }

  #box(face: number): [number, number, number, number] {
    const [a, b, c] = [3 * this.#t[3 * face], 3 * this.#t[3 * face + 1], 3 * this.#t[3 * face + 2]];
    const p = this.#p;
    return [
      Math.min(p[a], p[b], p[c]),
      Math.min(p[a + 1], p[b + 1], p[c + 1]),
      Math.max(p[a], p[b], p[c]),
      Math.max(p[a + 1], p[b + 1], p[c + 1]),
    ];
  }
}

/** Holds other faces against the plane of one. */
class Over {
  readonly #p: Float64Array;
  readonly #t: Uint32Array;
  readonly #a: number;
  readonly #b: number;
  readonly #c: number;
  readonly #slopeX: number;
  readonly #slopeY: number;
  /** Heights of another face's corners over the plane. */
  readonly #high = new Float64Array(3);

  constructor(p: Float64Array, t: Uint32Array, face: number) {
    this.#p = p;
    this.#t = t;
    const a = 3 * t[3 * face];
    const b = 3 * t[3 * face + 1];
    const c = 3 * t[3 * face + 2];
    const [ux, uy, uz] = [p[b] - p[a], p[b + 1] - p[a + 1], p[b + 2] - p[a + 2]];
    const [vx, vy, vz] = [p[c] - p[a], p[c + 1] - p[a + 1], p[c + 2] - p[a + 2]];
    const nz = ux * vy - uy * vx;
    this.#a = a;
    this.#b = b;
    this.#c = c;
    this.#slopeX = (uz * vy - uy * vz) / nz;
    this.#slopeY = (ux * vz - uz * vx) / nz;
  }

  get middle(): readonly [number, number] {
    const p = this.#p;
    const [a, b, c] = [this.#a, this.#b, this.#c];
    return [(p[a] + p[b] + p[c]) / 3, (p[a + 1] + p[b + 1] + p[c + 1]) / 3];
  }

  /** Whether another face goes through this one, or lies on it. */
  isCrossedBy(other: number): boolean {
    const high = this.#heights(other);
    const isOn = high[0] === 0 && high[1] === 0 && high[2] === 0;
    if (!isOn && (Math.min(high[0], high[1], high[2]) >= 0 || Math.max(high[0], high[1], high[2]) <= 0)) return false;
    const p = this.#p;
    const ends: number[] = [];
    for (let i = 0; i < 3; i++) {
      const v = 3 * this.#t[3 * other + i];
      const w = 3 * this.#t[3 * other + ((i + 1) % 3)];
      const [from, to] = [high[i], high[(i + 1) % 3]];
      if (from === 0) ends.push(p[v], p[v + 1]);
      else if (to !== 0 && from < 0 !== to < 0) {
        const t = from / (from - to);
        ends.push(p[v] + t * (p[w] - p[v]), p[v + 1] + t * (p[w + 1] - p[v + 1]));
      }
    }
    return isOn ? this.#sharesArea(ends) : this.#isEntered(ends[0], ends[1], ends[2], ends[3]);
  }

  /** How often a face above the plane is run round a point: 1 when it looks up, −1 when down, 0 when it is not there. */
  windingAbove(other: number, x: number, y: number): number {
    const p = this.#p;
    let around = 0;
    for (let i = 0; i < 3; i++) {
      const v = 3 * this.#t[3 * other + i];
      const w = 3 * this.#t[3 * other + ((i + 1) % 3)];
      if (p[v] > x === p[w] > x) continue;
      const [l, r] = p[v] < p[w] ? [v, w] : [w, v];
      const t = (x - p[l]) / (p[r] - p[l]);
      if (p[l + 1] + t * (p[r + 1] - p[l + 1]) > y) around += p[w] > x ? -1 : 1;
    }
    if (around === 0) return 0;
    const own = new Over(p, this.#t, other);
    return own.#heightAt(x, y) > this.#heightAt(x, y) ? around : 0;
  }

  /** Add what of another face lies in or above the plane, in plan and in its own sense. */
  addAbove(other: number, sum: EdgeSum): void {
    const high = this.#heights(other);
    let begin = -1;
    let last = -1;
    for (let i = 0; i < 3; i++) {
      const v = this.#t[3 * other + i];
      const w = this.#t[3 * other + ((i + 1) % 3)];
      const from = high[i];
      const to = high[(i + 1) % 3];
      for (let k = 0; k < 2; k++) {
        // First the corner itself, then where the edge goes through the plane.
        const isMet = k === 0 ? from >= 0 : (from < 0 && to > 0) || (from > 0 && to < 0);
        if (!isMet) continue;
        const point = k === 0 ? this.#pointAt(sum, v, v, 0) : this.#pointAt(sum, v, w, from / (from - to));
        if (begin < 0) begin = point;
        else sum.edge(last, point);
        last = point;
      }
    }
    if (begin >= 0) sum.edge(last, begin);
  }

  #pointAt(sum: EdgeSum, v: number, w: number, t: number): number {
    const known = sum.size;
    const point = sum.point(Math.min(v, w), Math.max(v, w));
    if (point < known) return point;
    for (let axis = 0; axis < 2; axis++) {
      const start = this.#p[3 * v + axis];
      sum.xy[2 * point + axis] = start + t * (this.#p[3 * w + axis] - start);
    }
    return point;
  }

  #heightAt(x: number, y: number): number {
    return this.#p[this.#a + 2] + this.#slopeX * (x - this.#p[this.#a]) + this.#slopeY * (y - this.#p[this.#a + 1]);
  }

  #heights(other: number): Float64Array {
    const high = this.#high;
    for (let i = 0; i < 3; i++) {
      const v = 3 * this.#t[3 * other + i];
      const over = this.#p[v + 2] - this.#heightAt(this.#p[v], this.#p[v + 1]);
      high[i] = v === this.#a || v === this.#b || v === this.#c || Math.abs(over) <= SAME ? 0 : over;
    }
    return high;
  }

  /** Whether a line in plan runs inside the face for more than a touch. */
  #isEntered(x0: number, y0: number, x1: number, y1: number): boolean {
    const p = this.#p;
    const corners = [this.#a, this.#b, this.#c];
    let from = 0;
    let to = 1;
    for (let i = 0; i < 3; i++) {
      const v = corners[i];
      const w = corners[(i + 1) % 3];
      const [ex, ey] = [p[w] - p[v], p[w + 1] - p[v + 1]];
      const length = Math.sqrt(ex * ex + ey * ey);
      // The face looks down, so its inside is on the right of its edges. In by more than a touch.
      const start = ((x0 - p[v]) * ey - (y0 - p[v + 1]) * ex) / length - SAME;
      const end = ((x1 - p[v]) * ey - (y1 - p[v + 1]) * ex) / length - SAME;
      if (start < 0 && end < 0) return false;
      if (start < 0) from = Math.max(from, start / (start - end));
      else if (end < 0) to = Math.min(to, start / (start - end));
    }
    return to > from;
  }

  /** Whether a triangle in plan covers some of the face, more than a touch: two convex figures with no line between. */
  #sharesArea(other: readonly number[]): boolean {
    const p = this.#p;
    const own = [this.#a, this.#b, this.#c].flatMap((v) => [p[v], p[v + 1]]);
    return !isBeside(own, other) && !isBeside(other, own);
  }
}

/** Whether the line along one of a triangle's sides has another triangle on its outer side, or touching it. */
function isBeside(one: readonly number[], other: readonly number[]): boolean {
  const turn = Math.sign((one[2] - one[0]) * (one[5] - one[1]) - (one[4] - one[0]) * (one[3] - one[1]));
  for (let i = 0; i < 6; i += 2) {
    const ex = turn * (one[(i + 2) % 6] - one[i]);
    const ey = turn * (one[(i + 3) % 6] - one[i + 1]);
    const length = Math.sqrt(ex * ex + ey * ey);
    let isOut = true;
    for (let k = 0; k < 6; k += 2) {
      if (ex * (other[k + 1] - one[i + 1]) - ey * (other[k] - one[i]) > SAME * length) isOut = false;
    }
    if (isOut) return true;
  }
  return false;
}
