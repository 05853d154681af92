import { turn } from '../../geometry/exact-math.ts';
import { riseOf, slopeOption } from '../../model/slope.ts';
import type { Kit } from '../../plugin.ts';
import { HOW_FAULT, type HowOptions, howOptions, laid, saysHowOnce } from './how.ts';
import { gradientNoise } from './noise.ts';
import type { Relief } from './relief.ts';
import { seedOption } from './seeds.ts';
import { patterned, type WithinOptions, withinOption } from './within.ts';

/** Options of dunes that lie across the wind. */
export const duneOptions = (kit: Kit) =>
  kit.z
    .strictObject({
      height: kit.length({ above: 0 }).describe('of the crests'),
      spacing: kit.length({ above: 0 }).describe('from crest to crest; between two dunes the ground may lie bare'),
      direction: directionOption(kit).describe('degrees from east, counter-clockwise, towards which the wind blows'),
      windward: slopeOption().prefault(10).describe('slope that faces the wind, in degrees or as 1 in 6'),
      slip: slopeOption()
        .prefault(32)
        .describe('slope of the slip face, in the lee: loose sand stays at 30 to 34 degrees'),
      wander: kit
        .length({ least: 0 })
        .prefault(0)
        .describe('how far crests bend to either side at most; both slopes then vary with the bends'),
      uneven: kit.z.number().min(0).max(1).default(0).describe('share of the height by which crests may fall short'),
      seed: seedOption(kit),
      within: withinOption(kit),
      ...howOptions(kit, 'add'),
    })
    .refine(
      ({ height, spacing, windward, slip }) =>
        height / riseOf(windward) + height / riseOf(slip) <= spacing * (1 + 1e-9),
      {
        error: 'Dunes so high and so gentle are longer than their spacing.\nSet them wider apart, lower or steeper.',
        path: ['spacing'],
      },
    )
    .refine(saysHowOnce, HOW_FAULT);

const directionOption = ({ z }: Kit) => z.number().min(-360).max(360).default(0);

interface DuneOptions extends HowOptions {
  readonly height: number;
  readonly spacing: number;
  readonly direction: number;
  readonly windward: number;
  readonly slip: number;
  readonly wander: number;
  readonly uneven: number;
  readonly within?: WithinOptions | undefined;
}

/** Lumps of the noise that bends crests, in spacings: a crest bends about once in so long. */
const BEND = 2;

/**
 * Lay on dunes: with u along the wind from the nearest crest, height + u × windward before it and height − u × slip behind it,
 * nothing below the ground. A crest runs through the middle of `within`, or through the south-west corner.
 */
export function dunes(options: DuneOptions, seed: number, levelMm: number): Relief {
  const { height: heightMm, spacing: spacingMm, direction, wander: wanderMm, uneven, within } = options;
  const { cos, sin } = turn(direction);
  const windward = riseOf(options.windward);
  const slip = riseOf(options.slip);
  const bends = gradientNoise(seed, BEND * spacingMm, 1);
  const sags = gradientNoise(seed ^ 0x5a5a5a, BEND * spacingMm, 2);
  const [crestX, crestY] = within?.at ?? [0, 0];
  const pattern = (yMm: number) => {
    const bend = bends(yMm);
    const sag = sags(yMm);
    return (xMm: number) => {
      const straight = (xMm - crestX) * cos + (yMm - crestY) * sin;
      const along = wanderMm === 0 ? straight : straight + wanderMm * bend(xMm);
      const crest = uneven === 0 ? heightMm : heightMm * (1 - (uneven * (1 + sag(xMm))) / 2);
      const past = along - spacingMm * Math.floor(along / spacingMm);
      return Math.max(0, crest - slip * past, crest - windward * (spacingMm - past));
    };
  };
  return laid(options, patterned(pattern, heightMm / slip, heightMm, within), levelMm, false);
}
