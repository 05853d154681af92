import { intersect, subtract, unite } from '../../geometry/clip.ts';
import { type Region, regionArea } from '../../geometry/ring.ts';
import { type Props, propsFor } from '../pieces/props.ts';
import type { Disc, Lid } from './discs.ts';

/** What of a block another layer's foam cuts off: less than this share of one is left out, for the rest carries it. */
const LEAST_SHARE = 0.25;

/**
 * Blocks under lids, of each layer: squares in the void, so that every point of the lid is within reach of foam, and beneath
 * them in the voids of all layers down to the floor. No blank gives them: they are cut from what is left of boards.
 */
export function blocksUnder(
  discs: readonly (readonly Disc[])[],
  lids: readonly Lid[],
  propsOf: (place: number) => Props,
): Region[][] {
  const blocks: Region[][] = discs.map(() => []);
  let above: readonly Region[] = [];
  for (let place = discs.length - 2; place >= 0; place--) {
    const foam = discs[place].flatMap((disc) => [...disc.foam]);
    const under = lids.filter((lid) => lid.place === place + 1).map((lid) => lid.over);
    const props = propsOf(place + 1);
    if (under.length > 0) {
      const lid = discs[place + 1].flatMap((disc) => [...disc.foam]);
      const contact = intersect([...foam, ...above], lid);
      above = unite([...above, ...propsFor(subtract(under, above), lid, contact, props)]);
    }
    if (above.length === 0) continue;
    const voids = discs[place].flatMap(({ inner }) => inner.map(({ region }) => region));
    const leastMm2 = LEAST_SHARE * props.sizeMm * props.sizeMm;
    blocks[place] = intersect(voids, above).filter((region) => regionArea(region) >= leastMm2);
  }
  return blocks;
}
