import { intersect, offset, regionsFromRings, subtract, unite } from '../../geometry/clip.ts';
import { type Region, regionArea } from '../../geometry/ring.ts';
import { simplified } from '../../geometry/simplify.ts';
import { supportOf } from '../../geometry/support.ts';
import { SIMPLIFY_MM } from '../../geometry/tolerance.ts';
import type { Layer } from '../../model/layer.ts';
import type { Course } from '../pieces/pieces.ts';

/** Sag of rounded offsets here: nobody sees the outline of a void. */
const SAG_MM = 0.25;
/** A rounded offset falls short by up to 2.25 times the sag; a little over for the grid. */
const SHORT_MM = 2.25 * SAG_MM + 0.01;

/** A piece rests on at least this share of its area (our choice: a lap of 50 mm round a board of 2.4 × 1.2 m is an eighth). */
const LEAST_SHARE = 0.1;
/** A piece's middle of mass lies over what it rests on by at least this. */
const STEADY_MM = 5;

/** What may be left out, millimetres. */
export interface Sizes {
  readonly lapMm: number;
  /** A void is nowhere narrower. */
  readonly leastVoidMm: number;
}

/**
 * What is left out of a layer under one that has been divided.
 *
 * Foam stays where it is seen, for a lap inside the next layer's outline, and for a lap along the next layer's seams, so that
 * each of its pieces rests on its outer edge and on a strip under its joints; next to the next layer's own voids that strip
 * ends, or voids could only shrink on the way down. Webs narrower than the lap are left out too. A piece that would tip off what is left, or rest on too little of it,
 * keeps foam under all of it.
 */
export function voidsUnder(above: Course, below: Layer, { lapMm, leastVoidMm }: Sizes): Region[] {
  const keptMm = lapMm + SHORT_MM + SIMPLIFY_MM;
  const inside = offset(simple(intersect(above.layer.regions, below.regions)), -keptMm, { sag: SAG_MM });
  const unseamed = offset(simple(above.pieces), -keptMm, { sag: SAG_MM });
  const widened = offset(above.voids, keptMm + SHORT_MM + SIMPLIFY_MM, { sag: SAG_MM });
  const free = withoutWebs(intersect(inside, unite([...unseamed, ...widened])), lapMm);
  const first = opened(intersect(inside, free), leastVoidMm);
  if (first.length === 0) return [];
  const foam = subtract(below.regions, first);
  const falling = above.pieces.filter((piece) => {
    const { share, isSteady } = supportOf(piece, foam, STEADY_MM);
    return !isSteady || share < LEAST_SHARE;
  });
  return falling.length === 0 ? first : opened(subtract(first, unite(falling)), leastVoidMm);
}

/** Regions that may be left out, with the foam between them where it would be narrower than so much. */
function withoutWebs(regions: readonly Region[], widthMm: number): Region[] {
  const grown = offset(simple(regions), widthMm / 2, { sag: SAG_MM });
  return unite([...regions, ...offset(grown, -widthMm / 2 - SHORT_MM, { sag: SAG_MM })]);
}

/** What of some regions is at least so wide, with fewer points; never more than they are. */
function opened(regions: readonly Region[], widthMm: number): Region[] {
  const shrunk = offset(simple(regions), -widthMm / 2, { sag: SAG_MM });
  // Short by what the two simplifications and the first offset may have left too wide.
  const grown = offset(shrunk, widthMm / 2 - SHORT_MM - 2 * SIMPLIFY_MM, { sag: SAG_MM });
  return regionsFromRings(simple(grown).flat()).filter((region) => regionArea(region) >= widthMm * widthMm);
}

/** The same with fewer points: offsets take time in proportion. Outlines move by SIMPLIFY_MM at most, either way. */
const simple = (regions: readonly Region[]): Region[] =>
  regions.map((region) => region.map((ring) => simplified(ring, SIMPLIFY_MM)));
