import { type Ring, reversed } from './ring.ts';
import { SNAP } from './tolerance.ts';

/**
 * The boundary that is left when what is put together is laid over what it should make: edges that run both ways cancel.
 * Rings of it wind +1 round what lies in two pieces or outside of the whole, −1 round what lies in none. Nothing is left where
 * they agree to the last digit; where they share vertices the answer is exact, with no clipping. Every vertex has as many
 * edges in as out, so that the edges always close to rings; which of them is followed first makes no difference to the winding.
 * O(points).
 */
export function leftEdges(whole: readonly Ring[], pieces: readonly Ring[]): Ring[] {
  const corners = new Corners();
  const net = new Map<number, number>();
  for (const ring of pieces) addEdges(ring, corners, net);
  for (const ring of whole) addEdges(reversed(ring), corners, net);
  const ahead = new Map<number, number[]>();
  for (const [key, count] of net) {
    const [low, high] = [Math.floor(key / MOST_CORNERS), key % MOST_CORNERS];
    const [from, to] = count > 0 ? [low, high] : [high, low];
    for (let i = Math.abs(count); i > 0; i--) {
      const after = ahead.get(from);
      if (after) after.push(to);
      else ahead.set(from, [to]);
    }
  }
  const rings: Ring[] = [];
  for (const [start, after] of ahead) {
    while (after.length > 0) {
      const points: number[] = [];
      let at = start;
      do {
        points.push(corners.x[at], corners.y[at]);
        at = ahead.get(at)?.pop() ?? start;
      } while (at !== start);
      rings.push(new Float64Array(points));
    }
  }
  return rings;
}

/** Two numbers of corners make one key that a double holds exactly. */
const MOST_CORNERS = 67_108_864;

/** Numbers for points, alike for points that are one on the grid. */
class Corners {
  readonly x: number[] = [];
  readonly y: number[] = [];
  readonly #rows = new Map<number, Map<number, number>>();

  numberOf(x: number, y: number): number {
    const [column, row] = [Math.round(x / SNAP), Math.round(y / SNAP)];
    let inRow = this.#rows.get(row);
    if (!inRow) this.#rows.set(row, (inRow = new Map()));
    let number = inRow.get(column);
    if (number === undefined) {
      number = this.x.length;
      inRow.set(column, number);
      this.x.push(x);
      this.y.push(y);
    }
    return number;
  }
}

/** Count the edges of a ring: one for each that runs from the lower number to the higher, minus one for the other way. */
function addEdges(ring: Ring, corners: Corners, net: Map<number, number>): void {
  let from = corners.numberOf(ring[ring.length - 2], ring[ring.length - 1]);
  for (let i = 0; i < ring.length; i += 2) {
    const to = corners.numberOf(ring[i], ring[i + 1]);
    if (from !== to) {
      const key = from < to ? from * MOST_CORNERS + to : to * MOST_CORNERS + from;
      const count = (net.get(key) ?? 0) + (from < to ? 1 : -1);
      if (count === 0) net.delete(key);
      else net.set(key, count);
    }
    from = to;
  }
}
