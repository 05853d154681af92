import { CannotMake, type Finding } from './findings.ts';
import { stream } from './geometry/random.ts';
import type { Job, Step } from './job.ts';
import type { Facts } from './model/facts.ts';
import type { Others } from './plugin.ts';
import { factsWithOffcuts } from './saved-offcuts.ts';
import { type FactsOf, READS, type StageName, type Stages } from './stages.ts';
import { type Driver, QUIET, walk } from './walk.ts';

/** What stages made, by stage and place: for a live view that runs again and again. Never grows past one run's steps. */
export type Memory = Map<
  string,
  {
    input: unknown;
    others: Others;
    read: ReadonlySet<keyof Facts>;
    key: string;
    value: unknown;
    findings: readonly Finding[];
  }
>;

export interface RunOptions {
  readonly driver?: Driver;
  readonly memory?: Memory;
  /** Set beside other plans: what it saves against other ways to build is not worked out for its own findings. */
  readonly isCompared?: boolean;
  /** Which stage is at work, and how far (0…1). */
  progress?(stage: StageName, done: number): void;
}

/** Bytes of every file that a job names, by the name as written. */
export type JobFiles = ReadonlyMap<string, Uint8Array>;

export type RunStage = <S extends StageName>(
  step: Step<S>,
  input: Stages[S]['takes'],
  place: number,
  told: Finding[],
  others?: Others,
  way?: number,
) => Promise<Stages[S]['makes']>;

const NO_OTHERS: Others = {};

/**
 * Runs one step, or remembers what it made from the same input, options, seed and facts. A refusal takes along what was
 * told before it: ground that gives no layer may have been read in the wrong unit.
 */
export function stagesOf(job: Job, files: JobFiles, { driver = QUIET, memory = new Map(), progress }: RunOptions) {
  const facts = factsWithOffcuts(job, files);
  const stage: RunStage = async (step, input, place, told, others = NO_OTHERS, way = 0) => {
    // Ways to build that are tried in turn are each as if alone: what is random goes by the place.
    const slot = `${step.stage}/${place}/${way}`;
    const read = new Set<keyof Facts>();
    const stageFacts = factsFor(step.stage, facts, read);
    const keyWith = (names: Iterable<keyof Facts>) =>
      JSON.stringify([step.plugin.name, step.options, job.seed, [...names].map((name) => facts[name])]);
    let made = memory.get(slot);
    if (!made || !isSame(made.input, input) || !isSame(made.others, others) || made.key !== keyWith(made.read)) {
      const findings: Finding[] = [];
      const tell = (finding: Finding) => void findings.push(finding);
      const context = { facts: stageFacts, tell, random: stream(job.seed, step.stage, place), others };
      progress?.(step.stage, 0);
      const report = (done: number) => progress?.(step.stage, done);
      try {
        const work = step.plugin.run(input, step.options, context);
        const value = await walk(work, { ...driver, report }, step.plugin.tasks);
        made = { input, others, read, key: keyWith(read), value, findings };
        memory.set(slot, made);
      } catch (error) {
        throw error instanceof CannotMake ? new CannotMake(error.faults, [...told, ...findings]) : error;
      }
    }
    told.push(...made.findings);
    return made.value as never;
  };
  return { facts, stage };
}

/** Whether two inputs are the same: one value, or plain groups of the very same values. Nobody changes a value once made. */
function isSame(a: unknown, b: unknown): boolean {
  if (a === b || !isPlain(a) || !isPlain(b)) return a === b;
  const keys = Object.keys(a);
  return keys.length === Object.keys(b).length && keys.every((key) => key in b && a[key] === b[key]);
}

const isPlain = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && Object.getPrototypeOf(value) === Object.prototype;

/** The facts that a stage may read, and a note of each that it does. */
function factsFor<S extends StageName>(stage: S, facts: Facts, read: Set<keyof Facts>): FactsOf<S> {
  const get = (name: keyof Facts) => () => {
    read.add(name);
    return facts[name];
  };
  const names: readonly (keyof Facts)[] = READS[stage];
  return Object.defineProperties(
    {},
    Object.fromEntries(names.map((name) => [name, { enumerable: true, get: get(name) }])),
  ) as FactsOf<S>;
}
