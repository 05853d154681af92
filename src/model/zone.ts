import { offset, unite } from '../geometry/clip.ts';
import type { Region } from '../geometry/ring.ts';
import type { Zone } from './facts.ts';

/** A zone's polygon, counter-clockwise, grown by the clearance that it asks for. */
export function zoneRegion({ outline, clearanceMm }: Zone): Region[] {
  const plain = unite([[Float64Array.from(outline.flat())]]);
  return clearanceMm > 0 ? offset(plain, clearanceMm, { joins: 'miter' }) : plain;
}

/** All that lies in the zones of a kind. */
export const zoneRegions = (zones: readonly Zone[], kind: Zone['kind']): Region[] =>
  unite(zones.filter((zone) => zone.kind === kind).flatMap(zoneRegion));
