import { STEEPEST_WAYS, type SteepestWay } from '../../geometry/steepest.ts';
import { slopeOption } from '../../model/slope.ts';
import type { Kit } from '../../plugin.ts';
import { duneOptions, dunes } from './dunes.ts';
import { gully, gullyOptions, ridge, ridgeOptions } from './lines.ts';
import { basin, basinOptions, mound, moundOptions } from './mounds.ts';
import type { GroundBefore, Relief } from './relief.ts';
import { rippleOptions, ripples } from './ripples.ts';
import { rockOptions, rocks } from './rocks.ts';
import { roughness, roughnessOptions } from './roughness.ts';
import { shelf, shelfOptions } from './shelf.ts';
import { spots, spotsOptions } from './spots.ts';
import { steps, stepsOptions } from './steps.ts';
import { stream, streamOptions } from './stream.ts';

/** One feature of the list: a map with exactly one of these keys. Adding a feature: its file, a line here, one below. */
export const featureOptions = (kit: Kit) =>
  kit.z
    .strictObject({
      mound: moundOptions(kit).optional().describe('a hill on an oval'),
      ridge: ridgeOptions(kit).optional().describe('a bank along a line'),
      gully: gullyOptions(kit).optional().describe('a cut along a line; with a floor, a sunken path'),
      basin: basinOptions(kit).optional().describe('a hollow on an oval'),
      shelf: shelfOptions(kit).optional().describe('ground set to one level inside an outline'),
      steps: stepsOptions(kit).optional().describe('a straight flight of level treads'),
      stream: streamOptions(kit).optional().describe('a bed with banks that never rises downstream'),
      dunes: duneOptions(kit).optional().describe('ridges of sand across the wind, each with a slip face'),
      rocks: rockOptions(kit).optional().describe('lumps, one in its place or many strewn'),
      ripples: rippleOptions(kit).optional().describe('waves of one length'),
      roughness: roughnessOptions(kit).optional().describe('lumps and hollows of several sizes'),
      spots: spotsOptions(kit).optional().describe('heights that the ground must pass through'),
      steepest: steepestOptions(kit).optional().describe('what is listed before it, made nowhere steeper than a slope'),
    })
    .refine((feature) => Object.keys(feature).length === 1, 'A feature is one key.\nPut a hyphen before each feature.')
    .meta({ minProperties: 1, maxProperties: 1 });

const steepestOptions = ({ z }: Kit) =>
  z.strictObject({
    slope: slopeOption().describe('degrees from level (dry sand stays at some 30), or 1 in 3'),
    by: z
      .enum(STEEPEST_WAYS)
      .default('settle')
      .describe('settle: slides down, volume is kept; cut: only takes off; fill: only heaps up'),
  });

export type Feature = ReturnType<ReturnType<typeof featureOptions>['parse']>;

/** The kind that a feature is: its one key. */
export const kindOf = (feature: Feature): string => Object.keys(feature)[0];

/** The seed that a feature has of its own. */
export const seedOf = ({ roughness, dunes, rocks }: Feature): number | undefined => (roughness ?? dunes ?? rocks)?.seed;

/** The slope to which a feature eases all the ground before it; undefined for one that has a place. */
export const easedBy = ({ steepest }: Feature): { readonly slope: number; readonly by: SteepestWay } | undefined =>
  steepest;

/** What a feature does to the ground that stands before it. `path` is its place in the job. */
export function reliefOf(feature: Feature, ground: GroundBefore, seed: number, path: string): Relief {
  const { levelMm } = ground;
  if (feature.mound) return mound(feature.mound, levelMm);
  if (feature.ridge) return ridge(feature.ridge, levelMm);
  if (feature.gully) return gully(feature.gully, levelMm);
  if (feature.basin) return basin(feature.basin, levelMm);
  if (feature.shelf) return shelf(feature.shelf, ground);
  if (feature.steps) return steps(feature.steps, ground);
  if (feature.stream) return stream(feature.stream, ground, path);
  if (feature.dunes) return dunes(feature.dunes, seed, levelMm);
  if (feature.rocks) return rocks(feature.rocks, seed, levelMm);
  if (feature.ripples) return ripples(feature.ripples, levelMm);
  if (feature.roughness) return roughness(feature.roughness, seed, levelMm);
  if (feature.spots) return spots(feature.spots, ground, path);
  throw new Error(`a feature without a kind at ${path}`);
}
