import { intersect, offset, subtract } from '../../src/geometry/clip.ts';
import { areaOf, type Region } from '../../src/geometry/ring.ts';

/** How much of a lid over voids is farther than so much from where it rests on the foam beneath, square millimetres. */
export function unreachedMm2(
  lid: readonly Region[],
  foam: readonly Region[],
  voids: readonly Region[],
  reachMm: number,
): number {
  const near = offset(intersect(foam, lid), reachMm, { sag: 0.02 });
  return areaOf(subtract(intersect(voids, lid), near));
}
