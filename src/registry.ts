import { closest, distance } from 'fastest-levenshtein';
import { refuse, type Where } from './findings.ts';
import { guarded, guardOf } from './guard.ts';
import type { Kit, Plugin } from './plugin.ts';
import { STAGES, type StageName } from './stages.ts';

// biome-ignore lint/suspicious/noExplicitAny: a list of plugins of every stage and every shape of options
export type AnyPlugin = Plugin<any, any>;

/** The plugins at hand: a value, not a place. */
export interface Registry {
  readonly plugins: readonly AnyPlugin[];
  of(stage: StageName): readonly AnyPlugin[];
  /** The plugin, or a refusal that names those there are. */
  find(stage: StageName, name: string, where?: Where): AnyPlugin;
  with(...others: readonly AnyPlugin[]): Registry;
}

/** Make a registry. Two plugins of one stage and name are an error. */
export function registry(plugins: readonly AnyPlugin[]): Registry {
  const seen = new Set<string>();
  for (const { stage, name } of plugins) {
    const key = `${stage} plugins called "${name}"`;
    if (seen.has(key)) refuse('plugin/twice', `There are two ${key}.`, 'Rename one, or do not load it.');
    seen.add(key);
  }
  const of = (stage: StageName) => plugins.filter((plugin) => plugin.stage === stage);
  return {
    plugins,
    of,
    find(stage, name, where) {
      const found = of(stage).find((plugin) => plugin.name === name);
      if (found) return found;
      const names = of(stage).map((plugin) => plugin.name);
      const guess = nearest(name, names);
      return refuse(
        'job/no-such-plugin',
        `There is no ${stage} plugin "${name}"; there ${names.length === 0 ? 'is none' : `are ${names.join(', ')}`}.`,
        `${guess ? `Did you mean ${guess}? ` : ''}Load others with --plugin <path>.`,
        where,
      );
    },
    with: (...others) => registry([...plugins, ...others]),
  };
}

/** The word of the list that was probably meant, or nothing when none is near. */
export function nearest(word: string, words: readonly string[]): string | undefined {
  if (words.length === 0 || word.length > 60) return undefined;
  const lower = word.toLowerCase();
  const lowered = words.map((each) => each.toLowerCase());
  const guess = closest(lower, lowered);
  return distance(lower, guess) <= Math.max(guess.length > 3 ? 2 : 1, Math.floor(guess.length / 3))
    ? words[lowered.indexOf(guess)]
    : undefined;
}

/** Check an object that claims to be a plugin, at the door; inside it is watched. Third parties may export `(kit) => plugin`. */
export function asPlugin(value: unknown, kit: Kit, from: string): AnyPlugin {
  const plugin = typeof value === 'function' ? guardOf(`The module ${from}`, from).attempt(() => value(kit)) : value;
  const fix = 'See samples/ for one that works.';
  if (typeof plugin !== 'object' || plugin === null) refuse('plugin/not-one', `${from} exports no plugin.`, fix);
  const { api, stage, name, summary, options, run } = plugin as Record<string, unknown>;
  const called = typeof name === 'string' ? `Plugin "${name}" of ${from}` : `The plugin of ${from}`;
  if (api !== 1)
    refuse(
      'plugin/api',
      `${called} ${api === undefined ? 'does not say its api' : `wants api ${String(api)}`}; this is api 1.`,
      fix,
    );
  if (!STAGES.includes(stage as StageName)) refuse('plugin/stage', `${called} names no stage: ${String(stage)}.`, fix);
  if (typeof name !== 'string' || !/^[a-z][a-z0-9-]{0,40}$/.test(name)) {
    refuse('plugin/name', `${from}: a plugin's name is lower-case letters, digits and hyphens.`, fix);
  }
  // A word of the job: it chooses among the plugins of this stage.
  if (stage === 'split' && name === 'best') {
    refuse('plugin/name', `${from}: no split plugin may be called best, which chooses among them.`, fix);
  }
  if (typeof summary !== 'string' || typeof options !== 'function' || typeof run !== 'function') {
    refuse('plugin/shape', `${called} needs summary, options and run.`, fix);
  }
  return guarded(plugin as AnyPlugin, from);
}
