import { intersect, offset } from '../../geometry/clip.ts';
import { boxesMeet, boxOf, type Region, ringsOf } from '../../geometry/ring.ts';
import type { Layer } from '../../model/layer.ts';
import { GLUE_BACK_MM } from '../../model/piece.ts';
import { SAG_MM, shortBy, simple } from './offsets.ts';

/**
 * Where glue may lie between two layers: the contact of their outlines, less GLUE_BACK_MM along its edge.
 *
 * A cut edge is carved back by a whole tread at its top, but at the height of the glue the ground passes through the edge of
 * the contact itself: through the upper layer's edge where the ground falls outward, through the lower one's where it
 * overhangs. So nothing is carved off at that height, and what is left of "carving depth and 10 to 20 mm" is the latter.
 * Edges of voids and seams are not carved: glue may run up to them.
 */
export function glueBetween(upper: Layer, lower: Layer): Region[] {
  const inside = ({ regions }: Layer) => offset(simple(regions), -(GLUE_BACK_MM + shortBy(SAG_MM)), { sag: SAG_MM });
  return intersect(inside(upper), inside(lower));
}

/** The part of some regions that lies on another, those far from it left out before. */
export function partOn(on: readonly Region[], regions: readonly Region[]): Region[] {
  const box = boxOf(ringsOf(on));
  return intersect(
    regions.filter((region) => boxesMeet(boxOf(region), box)),
    on,
  );
}
