import type { Chains, EdgeGrid } from './edge-grid.ts';

/** Where a ring begins from below. Half a unit above a whole height no chain in whole units has a point. */
export interface Bottom {
  /** Its lowest point, the leftmost of them. */
  point: number;
  /** Where the ring crosses half a unit above that, first and second from the left: what is between is inside it. */
  left: number;
  right: number;
}

/** Find where a ring begins from below. */
export function bottomOf(chains: Chains, ring: number, bottom: Bottom): void {
  const { x, y, next, starts } = chains;
  let low = starts[ring];
  for (let p = low + 1; p < starts[ring + 1]; p++) if (y[p] < y[low] || (y[p] === y[low] && x[p] < x[low])) low = p;
  let least = Infinity;
  let second = Infinity;
  for (let p = starts[ring]; p < starts[ring + 1]; p++) {
    if (y[p] > y[low] === y[next[p]] > y[low]) continue;
    const at = x[low] + crossing(chains, p, x[low], y[low]);
    if (at < least) {
      second = least;
      least = at;
    } else if (at < second) {
      second = at;
    }
  }
  bottom.point = low;
  bottom.left = least;
  bottom.right = second;
}

/** Where an edge crosses half a unit above y, from x: small numbers, so that near crossings keep their order. */
export function crossing({ x: xs, y: ys, next }: Chains, edge: number, x: number, y: number): number {
  const end = next[edge];
  return xs[edge] - x + ((xs[end] - xs[edge]) * (y + 0.5 - ys[edge])) / (ys[end] - ys[edge]);
}

/**
 * The edge that is nearest to the left of a place half a unit above y, of any ring but `own`; −1 when there is none.
 * @param begin the place, which lies near x.
 */
export function leftOf(chains: Chains, grid: EdgeGrid, own: number, x: number, y: number, begin: number): number {
  const { y: ys, next, ring } = chains;
  let nearest = -1;
  let best = -Infinity;
  let to = begin;
  for (const span = 16 * grid.cell; to > grid.minX; ) {
    const from = to - span;
    const found = grid.near(from, y + 0.5, to, y + 0.5, 0);
    for (let i = 0; i < found; i++) {
      const edge = grid.found[i];
      if (ring[edge] === own || ys[edge] > y === ys[next[edge]] > y) continue;
      const at = crossing(chains, edge, x, y);
      if (at >= begin - x || at < best || (at === best && edge > nearest)) continue;
      best = at;
      nearest = edge;
    }
    if (x + best >= from) break;
    to = from;
  }
  return nearest;
}
