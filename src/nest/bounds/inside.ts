import { offset, regionsFromRings } from '../../geometry/clip.ts';
import { edgeRuns } from '../../geometry/edge-runs.ts';
import { convexHull, smallestRectangle } from '../../geometry/hull.ts';
import { depth, poles } from '../../geometry/poles.ts';
import { areaOf, boxOf, type Region, type Ring, regionArea, ringArea, ringsOf } from '../../geometry/ring.ts';
import { simplified } from '../../geometry/simplify.ts';
import type { BoundBoard, BoundItem, BoundOwned } from './terms.ts';

/** How far an outline of more points than these is simplified before it is grown: growing 300 points costs five times what 80 do. */
const MANY_POINTS = 60;
const COARSE_MM = 0.3;
/** What the clipping grid may add to an outline. */
const GRID_MM = 0.002;

/**
 * An outline as bounds see it, once for all of one shape. Regions do not overlap.
 * @param inradiusMm of a circle inside the finished outline, where one is known
 */
export function boundItem(
  regions: readonly Region[],
  gapMm: number,
  how: Pick<BoundItem, 'shape' | 'turns' | 'mayMirror'>,
  inradiusMm: number = insideOf(regions),
): BoundItem {
  const rings = ringsOf(regions);
  const isCoarse = rings.reduce((sum, ring) => sum + ring.length / 2, 0) > MANY_POINTS;
  // Simplified by so much and grown by as much less, it lies inside what the truth grows to.
  const by = gapMm / 2 - (isCoarse ? COARSE_MM : 0) - (gapMm > 0 || isCoarse ? GRID_MM : 0);
  const few = isCoarse ? regionsFromRings(rings.map((ring) => simplified(ring, COARSE_MM))) : regions;
  const inner = by === 0 ? few : offset(few, by);
  return {
    ...how,
    // Where a sliver of an outline is lost on the way, its own area is still the lesser truth.
    areaMm2: Math.max(areaOf(inner), areaOf(regions) * (1 - 1e-12)),
    holes: inner.flatMap((region) => region.slice(1).map(holeOf)),
    inradiusMm: inradiusMm + gapMm / 2,
    inner: ringsOf(inner),
  };
}

function insideOf(regions: readonly Region[]): number {
  const runs = edgeRuns(ringsOf(regions));
  const circle = poles(runs, 1);
  return circle.length > 0 ? Math.max(0, depth(runs, circle[0], circle[1])) : 0;
}

/** Not less than a hole is. The largest circle in it is no wider than the rectangle round it. */
function holeOf(ring: Ring): { areaMm2: number; inradiusMm: number } {
  return { areaMm2: Math.abs(ringArea(ring)), inradiusMm: smallestRectangle(convexHull([ring])).short / 2 };
}

/** A board on sale as bounds see it: its usable box, less patches that nothing is cut from. */
export function boundBoard(
  usable: readonly Region[],
  gapMm: number,
  { price, count }: Pick<BoundBoard, 'price' | 'count'>,
): BoundBoard {
  const { areaMm2, widthMm, heightMm } = boundOwned(usable, gapMm);
  return { areaMm2, widthMm, heightMm, price, count };
}

/** Owned foam as bounds see it. */
export function boundOwned(usable: readonly Region[], gapMm: number): BoundOwned {
  const [minX, minY, maxX, maxY] = boxOf(ringsOf(usable));
  const [widthMm, heightMm] = [maxX - minX + gapMm, maxY - minY + gapMm];
  // Square corners reach at least as far as the truth; for a rectangle this is exact.
  const grown = gapMm > 0 ? offset(usable, gapMm / 2, { joins: 'miter' }) : usable;
  const isBox = usable.length === 1 && usable[0].length === 1 && usable[0][0].length === 8;
  const areaMm2 = isBox && regionArea(usable[0]) === (maxX - minX) * (maxY - minY) ? widthMm * heightMm : areaOf(grown);
  return { areaMm2, widthMm, heightMm };
}
