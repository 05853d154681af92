import type { Random } from '../../geometry/random.ts';
import type { Kit } from '../../plugin.ts';
import { gradientNoise } from './noise.ts';
import type { Relief } from './relief.ts';
import { patterned, type WithinOptions, withinOption } from './within.ts';

const MOST_SEED = 4294967295;

/** Options of lumps and hollows. */
export const roughnessOptions = (kit: Kit) =>
  kit.z.strictObject({
    height: kit
      .length({ above: 0 })
      .describe('at most, from the deepest hollow to the highest lump; two thirds is usual'),
    size: kit.length({ above: 0 }).describe('of the largest lumps'),
    octaves: kit.z.int().min(1).max(10).default(4).describe('how many sizes of lumps, each half the size before'),
    seed: kit.z
      .int()
      .min(0)
      .max(MOST_SEED)
      .optional()
      .describe(
        "another number, other lumps; left out, they follow from the job's seed and the roughnesses listed before",
      ),
    within: withinOption(kit),
  });

interface RoughnessOptions {
  readonly height: number;
  readonly size: number;
  readonly octaves: number;
  readonly seed?: number | undefined;
  readonly within?: WithinOptions | undefined;
}

/** Add lumps and hollows (gradientNoise), half the height up and down at most. Takes a number of `random` if it has no seed. */
export function roughness(options: RoughnessOptions, random: Random): Relief {
  const { height: heightMm, size: sizeMm, octaves, within } = options;
  const seed = options.seed ?? Math.floor(random() * (MOST_SEED + 1));
  const noise = gradientNoise(seed, sizeMm, octaves);
  const pattern = (yMm: number) => {
    const along = noise(yMm);
    return (xMm: number) => (heightMm / 2) * along(xMm);
  };
  return patterned(pattern, sizeMm, within);
}
