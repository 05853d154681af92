import { type Ring, squaredDistanceToSegment } from '../../geometry/ring.ts';

/** Edges of several owners, gathered one by one. */
export class Edges {
  /** x, y, x, y of each edge. */
  readonly at: number[] = [];
  readonly owners: number[] = [];

  add(owner: number, rings: readonly Ring[]): void {
    for (const ring of rings) {
      for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
        this.at.push(ring[j], ring[j + 1], ring[i], ring[i + 1]);
        this.owners.push(owner);
      }
    }
  }
}

/** Two owners with edges near each other: a < b, the least distance, and whether edges cross. */
export interface Near {
  readonly a: number;
  readonly b: number;
  readonly distance: number;
  readonly crosses: boolean;
}

/** Crossings are judged on this many units a millimetre: whole micrometres, so that the arithmetic is exact. */
const UNITS = 1000;

/**
 * Every two owners that have edges within a distance of each other. A sweep over x: edges wait in the order of their
 * left ends, and each is compared with those that are still near. O(n log n + pairs whose spans in x meet).
 */
export function nearPairs({ at, owners }: Edges, within: number): Near[] {
  const left = (e: number) => Math.min(at[4 * e], at[4 * e + 2]);
  const right = (e: number) => Math.max(at[4 * e], at[4 * e + 2]);
  const order = owners.map((_, edge) => edge).sort((a, b) => left(a) - left(b) || a - b);
  const found = new Map<string, { a: number; b: number; squared: number; crosses: boolean }>();
  const waiting: number[] = [];
  for (const edge of order) {
    const from = left(edge) - within;
    const low = Math.min(at[4 * edge + 1], at[4 * edge + 3]) - within;
    const high = Math.max(at[4 * edge + 1], at[4 * edge + 3]) + within;
    let kept = 0;
    for (const other of waiting) {
      if (right(other) < from) continue;
      waiting[kept++] = other;
      if (owners[other] === owners[edge]) continue;
      const y0 = at[4 * other + 1];
      const y1 = at[4 * other + 3];
      if ((y0 < low && y1 < low) || (y0 > high && y1 > high)) continue;
      const crosses = cross(at, edge, other);
      const squared = crosses ? 0 : squaredDistance(at, edge, other);
      if (squared > within * within) continue;
      const [a, b] = owners[edge] < owners[other] ? [owners[edge], owners[other]] : [owners[other], owners[edge]];
      const key = `${a}/${b}`;
      const before = found.get(key);
      if (!before) found.set(key, { a, b, squared, crosses });
      else {
        before.squared = Math.min(before.squared, squared);
        before.crosses ||= crosses;
      }
    }
    waiting.length = kept;
    waiting.push(edge);
  }
  return [...found.values()].map(({ a, b, squared, crosses }) => ({ a, b, distance: Math.sqrt(squared), crosses }));
}

/** Least distance of two edges that do not cross: from an end of one to the other. */
function squaredDistance(at: readonly number[], one: number, other: number): number {
  let least = Infinity;
  for (const [point, segment] of [
    [4 * one, 4 * other],
    [4 * one + 2, 4 * other],
    [4 * other, 4 * one],
    [4 * other + 2, 4 * one],
  ]) {
    least = Math.min(
      least,
      squaredDistanceToSegment(
        at[point],
        at[point + 1],
        at[segment],
        at[segment + 1],
        at[segment + 2],
        at[segment + 3],
      ),
    );
  }
  return least;
}

/** Whether two edges pass through each other, ends on opposite sides both ways. Touching is no crossing. */
const cross = (at: readonly number[], one: number, other: number): boolean =>
  side(at, 4 * one, 4 * other) * side(at, 4 * one, 4 * other + 2) < 0 &&
  side(at, 4 * other, 4 * one) * side(at, 4 * other, 4 * one + 2) < 0;

/** On which side of an edge a point lies: 1 left, −1 right, 0 on its line. Exact while coordinates are under 47 m. */
function side(at: readonly number[], edge: number, point: number): number {
  const px = Math.round(at[edge] * UNITS);
  const py = Math.round(at[edge + 1] * UNITS);
  const qx = Math.round(at[edge + 2] * UNITS);
  const qy = Math.round(at[edge + 3] * UNITS);
  const x = Math.round(at[point] * UNITS);
  const y = Math.round(at[point + 1] * UNITS);
  return Math.sign((qx - px) * (y - py) - (qy - py) * (x - px));
}
