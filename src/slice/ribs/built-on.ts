import { offset, subtract, unite } from '../../geometry/clip.ts';
import { type Region, rectangle, reversed, ringArea } from '../../geometry/ring.ts';
import type { Zone } from '../../model/facts.ts';
import { extent, isWhole, type Landform } from '../../model/landform.ts';

/** Where ribs may stand: the ground's footprint, clear of decks by others. Null when that is all there is. */
export function builtOn(landform: Landform, zones: readonly Zone[]): readonly Region[] | null {
  const decks = zones.filter(({ kind }) => kind === 'people').flatMap(kept);
  const isAll = landform.footprint === null || (landform.kind === 'heightfield' && isWhole(landform));
  if (decks.length === 0) return isAll ? null : landform.footprint;
  return subtract(landform.footprint ?? [[rectangle(...extent(landform).box)]], unite(decks));
}

/** A zone and the room round it. */
function kept({ outline, clearanceMm }: Zone): Region[] {
  const ring = Float64Array.from(outline.flat());
  const deck = [[ringArea(ring) < 0 ? reversed(ring) : ring]];
  return clearanceMm > 0 ? offset(deck, clearanceMm) : deck;
}
