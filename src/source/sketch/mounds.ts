import type { Kit } from '../../plugin.ts';
import { hasOneRadius, ONE_RADIUS, type OvalOptions, ovalOf, ovalOptions } from './oval.ts';
import { type ProfileName, profileOf, profileOption } from './profiles.ts';
import type { Relief } from './relief.ts';

interface Profiled extends OvalOptions {
  readonly profile: ProfileName;
}

/** Options of a hill on an oval. */
export const moundOptions = (kit: Kit) =>
  kit.z
    .strictObject({
      ...ovalOptions(kit),
      height: kit.length({ above: 0 }).describe('added in the middle'),
      profile: profileOption(kit),
    })
    .refine(hasOneRadius, ONE_RADIUS);

/** Options of a hollow on an oval. */
export const basinOptions = (kit: Kit) =>
  kit.z
    .strictObject({
      ...ovalOptions(kit),
      depth: kit.length({ above: 0 }).describe('taken off in the middle'),
      profile: profileOption(kit),
    })
    .refine(hasOneRadius, ONE_RADIUS);

/** Add height × profile(distance ratio of the oval). */
export const mound = (options: Profiled & { readonly height: number }): Relief => rise(options, options.height);

/** Take off depth × profile(distance ratio of the oval). */
export const basin = (options: Profiled & { readonly depth: number }): Relief => rise(options, -options.depth);

function rise(options: Profiled, heightMm: number): Relief {
  const oval = ovalOf(options);
  const profile = profileOf(options.profile);
  return {
    boxMm: oval.boxMm,
    finestMm: oval.leastRadiusMm,
    row(yMm) {
      const { minXMm, maxXMm, ratio } = oval.row(yMm);
      return { minXMm, maxXMm, ground: (xMm, beforeMm) => beforeMm + heightMm * profile(ratio(xMm)) };
    },
  };
}
