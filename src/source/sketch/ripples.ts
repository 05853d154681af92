import { turn } from '../../geometry/exact-math.ts';
import type { Kit } from '../../plugin.ts';
import { HOW_FAULT, type HowOptions, howOptions, laid, saysHowOnce } from './how.ts';
import { type ProfileName, profileOf, profileOption } from './profiles.ts';
import type { Relief } from './relief.ts';
import { patterned, type WithinOptions, withinOption } from './within.ts';

/** Options of waves of one length. */
export const rippleOptions = (kit: Kit) =>
  kit.z
    .strictObject({
      length: kit.length({ above: 0 }).describe('from crest to crest'),
      height: kit.length({ above: 0 }).describe('from trough to crest; troughs stand on the ground'),
      direction: kit.z
        .number()
        .min(-360)
        .max(360)
        .default(0)
        .describe('degrees from east, counter-clockwise, in which crest follows crest'),
      profile: profileOption(kit),
      within: withinOption(kit),
      ...howOptions(kit, 'add'),
    })
    .refine(saysHowOnce, HOW_FAULT);

interface RippleOptions extends HowOptions {
  readonly length: number;
  readonly height: number;
  readonly direction: number;
  readonly profile: ProfileName;
  readonly within?: WithinOptions | undefined;
}

/**
 * Add waves: height × profile(distance from the nearest crest / half a wave length). A crest runs through the middle of
 * `within`, or through the south-west corner.
 */
export function ripples(options: RippleOptions, levelMm: number): Relief {
  const { length: lengthMm, height: heightMm, direction, profile: name, within } = options;
  const { cos, sin } = turn(direction);
  const profile = profileOf(name);
  const [crestX, crestY] = within?.at ?? [0, 0];
  const pattern = (yMm: number) => (xMm: number) => {
    const waves = ((xMm - crestX) * cos + (yMm - crestY) * sin) / lengthMm;
    return heightMm * profile(2 * Math.abs(waves - Math.round(waves)));
  };
  return laid(options, patterned(pattern, lengthMm / 2, heightMm, within), levelMm, false);
}
