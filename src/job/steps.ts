import { CannotMake, type Fault } from '../findings.ts';
import type { Step } from '../job.ts';
import type { Kit } from '../plugin.ts';
import type { Registry } from '../registry.ts';
import type { StageName } from '../stages.ts';
import { STEP_KEYS } from './core.ts';
import { check, faultAt } from './faults.ts';
import type { Path, Places } from './places.ts';
import { empty, missing, shown } from './words.ts';

/** What is needed to read a step. */
export interface Reading {
  readonly registry: Registry;
  readonly kit: Kit;
  readonly places: Places;
  readonly faults: Fault[];
}

/** Steps that could be read, by their key in the job. */
export type Steps = Readonly<Record<keyof typeof STEP_KEYS, readonly Step[]>>;

/** Read every step of a job; keys that take one step give a list of one. Faults are told. */
export function readSteps(job: Readonly<Record<string, unknown>>, reading: Reading): Steps {
  const result: Record<string, readonly Step[]> = {};
  for (const [key, { stage, isList, otherwise }] of Object.entries(STEP_KEYS)) {
    const value = Object.hasOwn(job, key) ? job[key] : otherwise;
    const list = !isList ? [value] : Array.isArray(value) ? value : [];
    const steps = list.map((step, i) => readStep(stage, step, isList ? [key, i] : [key], reading));
    result[key] = steps.filter((step) => step !== undefined);
    if (stage === 'document') tellTwice(steps, reading);
  }
  return result as Steps;
}

/** The same document twice would write the same files. */
function tellTwice(steps: readonly (Step | undefined)[], { places, faults }: Reading): void {
  for (const [i, step] of steps.entries()) {
    const first = steps.findIndex((other) => other !== undefined && other.plugin === step?.plugin);
    if (!step || first === i) continue;
    const text = `${step.plugin.name} stands here twice.\nKeep one: both would write the same files.`;
    faults.push(faultAt('job/step', text, ['documents', i], places));
  }
}

/** Read one step: `{ plugin: options }` or the plugin's bare name. Undefined, and faults told, when it cannot be. */
function readStep<S extends StageName>(
  stage: S,
  value: unknown,
  path: Path,
  { registry, kit, places, faults }: Reading,
): Step<S> | undefined {
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
    if (checked.value === undefined) return undefined;
    return { stage, plugin, options: checked.value as Step['options'], path: at.join('.') };
  } catch (error) {
    if (!(error instanceof CannotMake)) throw error;
    faults.push(...error.faults);
    return undefined;
  }
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
