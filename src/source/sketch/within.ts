import type { Kit } from '../../plugin.ts';
import { hasOneRadius, ONE_RADIUS, type OvalOptions, ovalOf, ovalOptions } from './oval.ts';
import { type ProfileName, profileOf, profileOption } from './profiles.ts';
import { EVERYWHERE, type Relief } from './relief.ts';

/** A height over the plan, without end. */
export type Pattern = (yMm: number) => (xMm: number) => number;

export type WithinOptions = OvalOptions & { readonly profile: ProfileName };

/** `within`: an oval in which a pattern shows, whole in the middle and fading to its outline. */
export const withinOption = (kit: Kit) =>
  kit.z
    .strictObject({ ...ovalOptions(kit), profile: profileOption(kit) })
    .refine(hasOneRadius, ONE_RADIUS)
    .optional()
    .describe('an oval in which it shows, fading to the outline by its profile; everywhere when left out');

/** Add a pattern, everywhere or times the profile within an oval. */
export function patterned(pattern: Pattern, finestMm: number, within: WithinOptions | undefined): Relief {
  if (within === undefined) {
    return {
      boxMm: EVERYWHERE,
      finestMm,
      row(yMm) {
        const along = pattern(yMm);
        return { minXMm: -Infinity, maxXMm: Infinity, ground: (xMm, beforeMm) => beforeMm + along(xMm) };
      },
    };
  }
  const oval = ovalOf(within);
  const profile = profileOf(within.profile);
  return {
    boxMm: oval.boxMm,
    finestMm,
    row(yMm) {
      const { minXMm, maxXMm, ratio } = oval.row(yMm);
      const along = pattern(yMm);
      return { minXMm, maxXMm, ground: (xMm, beforeMm) => beforeMm + profile(ratio(xMm)) * along(xMm) };
    },
  };
}
