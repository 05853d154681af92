import { inspect } from './checks/inspect.ts';
import { planJson } from './document/plan-json.ts';
import type { Finding } from './findings.ts';
import { stream } from './geometry/random.ts';
import { boxOf } from './geometry/ring.ts';
import type { Job, Step } from './job.ts';
import type { Facts } from './model/facts.ts';
import { readOffcuts } from './model/files.ts';
import type { Landform } from './model/landform.ts';
import type { Wish } from './model/piece.ts';
import type { OutputFile, Plan } from './model/plan.ts';
import type { Offcut } from './model/stock.ts';
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

/** Bytes of every file that a job names, by the name as written. */
export type JobFiles = ReadonlyMap<string, Uint8Array>;

/** Run a job. */
export async function run(job: Job, files: JobFiles, options: RunOptions = {}): Promise<Made> {
  const { facts, stage } = stagesOf(job, files, options);
  const told: Finding[] = [];
  const landform = await landformOf(job, files, stage, told);
  const stack = await stage(job.slice, landform, 0, told);

  let plan: Plan | undefined;
  let wishes: readonly Wish[] = [];
  for (let round = 0; ; round++) {
    const findings = [...told];
    const blanks = await stage(job.split, { stack, wishes }, round, findings);
    const layout = await stage(job.nest, blanks, round, findings);
    const { name, unit, written } = job;
    plan = cheaper(
      plan,
      inspect(tally({ name, unit, job: written, facts, landform, stack, blanks, layout, findings })),
    );
    wishes = layout.wishes;
    if (round === ROUNDS || wishes.length === 0) break;
  }

  // A document sees what those before it told; plan.json, which is always written, comes last and holds it all.
  const made: OutputFile[] = [];
  for (const [place, step] of [...job.documents.filter(({ plugin }) => plugin !== planJson), PLAN_FILE].entries()) {
    const findings: Finding[] = [];
    made.push(...(await stage(step, plan, place, findings)));
    plan = withFindings(plan, findings);
  }
  return { plan, files: made };
}

const PLAN_FILE: Step<'document'> = { stage: 'document', plugin: planJson, options: {}, path: 'documents' };

/** The ground of a job, as it goes to be sliced, and what was told on the way. */
export async function ground(job: Job, files: JobFiles, options: RunOptions = {}) {
  const findings: Finding[] = [];
  return { landform: await landformOf(job, files, stagesOf(job, files, options).stage, findings), findings };
}

type RunStage = <S extends StageName>(
  step: Step<S>,
  input: Stages[S]['takes'],
  place: number,
  told: Finding[],
) => Promise<Stages[S]['makes']>;

/** Runs one step, or remembers what it made from the same input, options, seed and facts. */
function stagesOf(job: Job, files: JobFiles, { driver = QUIET, memory = new Map(), progress }: RunOptions) {
  const offcuts = job.offcutFiles.flatMap((file) => readOffcuts(files.get(file), file));
  const facts = withOffcuts(job.facts, offcuts);
  const stage: RunStage = async (step, input, place, told) => {
    const slot = `${step.stage}/${place}`;
    const stageFacts = factsFor(step.stage, facts);
    const key = JSON.stringify([step.plugin.name, step.options, job.seed, stageFacts]);
    let made = memory.get(slot);
    if (!made || made.input !== input || made.key !== key) {
      const findings: Finding[] = [];
      const tell = (finding: Finding) => void findings.push(finding);
      const context = { facts: stageFacts, tell, random: stream(job.seed, step.stage, place) };
      progress?.(step.stage, 0);
      const report = (done: number) => progress?.(step.stage, done);
      const value = await walk(step.plugin.run(input, step.options, context), { ...driver, report }, step.plugin.tasks);
      made = { input, key, value, findings };
      memory.set(slot, made);
    }
    told.push(...made.findings);
    return made.value as never;
  };
  return { facts, stage };
}

/** The facts with the saved offcuts, now that they are read. Where there are no boards, a splitter cuts to fit offcuts. */
function withOffcuts(facts: Facts, offcuts: readonly Offcut[]): Facts {
  const stock = { ...facts.stock, offcuts };
  if (facts.boardSizes.length > 0) return { ...facts, stock };
  const boardSizes = offcuts.map(({ rings, thicknessMm }) => {
    const [minX, minY, maxX, maxY] = boxOf(rings);
    return { sizeMm: [maxX - minX, maxY - minY] as const, thicknessMm, trimMm: 0 };
  });
  const thicknessesMm = [...new Set(offcuts.map(({ thicknessMm }) => thicknessMm))].sort((a, b) => a - b);
  return { ...facts, stock, boardSizes, thicknessesMm };
}

async function landformOf(job: Job, files: JobFiles, stage: RunStage, told: Finding[]): Promise<Landform> {
  let landform = await stage(job.source, files, 0, told);
  for (const [place, step] of job.shape.entries()) landform = await stage(step, landform, place, told);
  return landform;
}

/** The plan with more findings; what was told already, by a document that draws the same, is not told twice. */
function withFindings(plan: Plan, more: readonly Finding[]): Plan {
  const told = new Set(plan.findings.map((finding) => JSON.stringify(finding)));
  const fresh = more.filter((finding) => !told.has(JSON.stringify(finding)));
  return fresh.length === 0 ? plan : { ...plan, findings: [...plan.findings, ...fresh] };
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
