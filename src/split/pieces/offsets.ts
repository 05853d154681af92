import { offset, regionsFromRings } from '../../geometry/clip.ts';
import { type Region, regionArea } from '../../geometry/ring.ts';
import { simplified } from '../../geometry/simplify.ts';
import { SIMPLIFY_MM } from '../../geometry/tolerance.ts';

/** Sag of rounded offsets: nobody sees the outline of a void, or spreads glue so exactly. */
export const SAG_MM = 0.25;
/** By how much a rounded offset may fall short of the true one (tolerance.ts). */
export const roundedShortBy = (sagMm: number): number => 2.25 * sagMm;
/** The same where the outline was simplified before. */
export const shortBy = (sagMm: number): number => SIMPLIFY_MM + roundedShortBy(sagMm);
/** How short rounded offsets here fall; a little over for the grid. */
export const SHORT_MM = roundedShortBy(SAG_MM) + 0.01;

/** What of some regions is at least so wide, with fewer points; never more than they are. */
export function opened(regions: readonly Region[], widthMm: number): Region[] {
  const shrunk = offset(simple(regions), -widthMm / 2, { sag: SAG_MM });
  // Short by what the two simplifications and the first offset may have left too wide.
  const grown = offset(shrunk, widthMm / 2 - SHORT_MM - 2 * SIMPLIFY_MM, { sag: SAG_MM });
  return regionsFromRings(simple(grown).flat()).filter((region) => regionArea(region) >= widthMm * widthMm);
}

/** The same with fewer points: offsets take time in proportion. Outlines move by SIMPLIFY_MM at most, either way. */
export const simple = (regions: readonly Region[]): Region[] =>
  regions.map((region) => region.map((ring) => simplified(ring, SIMPLIFY_MM)));
