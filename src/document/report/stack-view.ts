import { type Point, type Ring, ringsOf } from '../../geometry/ring.ts';
import type { Layer } from '../../model/layer.ts';

/** One face to paint: rings on the picture (x right, y down), and how light it is, 0 dark … 1 light. */
export interface Face {
  readonly rings: readonly Ring[];
  readonly light: number;
}

/** How far the plan's depth is foreshortened, and how far a height rises, on the picture. */
const DEPTH = 0.5;
const RISE = 1;

/**
 * The stack seen from the south and above, layer by layer from the ground up, so that painting in order hides what is
 * hidden. Walls that face the viewer are one face a layer, the top another. Outlines are thinned to `least` millimetres
 * between points: it is a picture, not a template.
 */
export function stackView(layers: readonly Layer[], depthMm: number, least: number): Face[] {
  const faces: Face[] = [];
  for (const { regions, bottomMm, thicknessMm } of layers) {
    const rings = ringsOf(regions).map((ring) => thinned(ring, least));
    const topMm = bottomMm + thicknessMm;
    const walls: Ring[] = [];
    for (const ring of rings) {
      for (let i = 0; i < ring.length; i += 2) {
        const j = (i + 2) % ring.length;
        // Material is on the left of every edge: an edge that runs east shows its face to the south.
        if (ring[j] <= ring[i]) continue;
        const a: Point = [ring[i], ring[i + 1]];
        const b: Point = [ring[j], ring[j + 1]];
        walls.push(
          new Float64Array([
            ...seen(a, bottomMm, depthMm),
            ...seen(b, bottomMm, depthMm),
            ...seen(b, topMm, depthMm),
            ...seen(a, topMm, depthMm),
          ]),
        );
      }
    }
    faces.push({ rings: walls, light: 0.35 });
    faces.push({ rings: rings.map((ring) => lifted(ring, topMm, depthMm)), light: 0.9 });
  }
  return faces;
}

/** Where a point of the landform is seen on the picture. */
const seen = ([x, y]: Point, zMm: number, depthMm: number): Point => [x, (depthMm - y) * DEPTH - zMm * RISE];

function lifted(ring: Ring, zMm: number, depthMm: number): Ring {
  const result = new Float64Array(ring.length);
  for (let i = 0; i < ring.length; i += 2) result.set(seen([ring[i], ring[i + 1]], zMm, depthMm), i);
  return result;
}

/** The ring without points closer than `least` to the one kept before. Rings that would vanish stay as they are. */
function thinned(ring: Ring, least: number): Ring {
  const kept: number[] = [ring[0], ring[1]];
  for (let i = 2; i < ring.length; i += 2) {
    const dx = ring[i] - kept[kept.length - 2];
    const dy = ring[i + 1] - kept[kept.length - 1];
    if (dx * dx + dy * dy >= least * least) kept.push(ring[i], ring[i + 1]);
  }
  return kept.length >= 6 ? new Float64Array(kept) : ring;
}
