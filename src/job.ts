import type { Facts } from './model/facts.ts';
import type { AnyPlugin, Registry } from './registry.ts';
import type { StageName } from './stages.ts';
import type { Unit } from './units.ts';

/** One step of a job: which plugin, with which options (parsed, defaults filled in), and where it stands in the job. */
export interface Step<S extends StageName = StageName> {
  readonly stage: S;
  readonly plugin: AnyPlugin;
  readonly options: Readonly<Record<string, unknown>>;
  /** As on the command line: `shape.0.fit`. */
  readonly path: string;
}

/** What the user asks for, read and checked. */
export interface Job {
  readonly name: string;
  readonly unit: Unit;
  readonly seed: number;
  readonly source: Step<'source'>;
  readonly shape: readonly Step<'shape'>[];
  readonly slice: Step<'slice'>;
  readonly split: Step<'split'>;
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
export function readJob(_text: string, _file: string, _registry: Registry, _overrides: readonly Override[] = []): Job {
  throw new Error('not written yet');
}
