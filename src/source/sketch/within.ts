import type { Kit } from '../../plugin.ts';
import type { Form } from './how.ts';
import { hasOneRadius, ONE_RADIUS, type OvalOptions, ovalOf, ovalOptions } from './oval.ts';
import { type ProfileName, profileOf, profileOption } from './profiles.ts';
import { EVERYWHERE } from './relief.ts';

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

/** A pattern, everywhere or times the profile within an oval. */
export function patterned(
  pattern: Pattern,
  finestMm: number,
  heightMm: number,
  within: WithinOptions | undefined,
): Form {
  if (within === undefined) {
    return {
      boxMm: EVERYWHERE,
      finestMm,
      heightMm,
      row: (yMm) => ({ minXMm: -Infinity, maxXMm: Infinity, height: pattern(yMm), holds: () => true }),
    };
  }
  const oval = ovalOf(within);
  const profile = profileOf(within.profile);
  return {
    boxMm: oval.boxMm,
    finestMm,
    heightMm,
    row(yMm) {
      const { minXMm, maxXMm, ratio } = oval.row(yMm);
      const along = pattern(yMm);
      const height = (xMm: number) => profile(ratio(xMm)) * along(xMm);
      return { minXMm, maxXMm, height, holds: (xMm) => ratio(xMm) <= 1 };
    },
  };
}
