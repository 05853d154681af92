import { lineAround } from './line-distance.ts';
import { distanceToRings, type Point, type Ring } from './ring.ts';
import { SegmentIndex } from './segment-index.ts';

/** The least distance between two sets of outlines, and a point of the first or a corner of the second where it is. */
export interface Least {
  readonly distance: number;
  readonly at: Point;
}

/**
 * How near some outlines come to others that do not cross them: from a corner of one to an edge of the other. About
 * O(n log n): each corner is asked only whether it is nearer than the nearest so far. Infinity when either set is empty.
 */
export function leastBetween(ones: readonly Ring[], others: readonly Ring[]): Least {
  if (ones.length === 0 || others.length === 0) return { distance: Infinity, at: [0, 0] };
  const [x, y] = ones[0];
  const first = { distance: distanceToRings(x, y, others), at: [x, y] as Point };
  return nearest(others, ones, nearest(ones, others, first));
}

/** The nearest corner of some outlines to the edges of others, where it is nearer than what is known. */
function nearest(corners: readonly Ring[], edges: readonly Ring[], known: Least): Least {
  const index = new SegmentIndex(edges.map(lineAround));
  let least = known;
  for (const ring of corners) {
    for (let i = 0; i < ring.length && least.distance > 0; i += 2) {
      const distance = index.distance(ring[i], ring[i + 1], least.distance);
      if (distance < least.distance) least = { distance, at: [ring[i], ring[i + 1]] };
    }
  }
  return least;
}
