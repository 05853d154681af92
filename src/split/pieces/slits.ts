import { boxOf, type Region, type Ring } from '../../geometry/ring.ts';
import { snapped } from '../../geometry/snap.ts';

/**
 * The cuts by which a wire reaches the inner outlines of a piece: one for each, together as short as can be. The shortest
 * links join outlines to a tree that starts at the outer one (Prim 1957); the shortest link there is crosses no third
 * outline, or the way to that one would be shorter. O(outlines × points²) at worst.
 */
export function slitsOf(region: Region): Float64Array[] {
  const waiting = region.slice(1).map((ring) => ({ ring, ...shortestLink(region[0], ring) }));
  const slits: Float64Array[] = [];
  while (waiting.length > 0) {
    let next = 0;
    for (let i = 1; i < waiting.length; i++) if (waiting[i].squared < waiting[next].squared) next = i;
    const [{ ring, link }] = waiting.splice(next, 1);
    slits.push(Float64Array.from(link, snapped));
    for (const [i, other] of waiting.entries()) {
      const nearer = shortestLink(ring, other.ring);
      if (nearer.squared < other.squared) waiting[i] = { ring: other.ring, ...nearer };
    }
  }
  return slits;
}

interface Link {
  /** x, y on the first ring, x, y on the second. */
  readonly link: readonly number[];
  readonly squared: number;
}

/** The shortest segment between two rings that do not cross: one of its ends is a corner. */
function shortestLink(a: Ring, b: Ring): Link {
  const there = fromCorners(a, b);
  const back = fromCorners(b, a);
  if (there.squared <= back.squared) return there;
  const [x, y, px, py] = back.link;
  return { link: [px, py, x, y], squared: back.squared };
}

/** The shortest segment from a corner of one ring to the edges of another. */
function fromCorners(corners: Ring, edges: Ring): Link {
  let squared = Infinity;
  let link: number[] = [];
  const [minX, minY, maxX, maxY] = boxOf([edges]);
  for (let i = 0; i < corners.length; i += 2) {
    const x = corners[i];
    const y = corners[i + 1];
    const outX = Math.max(minX - x, 0, x - maxX);
    const outY = Math.max(minY - y, 0, y - maxY);
    if (outX * outX + outY * outY >= squared) continue;
    for (let k = 0, j = edges.length - 2; k < edges.length; j = k, k += 2) {
      const dx = edges[k] - edges[j];
      const dy = edges[k + 1] - edges[j + 1];
      const long = dx * dx + dy * dy;
      let t = long > 0 ? ((x - edges[j]) * dx + (y - edges[j + 1]) * dy) / long : 0;
      t = t < 0 ? 0 : t > 1 ? 1 : t;
      const px = edges[j] + t * dx;
      const py = edges[j + 1] + t * dy;
      const here = (px - x) * (px - x) + (py - y) * (py - y);
      if (here >= squared) continue;
      squared = here;
      link = [x, y, px, py];
    }
  }
  return { link, squared };
}
