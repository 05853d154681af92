import { intersect } from './clip.ts';
import { insideHull } from './enclosing.ts';
import { convexHull } from './hull.ts';
import { areaOf, type Region, regionArea } from './ring.ts';

/** How a flat area rests on what is under it. */
export interface Support {
  /** Share of its area that rests, 0…1. */
  readonly share: number;
  /** How far its middle of mass lies inside the hull of where it rests; below 0, laid loose, it tips. −Infinity on nothing. */
  readonly inside: number;
}

/** How a region rests on others, which do not overlap. */
export function supportOf(region: Region, under: readonly Region[]): Support {
  const contact = intersect([region], under);
  if (contact.length === 0) return { share: 0, inside: -Infinity };
  const hull = convexHull(contact.map(([outer]) => outer));
  const [x, y] = centroidOf(region);
  return { share: areaOf(contact) / regionArea(region), inside: insideHull(hull, x, y) };
}

/** Middle of mass of a region; its first point when it has no area. O(n). */
export function centroidOf(region: Region): readonly [x: number, y: number] {
  const x0 = region[0][0];
  const y0 = region[0][1];
  let area = 0;
  let sx = 0;
  let sy = 0;
  for (const ring of region) {
    for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
      const ax = ring[j] - x0;
      const ay = ring[j + 1] - y0;
      const bx = ring[i] - x0;
      const by = ring[i + 1] - y0;
      const twice = ax * by - bx * ay;
      area += twice;
      sx += (ax + bx) * twice;
      sy += (ay + by) * twice;
    }
  }
  return area === 0 ? [x0, y0] : [x0 + sx / (3 * area), y0 + sy / (3 * area)];
}
