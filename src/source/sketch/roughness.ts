import type { Kit } from '../../plugin.ts';
import { HOW_FAULT, type HowOptions, howOptions, laid, saysHowOnce } from './how.ts';
import { gradientNoise } from './noise.ts';
import type { Relief } from './relief.ts';
import { seedOption } from './seeds.ts';
import { patterned, type WithinOptions, withinOption } from './within.ts';

/** Options of lumps and hollows. */
export const roughnessOptions = (kit: Kit) =>
  kit.z
    .strictObject({
      height: kit
        .length({ above: 0 })
        .describe('at most, from the deepest hollow to the highest lump; two thirds is usual'),
      size: kit.length({ above: 0 }).describe('of the largest lumps'),
      octaves: kit.z.int().min(1).max(10).default(4).describe('how many sizes of lumps, each half the size before'),
      seed: seedOption(kit),
      within: withinOption(kit),
      ...howOptions(kit, 'add'),
    })
    .refine(saysHowOnce, HOW_FAULT);

interface RoughnessOptions extends HowOptions {
  readonly height: number;
  readonly size: number;
  readonly octaves: number;
  readonly within?: WithinOptions | undefined;
}

/** Add lumps and hollows (gradientNoise), half the height up and down at most. */
export function roughness(options: RoughnessOptions, seed: number, levelMm: number): Relief {
  const { height: heightMm, size: sizeMm, octaves, within } = options;
  const noise = gradientNoise(seed, sizeMm, octaves);
  const pattern = (yMm: number) => {
    const along = noise(yMm);
    return (xMm: number) => (heightMm / 2) * along(xMm);
  };
  return laid(options, patterned(pattern, sizeMm, heightMm / 2, within), levelMm, false);
}
