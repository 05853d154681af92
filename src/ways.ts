import { inspect } from './checks/inspect.ts';
import { CannotMake, type Finding } from './findings.ts';
import type { Job, Step } from './job.ts';
import type { Wish } from './model/piece.ts';
import type { Plan } from './model/plan.ts';
import { costText, savingTold, type Tried, waysBeside } from './saving.ts';
import type { RunStage } from './steps.ts';
import { tally } from './workshop/quantities.ts';

/** How often at most the layout may ask that a piece be divided otherwise. */
const ROUNDS = 1;

const NO_WISHES: readonly Wish[] = [];

/** All that is settled before layers become pieces. */
export type Sliced = Pick<Plan, 'name' | 'unit' | 'job' | 'facts' | 'landform' | 'stack' | 'deviation' | 'findings'>;

/**
 * The checked plan of the cheapest way to build that the job names, each laid out with the whole effort, as if it stood alone.
 * What each would have cost is told where there are several. A way that refuses loses; when all do, so does the job.
 */
export async function cheapest(job: Job, sliced: Sliced, stage: RunStage): Promise<Plan> {
  const tried: Tried[] = [];
  for (const [way, step] of job.split.entries()) {
    const each = await attempt(job, step, sliced, stage, way);
    if ('refusal' in each && job.split.length === 1) throw each.refusal;
    tried.push(each);
  }
  const made = tried.filter((each) => 'plan' in each);
  if (made.length === 0) {
    const refusals = tried.flatMap((each) => ('refusal' in each ? [each.refusal] : []));
    throw new CannotMake(
      refusals.flatMap(({ faults }) => faults),
      refusals[0].told,
    );
  }
  const best = made.reduce((a, b) => (costsLess(b.plan, a.plan) ? b : a));
  if (tried.length === 1) return besideOthers(best, job, sliced, stage);
  return { ...best.plan, job: sliced.job, findings: [...best.plan.findings, waysTold(best, tried)] };
}

async function attempt(job: Job, step: Step<'split'>, sliced: Sliced, stage: RunStage, way: number): Promise<Tried> {
  const { name } = step.plugin;
  try {
    return { name, plan: await built(job, step, sliced, stage, way) };
  } catch (error) {
    if (error instanceof CannotMake) return { name, refusal: error };
    throw error;
  }
}

/** The plan of the only way that a job names, with what it saves beside others where that is to be stated (saving.ts). */
async function besideOthers({ name, plan }: Made, job: Job, sliced: Sliced, stage: RunStage): Promise<Plan> {
  const others: Tried[] = [];
  for (const [i, step] of waysBeside(job).entries()) others.push(await attempt(job, step, sliced, stage, i + 1));
  return others.length === 0 ? plan : { ...plan, findings: [...plan.findings, savingTold(name, plan, others)] };
}

/** The plan of one way to build: split, laid out and checked, and once more as the layout wishes where that costs less. */
async function built(job: Job, split: Step<'split'>, sliced: Sliced, stage: RunStage, way: number): Promise<Plan> {
  // Checks read how it was built, whatever else the job would have taken.
  const asBuilt = { ...sliced, job: { ...sliced.job, split: { [split.plugin.name]: split.options } } };
  let plan: Plan | undefined;
  let wishes = NO_WISHES;
  for (let round = 0; ; round++) {
    const findings = [...sliced.findings];
    const blanks = await stage(split, { stack: sliced.stack, wishes }, round, findings, undefined, way);
    const layout = await stage(job.nest, blanks, round, findings, undefined, way);
    const now = inspect(tally({ ...asBuilt, blanks, layout, findings }));
    if (!plan || costsLess(now, plan)) plan = now;
    wishes = layout.wishes;
    if (round === ROUNDS || wishes.length === 0) return plan;
  }
}

const stops = ({ findings }: Plan): number => findings.filter(({ level }) => level === 'stop').length;

/** Whether a plan costs less than another: fewer findings of level stop, then less money, then fewer boards. */
function costsLess(plan: Plan, other: Plan): boolean {
  const [a, b] = [plan, other].map((each) => [stops(each), each.quantities.price ?? 0, each.quantities.boardsBought]);
  const place = a.findIndex((value, i) => value !== b[i]);
  return place >= 0 && a[place] < b[place];
}

type Made = Extract<Tried, { plan: Plan }>;

function waysTold(best: Made, tried: readonly Tried[]): Finding {
  const others = tried.filter((each) => each !== best).map((each) => loserTold(each, best.plan));
  const passes = stops(best.plan) === 0;
  return {
    level: passes ? 'note' : 'watch',
    code: 'split/best',
    message: `Of ${tried.length} ways to build, ${best.name} is taken: ${costText(best.plan)}. ${others.join(' ')}${passes ? '' : ' None passes every check.'}`,
    fix: 'Name another under split to build it so.',
    where: { path: 'split' },
  };
}

function loserTold(each: Tried, best: Plan): string {
  if ('refusal' in each) return `${each.name} cannot be: ${each.refusal.faults[0].message}`;
  const { plan } = each;
  const [more, price, boards] = [stops(plan) - stops(best), plan.quantities.price ?? 0, plan.quantities.boardsBought];
  const why =
    more > 0
      ? `does not pass the checks (${stops(plan)} of level stop)`
      : price > (best.quantities.price ?? 0)
        ? 'dearer'
        : boards > best.quantities.boardsBought
          ? 'more boards'
          : 'no cheaper';
  return `${each.name} would take ${costText(plan)}: ${why}.`;
}
