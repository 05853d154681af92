import { unite } from '../../geometry/clip.ts';
import type { Region } from '../../geometry/ring.ts';

/**
 * A piece without cuts that end in itself: a cut across two arms of a ring may part only one of them from the rest in the end, and what is
 * left of it leads from a piece into the same piece, where it divides nothing.
 */
export function healed(piece: Region): Region {
  const edges = new Set<string>();
  for (const ring of piece) {
    for (let k = 0; k < ring.length; k += 2) {
      const next = (k + 2) % ring.length;
      const [from, to] = [`${ring[k]},${ring[k + 1]}`, `${ring[next]},${ring[next + 1]}`];
      if (edges.has(`${to} ${from}`)) return unite([piece])[0] ?? piece;
      edges.add(`${from} ${to}`);
    }
  }
  return piece;
}
