import { unite } from '../../geometry/clip.ts';
import type { Region } from '../../geometry/ring.ts';
import { edgeKey } from './joints.ts';

/**
 * A piece without cuts that end in itself: a cut across two arms of a ring may part only one of them from the rest in the end, and what is
 * left of it leads from a piece into the same piece, where it divides nothing. O(points).
 */
export function healed(piece: Region): Region {
  const edges = new Set<string>();
  for (const ring of piece) {
    for (let k = 0; k < ring.length; k += 2) {
      if (edges.has(edgeKey(ring, k, -1))) return whole(piece);
      edges.add(edgeKey(ring, k, 1));
    }
  }
  return piece;
}

/** A piece put together along its own edges; as it is where it would fall apart, or vanish. */
function whole(piece: Region): Region {
  const regions = unite([piece]);
  return regions.length === 1 ? regions[0] : piece;
}
