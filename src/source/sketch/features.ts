import type { Random } from '../../geometry/random.ts';
import type { Kit } from '../../plugin.ts';
import { gully, gullyOptions, ridge, ridgeOptions } from './lines.ts';
import { basin, basinOptions, mound, moundOptions } from './mounds.ts';
import type { Relief } from './relief.ts';
import { rippleOptions, ripples } from './ripples.ts';
import { roughness, roughnessOptions } from './roughness.ts';
import { shelf, shelfOptions } from './shelf.ts';
import { type GroundBefore, spots, spotsOptions } from './spots.ts';

/** One feature of the list: a map with exactly one of these keys. Adding a feature: its file, a line here, one below. */
export const featureOptions = (kit: Kit) =>
  kit.z
    .strictObject({
      mound: moundOptions(kit).optional().describe('a hill on an oval'),
      ridge: ridgeOptions(kit).optional().describe('a bank along a line'),
      gully: gullyOptions(kit).optional().describe('a cut along a line; with a floor, a sunken path'),
      basin: basinOptions(kit).optional().describe('a hollow on an oval'),
      shelf: shelfOptions(kit).optional().describe('ground set to one level inside an outline'),
      ripples: rippleOptions(kit).optional().describe('waves of one length'),
      roughness: roughnessOptions(kit).optional().describe('lumps and hollows of several sizes'),
      spots: spotsOptions(kit).optional().describe('heights that the ground must pass through'),
    })
    .refine((feature) => Object.keys(feature).length === 1, 'A feature is one key.\nPut a hyphen before each feature.')
    .meta({ minProperties: 1, maxProperties: 1 });

export type Feature = ReturnType<ReturnType<typeof featureOptions>['parse']>;

/** The kind that a feature is: its one key. */
export const kindOf = (feature: Feature): string => Object.keys(feature)[0];

/** What a feature does to the ground that stands before it. `path` is its place in the job. */
export function reliefOf(feature: Feature, ground: GroundBefore, random: Random, path: string): Relief {
  if (feature.mound) return mound(feature.mound);
  if (feature.ridge) return ridge(feature.ridge);
  if (feature.gully) return gully(feature.gully);
  if (feature.basin) return basin(feature.basin);
  if (feature.shelf) return shelf(feature.shelf);
  if (feature.ripples) return ripples(feature.ripples);
  if (feature.roughness) return roughness(feature.roughness, random);
  if (feature.spots) return spots(feature.spots, ground, path);
  throw new Error(`a feature without a kind at ${path}`);
}
