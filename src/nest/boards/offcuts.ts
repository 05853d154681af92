import { intersect, offset, regionsFromRings, subtract, unite } from '../../geometry/clip.ts';
import { largestRectangle } from '../../geometry/largest-rectangle.ts';
import { type Region, regionArea, ringsOf } from '../../geometry/ring.ts';
import { simplified } from '../../geometry/simplify.ts';
import { ARC_SAG_MM, SNAP } from '../../geometry/tolerance.ts';
import type { BoardOffcut } from '../../model/layout.ts';
import type { Asked } from './layout.ts';

/** How far the outline of a remainder may be simplified, inward; those of the pieces half as far. */
const COARSE_MM = 0.4;
/** How far off its width may be judged. */
const ROUGH_MM = 4;

/** A remainder of a board that has no number yet. */
export type Remainder = Omit<BoardOffcut, 'name'>;

/**
 * The usable remainders of a board, largest first: inside what is usable of it, at least the kerf from every piece. Where
 * they are narrower than the least side they are left off, so that no tongues and slivers are kept.
 * @param usable of the board, free of overlaps: less its trim and what is kept out of, or the saved offcut
 * @param pieces outlines as they lie on the board
 */
export function remainders(
  usable: readonly Region[],
  pieces: readonly Region[],
  { tool: { kerfMm }, leastOffcutMm }: Pick<Asked, 'tool' | 'leastOffcutMm'>,
): Remainder[] {
  const fewer = pieces.map((piece) => piece.map((ring) => simplified(ring, COARSE_MM / 2)));
  const taken = offset(unite(fewer), kerfMm + SNAP + 1.5 * COARSE_MM + 2.25 * ARC_SAG_MM);
  const free = subtract(usable, taken);
  const half = leastOffcutMm / 2;
  // Shrunk and grown again with square corners: what is too narrow is gone, the corners of the board stay. Which parts are
  // wide is asked of few points (on contour outlines 13 s became 0.5 s); what is kept of them is cut out of the truth.
  const rough = regionsFromRings(ringsOf(free).map((ring) => simplified(ring, ROUGH_MM)));
  const opened = intersect(offset(offset(rough, -half, { joins: 'miter' }), half, { joins: 'miter' }), free);
  return opened
    .filter((region) => regionArea(region) >= leastOffcutMm * leastOffcutMm)
    .map((region) => inward(region, usable))
    .sort((a, b) => regionArea(b) - regionArea(a) || a[0][0] - b[0][0] || a[0][1] - b[0][1])
    .map((rings) => {
      const rectangle = largestRectangle(rings);
      return { rings, ...(rectangle ? { rectangle } : {}) };
    });
}

/** Simplified by less than the pieces were grown by, and cut to what is usable: its largest region, should it fall apart. */
function inward(region: Region, usable: readonly Region[]): Region {
  const coarse = region.map((ring) => simplified(ring, COARSE_MM));
  return largest(intersect([coarse], usable)) ?? region;
}

function largest(regions: readonly Region[]): Region | undefined {
  const most = Math.max(...regions.map(regionArea));
  return regions.find((region) => regionArea(region) === most);
}
