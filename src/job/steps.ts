import { CannotMake, type Fault } from '../findings.ts';
import type { Step } from '../job.ts';
import type { Registry } from '../registry.ts';
import type { StageName } from '../stages.ts';
import { type Entry, saysBest, waysOf } from './best.ts';
import { STEP_KEYS } from './core.ts';
import { check, faultAt } from './faults.ts';
import type { JobKit } from './kit.ts';
import type { Path, Places } from './places.ts';
import { empty, missing, shown } from './words.ts';

/** What is needed to read a step. */
export interface Reading {
  readonly registry: Registry;
  readonly kit: JobKit;
  readonly places: Places;
  readonly faults: Fault[];
}

/** Steps that could be read, by their key in the job. */
export type Steps = Readonly<Record<keyof typeof STEP_KEYS, readonly Step[]>>;

/** Read every step of a job; keys that take one step give a list of one. Faults are told. */
export function readSteps(job: Readonly<Record<string, unknown>>, reading: Reading): Steps {
  const result: Record<string, readonly Step[]> = {};
  for (const [key, { stage, isList, mayBeBest, otherwise }] of Object.entries(STEP_KEYS)) {
    const value = Object.hasOwn(job, key) ? job[key] : otherwise;
    const isBest = mayBeBest && saysBest(value);
    const entries = isBest
      ? waysOf(value, stage, [key], reading)
      : isList
        ? entriesOf(value, key)
        : [{ value, path: [key] }];
    const steps = entries.map((each) => readStep(stage, each.value, each.path, reading));
    result[key] = steps.filter((step) => step !== undefined);
    if (stage === 'document' || isBest) tellTwice(steps, entries, reading);
  }
  return result as Steps;
}

const entriesOf = (value: unknown, key: string): Entry[] =>
  Array.isArray(value) ? value.map((each: unknown, i) => ({ value: each, path: [key, i] })) : [];

/** The same document twice would write the same files; of the same way to build twice nobody could tell which was meant. */
function tellTwice(steps: readonly (Step | undefined)[], entries: readonly Entry[], { places, faults }: Reading): void {
  for (const [i, step] of steps.entries()) {
    const first = steps.findIndex((other) => other !== undefined && other.plugin === step?.plugin);
    if (!step || first === i) continue;
    const why = step.stage === 'document' ? ': both would write the same files' : '';
    const text = `${step.plugin.name} stands here twice.\nKeep one${why}.`;
    faults.push(faultAt('job/step', text, entries[i].path, places));
  }
}

/** Read one step: `{ plugin: options }` or the plugin's bare name. Undefined, and faults told, when it cannot be. */
function readStep<S extends StageName>(stage: S, value: unknown, path: Path, reading: Reading): Step<S> | undefined {
  const { registry, kit, places, faults } = reading;
  const named = nameOf(stage, value, path);
  if ('wrong' in named) {
    faults.push(faultAt(value === undefined ? 'job/missing' : 'job/step', named.wrong, path, places));
    return undefined;
  }
  const at = [...path, named.name];
  try {
    const place = named.isBare ? places.where(path, 'value') : places.where(at, 'key');
    const plugin = registry.find(stage, named.name, place);
    // An object schema that lets unknown keys pass would pass misspelt ones.
    const checked = check(plugin.options(kit).strict(), named.options, at, places);
    faults.push(...checked.faults);
    const sources = readSources(stage, named.options, at, reading);
    if (checked.value === undefined) return undefined;
    const step = { stage, plugin, options: checked.value as Step['options'], path: at.join('.') };
    return Object.keys(sources).length === 0 ? step : { ...step, sources };
  } catch (error) {
    if (!(error instanceof CannotMake)) throw error;
    faults.push(...error.faults);
    return undefined;
  }
}

/**
 * Read the source steps that the options of a step turned out to hold. What the kit's option let stand for each is made
 * whole here, where its place in the job is known.
 */
function readSources(stage: StageName, options: unknown, at: Path, reading: Reading): NonNullable<Step['sources']> {
  const sources: Record<string, Step<'source'>> = {};
  const read = new Map<string, Step<'source'> | undefined>();
  for (const [i, { written, option }, all] of reading.kit.sources
    .splice(0)
    .map((each, i, all) => [i, each, all] as const)) {
    // One value may stand at several places, by an alias: each in turn.
    const inside = pathsOf(written, options);
    const before = all.slice(0, i).filter((other) => other.written === written).length;
    const path = [...at, ...inside[Math.min(before, inside.length - 1)]];
    const key = path.slice(at.length).join('.');
    if (!read.has(key))
      read.set(key, stage === 'shape' ? readStep('source', written, path, reading) : noSource(path, reading));
    const step = read.get(key);
    if (step === undefined) continue;
    option[step.plugin.name] = step.options;
    sources[key] = step;
  }
  return sources;
}

function noSource(path: Path, { places, faults }: Reading): undefined {
  faults.push(faultAt('job/bad-value', 'Only a shaper takes another source.\nTake it out.', path, places));
}

/** Every place within a value where another stands, in order. */
function pathsOf(wanted: unknown, within: unknown, path: Path = []): Path[] {
  if (within === wanted) return [path];
  if (typeof within !== 'object' || within === null) return [];
  const isList = Array.isArray(within);
  return Object.entries(within).flatMap(([key, value]) =>
    pathsOf(wanted, value, [...path, isList ? Number(key) : key]),
  );
}

type Named = { name: string; options: unknown; isBare: boolean } | { wrong: string };

function nameOf(stage: StageName, value: unknown, path: Path): Named {
  const key = String(path.at(-1));
  if (value === undefined) return { wrong: missing(key) };
  if (value === null) return { wrong: empty(key) };
  if (typeof value === 'string') return { name: value, options: {}, isBare: true };
  if (typeof value !== 'object' || Array.isArray(value)) {
    return { wrong: `${shown(value)} is not a ${stage} step.\nWrite a plugin's name, or { name: { its options } }.` };
  }
  const [first, ...others] = Object.entries(value);
  if (first === undefined) return { wrong: `This ${stage} step names no plugin.\nWrite { name: { its options } }.` };
  if (others.length > 0) {
    const names = Object.keys(value).map(shown).join(', ');
    const wrong = `A ${stage} step names one plugin; here stand ${names}.`;
    return { wrong: `${wrong}\nIndent a plugin's options one step further than its name.` };
  }
  return { name: first[0], options: first[1] ?? {}, isBare: false };
}
