import { intersect, subtract } from '../../geometry/clip.ts';
import { type Box, boxesMeet, boxOf, type Region, rectangle, regionArea } from '../../geometry/ring.ts';

/** Outlines of so few points are not worth another cut. */
const FEW_POINTS = 48;

/** Areas cut into patches of about a size, so that what is asked of a place costs by what lies there, not by the whole. */
export class Patches {
  readonly #leastMm2: number;
  #patches: readonly { readonly region: Region; readonly box: Box }[];

  /** @param leastMm2 patches smaller than this are left out, now and when something is taken. O(n log n). */
  constructor(regions: readonly Region[], sideMm: number, leastMm2 = 0) {
    this.#leastMm2 = leastMm2;
    this.#patches = this.#boxed(regions.flatMap((region) => cut(region, sideMm)));
  }

  get regions(): Region[] {
    return this.#patches.map(({ region }) => region);
  }

  /** Whether some patch may lie in a box. */
  meets(box: Box): boolean {
    return this.#patches.some((patch) => boxesMeet(patch.box, box));
  }

  /** What of them lies in a region, patch by patch. */
  within(region: Region): Region[] {
    const box = boxOf(region);
    const near = this.#patches.filter((patch) => boxesMeet(patch.box, box));
    return near.flatMap((patch) => intersect([patch.region], [region]));
  }

  /** Take away what lies in some regions that do not overlap; false when nothing does. */
  take(regions: readonly Region[]): boolean {
    if (regions.length === 0) return false;
    const box = boxOf(regions.flat());
    const near = this.#patches.filter((patch) => boxesMeet(patch.box, box));
    const met = near.filter(({ region }) => intersect([region], regions).length > 0);
    if (met.length === 0) return false;
    const left = met.flatMap(({ region }) => subtract([region], regions));
    this.#patches = [...this.#patches.filter((patch) => !met.includes(patch)), ...this.#boxed(left)];
    return true;
  }

  #boxed(regions: readonly Region[]) {
    return regions
      .filter((region) => regionArea(region) > this.#leastMm2)
      .map((region) => ({ region, box: boxOf(region) }));
  }
}

/** A region halved across its longer side until it is small or plain. */
function cut(region: Region, sideMm: number): Region[] {
  const [minX, minY, maxX, maxY] = boxOf(region);
  const points = region.reduce((sum, ring) => sum + ring.length / 2, 0);
  if (Math.max(maxX - minX, maxY - minY) <= sideMm || points <= FEW_POINTS) return [region];
  const isWide = maxX - minX > maxY - minY;
  // On whole millimetres, so that both halves end on the very line.
  const middle = Math.round(isWide ? (minX + maxX) / 2 : (minY + maxY) / 2);
  const halves = isWide
    ? [rectangle(minX - 1, minY - 1, middle, maxY + 1), rectangle(middle, minY - 1, maxX + 1, maxY + 1)]
    : [rectangle(minX - 1, minY - 1, maxX + 1, middle), rectangle(minX - 1, middle, maxX + 1, maxY + 1)];
  return halves.flatMap((half) => intersect([region], [[half]]).flatMap((each) => cut(each, sideMm)));
}
