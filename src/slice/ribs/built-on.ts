import { subtract } from '../../geometry/clip.ts';
import { type Region, rectangle } from '../../geometry/ring.ts';
import type { Zone } from '../../model/facts.ts';
import { extent, isWhole, type Landform } from '../../model/landform.ts';
import { zoneRegions } from '../../model/zone.ts';

/** Where ribs may stand: the ground's footprint, clear of decks by others. Null when that is all there is. */
export function builtOn(landform: Landform, zones: readonly Zone[]): readonly Region[] | null {
  const decks = zoneRegions(zones, 'people');
  const isAll = landform.footprint === null || (landform.kind === 'heightfield' && isWhole(landform));
  if (decks.length === 0) return isAll ? null : landform.footprint;
  return subtract(landform.footprint ?? [[rectangle(...extent(landform).box)]], decks);
}
