import { unite } from '../../geometry/clip.ts';
import { boxOf, type Region, type Ring, ringsOf } from '../../geometry/ring.ts';
import { SNAP } from '../../geometry/tolerance.ts';
import type { Blank } from '../../model/piece.ts';

/** A blank's outline in its own coordinates, its box from (0, 0), and the point of the landform that is its origin. */
export interface OwnOutline {
  readonly regions: readonly Region[];
  readonly referenceMm: readonly [number, number];
  /** The same for the same outline elsewhere in the landform. */
  readonly key: string;
}

/** The outline that is placed: of all pieces of the blank together, read from a corner that no order of points decides. */
export function ownOutline({ pieces }: Blank): OwnOutline {
  const whole = pieces.length === 1 ? [pieces[0].region] : unite(pieces.map(({ region }) => region));
  const [minX, minY] = boxOf(ringsOf(whole));
  const left = Math.round(minX / SNAP);
  const low = Math.round(minY / SNAP);
  // In whole thousandths, so that the same outline elsewhere in the landform gives the same bits.
  const own = (ring: Ring) =>
    fromCorner(ring.map((v, i) => (Math.round(v / SNAP) - (i % 2 === 0 ? left : low)) / (1 / SNAP)));
  const regions = whole.map((region) => region.map(own));
  return {
    regions,
    referenceMm: [left / (1 / SNAP), low / (1 / SNAP)],
    key: regions.map((region) => region.join(' ')).join('|'),
  };
}

/** The same ring from its leftmost lowest point. */
function fromCorner(ring: Ring): Ring {
  let first = 0;
  for (let i = 2; i < ring.length; i += 2) {
    if (ring[i] < ring[first] || (ring[i] === ring[first] && ring[i + 1] < ring[first + 1])) first = i;
  }
  const result = new Float64Array(ring.length);
  result.set(ring.subarray(first));
  result.set(ring.subarray(0, first), ring.length - first);
  return result;
}
