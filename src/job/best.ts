import type { Kit } from '../plugin.ts';
import type { AnyPlugin } from '../registry.ts';
import type { StageName } from '../stages.ts';
import { faultAt } from './faults.ts';
import type { Path } from './places.ts';
import type { Reading } from './steps.ts';

/** The word that stands for several steps of which the cheapest is taken. No plugin has this name. */
export const BEST = 'best';

/** A step as written, and where. */
export interface Entry {
  readonly value: unknown;
  readonly path: Path;
}

/** Whether a step says `best`, bare or with the ways to choose from. */
export const saysBest = (value: unknown): boolean =>
  value === BEST ||
  (typeof value === 'object' && value !== null && Object.keys(value).join() === BEST && Object.hasOwn(value, BEST));

/** The steps that `best` stands for: those it lists, or each plugin of the stage with its options left as they are. */
export function waysOf(
  value: unknown,
  stage: StageName,
  path: Path,
  { registry, kit, places, faults }: Reading,
): Entry[] {
  const listed = value === BEST ? null : (value as { readonly [BEST]: unknown })[BEST];
  if (listed === null) return bareNames(registry.of(stage), kit).map((name) => ({ value: name, path }));
  const at = [...path, BEST];
  if (Array.isArray(listed) && listed.length > 1) return listed.map((each, i) => ({ value: each, path: [...at, i] }));
  const text = `best chooses from a list of two ways or more.\nWrite best alone, or best: [solid, hollow: { lap: 60 mm }].`;
  faults.push(faultAt('job/step', text, at, places));
  return [];
}

/** Those of some plugins of which no option must be said. */
export const bareNames = (plugins: readonly AnyPlugin[], kit: Kit): string[] =>
  plugins.filter((plugin) => plugin.options(kit).safeParse({}).success).map(({ name }) => name);
