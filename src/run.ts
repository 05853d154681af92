import { inspect } from './checks/inspect.ts';
import type { Finding } from './findings.ts';
import { stream } from './geometry/random.ts';
import type { Job, Step } from './job.ts';
import type { Facts } from './model/facts.ts';
import { readOffcuts } from './model/files.ts';
import type { Layout } from './model/layout.ts';
import type { Wish } from './model/piece.ts';
import type { OutputFile, Plan } from './model/plan.ts';
import { type FactsOf, READS, type StageName, type Stages } from './stages.ts';
import { type Driver, QUIET, walk } from './walk.ts';
import { tally } from './workshop/quantities.ts';

/** How often at most the layout may ask that a piece be divided otherwise. */
const ROUNDS = 2;

/** What stages made, by stage and place: for a live view that runs again and again. Never grows past one run's steps. */
export type Memory = Map<string, { input: unknown; key: string; value: unknown; findings: readonly Finding[] }>;

export interface RunOptions {
  readonly driver?: Driver;
  readonly memory?: Memory;
  /** Which stage is at work, and how far (0…1). */
  progress?(stage: StageName, done: number): void;
}

export interface Made {
  readonly plan: Plan;
  readonly files: readonly OutputFile[];
}

/** Run a job. `files` holds the bytes of every file that the job names, by the name as written. */
export async function run(
  job: Job,
  files: ReadonlyMap<string, Uint8Array>,
  { driver = QUIET, memory = new Map(), progress = () => {} }: RunOptions = {},
): Promise<Made> {
  const offcuts = job.offcutFiles.flatMap((file) => readOffcuts(files.get(file), file));
  const facts: Facts = { ...job.facts, stock: { ...job.facts.stock, offcuts } };
  const told: Finding[] = [];

  async function stage<S extends StageName>(step: Step<S>, input: Stages[S]['takes'], place: number, to = told) {
    const key = JSON.stringify([step.plugin.name, step.options, job.seed, factsFor(step.stage, facts)]);
    const slot = `${step.stage}/${place}`;
    let made = memory.get(slot);
    if (!made || made.input !== input || made.key !== key) {
      const findings: Finding[] = [];
      const context = {
        facts: factsFor(step.stage, facts),
        tell: (finding: Finding) => findings.push(finding),
        random: stream(job.seed, step.stage, place),
      };
      progress(step.stage, 0);
      const report = (done: number) => progress(step.stage, done);
      const value = await walk(step.plugin.run(input, step.options, context), { ...driver, report }, step.plugin.tasks);
      made = { input, key, value, findings };
      memory.set(slot, made);
    }
    to.push(...made.findings);
    return made.value as Stages[S]['makes'];
  }

  let landform = await stage(job.source, files, 0);
  for (const [place, step] of job.shape.entries()) landform = await stage(step, landform, place);
  const stack = await stage(job.slice, landform, 0);

  let plan: Plan | undefined;
  let wishes: readonly Wish[] = [];
  for (let round = 0; ; round++) {
    const findings: Finding[] = [];
    const blanks = await stage(job.split, { stack, wishes }, round, findings);
    const layout: Layout = await stage(job.nest, blanks, round, findings);
    plan = cheaper(
      plan,
      inspect(
        tally({
          name: job.name,
          unit: job.unit,
          job: job.written,
          facts,
          landform,
          stack,
          blanks,
          layout,
          findings: [...told, ...findings],
        }),
      ),
    );
    wishes = layout.wishes;
    if (round === ROUNDS || wishes.length === 0) break;
  }

  const made: OutputFile[] = [];
  const late: Finding[] = [];
  for (const [place, step] of job.documents.entries()) made.push(...(await stage(step, plan, place, late)));
  return { plan: { ...plan, findings: [...plan.findings, ...late] }, files: made };
}

/** The plan that costs less: fewer findings of level stop, then less money, then fewer boards. */
function cheaper(before: Plan | undefined, now: Plan): Plan {
  if (!before) return now;
  const rank = ({ findings, quantities }: Plan) => [
    findings.filter(({ level }) => level === 'stop').length,
    quantities.price ?? 0,
    quantities.boardsBought,
  ];
  const [a, b] = [rank(before), rank(now)];
  const place = a.findIndex((value, i) => value !== b[i]);
  return place >= 0 && b[place] < a[place] ? now : before;
}

const factsFor = <S extends StageName>(stage: S, facts: Facts): FactsOf<S> =>
  Object.fromEntries(READS[stage].map((name) => [name, facts[name as keyof Facts]])) as FactsOf<S>;
