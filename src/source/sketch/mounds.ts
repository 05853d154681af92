import type { Kit } from '../../plugin.ts';
import { type Form, HOW_FAULT, type HowOptions, howOptions, laid, saysHowOnce } from './how.ts';
import { hasOneRadius, ONE_RADIUS, type OvalOptions, ovalOf, ovalOptions } from './oval.ts';
import { type ProfileName, profileOf, profileOption } from './profiles.ts';
import type { Relief } from './relief.ts';

interface Profiled extends OvalOptions, HowOptions {
  readonly profile: ProfileName;
}

/** Options of a hill on an oval. */
export const moundOptions = (kit: Kit) =>
  kit.z
    .strictObject({
      ...ovalOptions(kit),
      height: kit.length({ above: 0 }).describe('in the middle'),
      profile: profileOption(kit),
      ...howOptions(kit, 'add'),
    })
    .refine(hasOneRadius, ONE_RADIUS)
    .refine(saysHowOnce, HOW_FAULT);

/** Options of a hollow on an oval. */
export const basinOptions = (kit: Kit) =>
  kit.z
    .strictObject({
      ...ovalOptions(kit),
      depth: kit.length({ above: 0 }).describe('in the middle'),
      profile: profileOption(kit),
      ...howOptions(kit, 'carve'),
    })
    .refine(hasOneRadius, ONE_RADIUS)
    .refine(saysHowOnce, HOW_FAULT);

/** Lay on height × profile(distance ratio of the oval). */
export const mound = (options: Profiled & { readonly height: number }, levelMm: number): Relief =>
  laid(options, form(options, options.height), levelMm, false);

/** Take off depth × profile(distance ratio of the oval). */
export const basin = (options: Profiled & { readonly depth: number }, levelMm: number): Relief =>
  laid(options, form(options, options.depth), levelMm, true);

function form(options: Profiled, heightMm: number): Form {
  const oval = ovalOf(options);
  const profile = profileOf(options.profile);
  return {
    boxMm: oval.boxMm,
    finestMm: oval.leastRadiusMm,
    heightMm,
    row(yMm) {
      const { minXMm, maxXMm, ratio } = oval.row(yMm);
      return { minXMm, maxXMm, height: (xMm) => heightMm * profile(ratio(xMm)), holds: (xMm) => ratio(xMm) <= 1 };
    },
  };
}
