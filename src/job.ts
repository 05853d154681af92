import { CannotMake, refuse } from './findings.ts';
import { coreSchema } from './job/core.ts';
import { crossChecks } from './job/cross-checks.ts';
import { check } from './job/faults.ts';
import { jobOf } from './job/judged.ts';
import { makeKit } from './job/kit.ts';
import { override } from './job/overrides.ts';
import { places as placesOf } from './job/places.ts';
import { readSteps } from './job/steps.ts';
import { readYaml } from './job/yaml.ts';
import type { Facts } from './model/facts.ts';
import type { AnyPlugin, Registry } from './registry.ts';
import type { StageName } from './stages.ts';
import { UNITS, type Unit } from './units.ts';

/** One step of a job: which plugin, with which options (parsed, defaults filled in), and where it stands in the job. */
export interface Step<S extends StageName = StageName> {
  readonly stage: S;
  readonly plugin: AnyPlugin;
  readonly options: Readonly<Record<string, unknown>>;
  /** As on the command line: `shape.0.fit`. */
  readonly path: string;
  /** Of a shaper: the sources that its options hold, by their place in the options. None when not said. */
  readonly sources?: Readonly<Record<string, Step<'source'>>>;
}

/** What the user asks for, read and checked. */
export interface Job {
  readonly name: string;
  readonly unit: Unit;
  readonly seed: number;
  readonly source: Step<'source'>;
  readonly shape: readonly Step<'shape'>[];
  readonly slice: Step<'slice'>;
  /** The ways to build to choose from: one, or several where the job says `best`. */
  readonly split: readonly Step<'split'>[];
  readonly nest: Step<'nest'>;
  readonly documents: readonly Step<'document'>[];
  /** `stock.offcuts` stays empty until the files named by `offcutFiles` have been read. */
  readonly facts: Facts;
  /** Files that the source's options name, as written. */
  readonly sourceFiles: readonly string[];
  /** Files of saved offcuts, as written. */
  readonly offcutFiles: readonly string[];
  /** The job in the form it is written in plan.json: defaults filled in, unit mm. Reading it back gives the same job. */
  readonly written: Readonly<Record<string, unknown>>;
}

/** A value set from outside the file, by its path: `--slice.layers.cut shy`. */
export interface Override {
  readonly path: string;
  readonly value: string;
}

/** Read a job file. Every fault is found at once: throws CannotMake with file, line, column and the way out of each. */
export function readJob(text: string, file: string, registry: Registry, overrides: readonly Override[] = []): Job {
  const yaml = readYaml(text, file);
  const faults = [...yaml.faults];
  const end = (): never => {
    throw new CannotMake(faults);
  };
  if (yaml.value === undefined) end();
  if (typeof yaml.value !== 'object' || yaml.value === null || Array.isArray(yaml.value)) {
    const message = yaml.value === null ? 'The job is empty.' : 'This is not a job: a job is a group of keys.';
    refuse('job/yaml', message, 'Start with "name: …".', { file, line: 1, column: 1 });
  }
  const raw = yaml.value as Record<string, unknown>;
  const set = override(raw, overrides);
  faults.push(...set.faults);

  const places = placesOf(yaml, file, set.flags);
  const unit = UNITS.find((known) => known === raw.unit) ?? 'mm';
  const kit = makeKit(unit);
  const schema = coreSchema(kit);
  const core = check(schema, raw, [], places);
  faults.push(...core.faults, ...crossChecks(raw, schema.shape, kit, places));

  const steps = readSteps(raw, { registry, kit, places, faults });
  if (core.value === undefined || faults.length > 0) return end();
  return jobOf(core.value, steps, kit.files);
}
