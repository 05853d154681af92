import type { z } from 'zod';
import type { Finding } from './findings.ts';
import type { Random } from './geometry/random.ts';
import type { Landform } from './model/landform.ts';
import type { FactsOf, StageName, Stages } from './stages.ts';
import type { Unit } from './units.ts';

/** What a plugin is handed beside its input and options; a shaper also the other grounds that its options ask for. */
export type Context<S extends StageName = StageName> = Handed<S> &
  (S extends 'shape' ? HandedToShapers : Partial<HandedToShapers>);

interface Handed<S extends StageName> {
  /** Only those that the stage reads (stages.ts). */
  readonly facts: FactsOf<S>;
  /** Tell a finding; the edge prints it, the report lists it. Its code starts with the stage's name. */
  tell(finding: Finding): void;
  /** One stream per (seed, stage, place in its list): an added shaper does not change the nest. */
  readonly random: Random;
}

interface HandedToShapers {
  /** What the sources in its options made, by their place in the options: `with`, `more.0`. */
  readonly others: Others;
}

export type Others = Readonly<Record<string, Landform>>;

/** Independent pieces of work that a walk yields: run in line or in workers, the answers come back in order. */
export interface Lanes {
  readonly lanes: readonly { readonly task: string; readonly input: unknown }[];
  /** How far the walk is when they are done, 0…1: run in line, their own progress is spread up to there. */
  readonly upTo?: number;
}

/** What the driver answers to a yield: go on, or enough (give the best so far); and the lanes' results. */
export interface Reply {
  readonly say: 'go' | 'enough';
  readonly results: readonly unknown[];
}

/** A long computation: yields how far it is (0…1, growing) or lanes; returns its value. */
export type Walk<T> = Generator<number | Lanes, T, Reply>;
/** A value, a promise of one, or a walk to it. */
export type Work<T> = T | Promise<T> | Walk<T>;

/** A step that can be run in a worker: takes and gives what structuredClone can copy. */
// biome-ignore lint/suspicious/noExplicitAny: a task's input is known to the plugin that yields it
export type Task = (input: any) => Generator<number, unknown, Reply>;

/** What a plugin declares its options with: zod, and schemas that know the job's unit. */
export interface Kit {
  readonly z: typeof z;
  readonly unit: Unit;
  /** A length in the job's unit or with one written; millimetres come out. Limits are in millimetres. */
  length(limits?: { above?: number; least?: number; most?: number }): z.ZodType<number, number | string>;
  /** [x, y] as lengths. */
  point(): z.ZodType<[number, number], [number | string, number | string]>;
  /** [width, depth], both above 0 and, when said, at most so many millimetres. */
  size(limits?: { most?: number }): z.ZodType<[number, number], [number | string, number | string]>;
  /** A file beside the job; its bytes reach `run` of a source under the same name. */
  file(): z.ZodType<string, string>;
  /**
   * Another ground, said as a source step: of shapers only. What it makes reaches `run` as one of `others`; the option itself
   * comes out as `{ name: its options }`, and must not be transformed further.
   */
  source(): z.ZodType<SourceOption, SourceOption | string>;
}

/** A source step within a shaper's options. */
export type SourceOption = Readonly<Record<string, unknown>>;

/** A plugin: one way to do one stage. Its options are declared once, here; checks, schema, flags and help follow. */
export interface Plugin<S extends StageName = StageName, O extends z.ZodObject = z.ZodObject> {
  readonly api: 1;
  readonly stage: S;
  /** kebab-case, unique in its stage. */
  readonly name: string;
  /** One line, for help and report. */
  readonly summary: string;
  options(kit: Kit): O;
  run(input: Stages[S]['takes'], options: z.output<O>, context: Context<S>): Work<Stages[S]['makes']>;
  /** Tasks that its lanes name. */
  readonly tasks?: Readonly<Record<string, Task>>;
}

/** Keeps the options' types: a plain `const p: Plugin` would lose them. */
export const definePlugin = <S extends StageName, O extends z.ZodObject>(plugin: Plugin<S, O>): Plugin<S, O> => plugin;
