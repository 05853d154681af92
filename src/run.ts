import { planJson } from './document/plan-json.ts';
import { type Finding, refuse } from './findings.ts';
import type { Job, Step } from './job.ts';
import { landformOf } from './landform-of.ts';
import type { OutputFile, Plan } from './model/plan.ts';
import { type JobFiles, type RunOptions, stagesOf } from './steps.ts';
import { cheapest } from './ways.ts';
import { deviationOf } from './workshop/deviation.ts';

export interface Made {
  readonly plan: Plan;
  readonly files: readonly OutputFile[];
}

/** Run a job. */
export async function run(job: Job, files: JobFiles, options: RunOptions = {}): Promise<Made> {
  const { facts, stage } = stagesOf(job, files, options);
  const told: Finding[] = [];
  const landform = await landformOf(job, files, stage, told);
  const stack = await stage(job.slice, landform, 0, told);
  const deviation = await deviationOf(landform, stack);

  const { name, unit, written } = job;
  const sliced = { name, unit, job: written, facts, landform, stack, deviation, findings: told };
  let plan = await cheapest(job, sliced, stage, options.isCompared);

  // A document sees what those before it told; plan.json, which is always written, comes last and holds it all.
  const made: OutputFile[] = [];
  for (const [place, step] of [...job.documents.filter(({ plugin }) => plugin !== planJson), PLAN_FILE].entries()) {
    const findings: Finding[] = [];
    addFiles(made, await stage(step, plan, place, findings), step);
    plan = withFindings(plan, findings);
  }
  return { plan, files: made };
}

const PLAN_FILE: Step<'document'> = { stage: 'document', plugin: planJson, options: {}, path: 'documents' };

function addFiles(made: OutputFile[], more: readonly OutputFile[], { plugin, path }: Step): void {
  for (const file of more) {
    // Some systems take capitals and small letters for the same.
    const isThere = made.some((other) => other.path.toLowerCase() === file.path.toLowerCase());
    if (isThere) sameFile(file.path, plugin.name, path);
    made.push(file);
  }
}

const sameFile = (file: string, name: string, path: string): never =>
  refuse(
    'document/same-file',
    `${name} would write ${file}, which another document has written.`,
    'Take one of the two out of documents.',
    { path },
  );

/** The ground of a job, as it goes to be sliced, and what was told on the way. */
export async function ground(job: Job, files: JobFiles, options: RunOptions = {}) {
  const findings: Finding[] = [];
  return { landform: await landformOf(job, files, stagesOf(job, files, options).stage, findings), findings };
}

/** The plan with more findings; what was told already, by a document that draws the same, is not told twice. */
function withFindings(plan: Plan, more: readonly Finding[]): Plan {
  const told = new Set(plan.findings.map((finding) => JSON.stringify(finding)));
  const fresh = more.filter((finding) => !told.has(JSON.stringify(finding)));
  return fresh.length === 0 ? plan : { ...plan, findings: [...plan.findings, ...fresh] };
}
