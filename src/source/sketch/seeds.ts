import { type Random, stream } from '../../geometry/random.ts';
import type { Kit } from '../../plugin.ts';

const MOST_SEED = 4294967295;

/** The seed of features that chance has a hand in. */
export const seedOption = ({ z }: Kit) =>
  z
    .int()
    .min(0)
    .max(MOST_SEED)
    .optional()
    .describe(
      "another number, others of its kind; left out, it follows from the job's seed and those of its kind before",
    );

/**
 * A seed for each feature of the list that may have one: its own, or one of a row that belongs to its kind, so that an added
 * feature changes the chance of none of another kind. Roughness takes the numbers of `random` itself, one after the other.
 */
export function seedsOf(
  features: readonly { readonly kind: string; readonly seed: number | undefined }[],
  random: Random,
): readonly number[] {
  const first = random();
  const rows = new Map<string, Random>();
  let isFirst = true;
  const roughness: Random = () => {
    const share = isFirst ? first : random();
    isFirst = false;
    return share;
  };
  rows.set('roughness', roughness);
  return features.map(({ kind, seed }) => {
    if (seed !== undefined) return seed;
    const row = rows.get(kind) ?? stream(first, kind);
    rows.set(kind, row);
    return Math.floor(row() * (MOST_SEED + 1));
  });
}
