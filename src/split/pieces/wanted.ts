import type { Layer } from '../../model/layer.ts';
import { staggerMm } from '../../model/seam.ts';
import { zoneRegions } from '../../model/zone.ts';
import type { Context } from '../../plugin.ts';
import type { Wanted } from './cut-cost.ts';
import { keySizesMm } from './keys.ts';
import { type Room, roomFor } from './room.ts';
import type { SeamOptions } from './seam-options.ts';

/** Foam narrower than this, in thicknesses, breaks in handling (common practice, no source). */
export const LEAST_WIDTH = 2;

/**
 * What the search for the seams of a layer weighs, with no seams near it. A key stands out of its piece: less room is left for
 * that, and seams keep so much more apart.
 */
export function wantedOf(
  layer: Layer,
  room: Room,
  { style, stagger }: SeamOptions,
  facts: Context<'split'>['facts'],
): Wanted {
  const leastWidthMm = LEAST_WIDTH * layer.thicknessMm;
  const keyMm = style === 'key' ? keySizesMm(leastWidthMm).depthMm : 0;
  const seen = zoneRegions(facts.zones, 'seen');
  return {
    room: keyMm > 0 ? roomFor(layer, facts, keyMm) : room,
    seamsNear: [],
    staggerMm: staggerMm(stagger, layer.thicknessMm, facts.boardSizes) + keyMm,
    leastWidthMm,
    ...(seen.length > 0 ? { seen } : {}),
  };
}
