import { attempt, compared, isMade, type Made, type Sliced, stops, type Tried } from './attempt.ts';
import { CannotMake, type Finding } from './findings.ts';
import type { Job } from './job.ts';
import type { Plan } from './model/plan.ts';
import { costText, previewOf, savingTold, waysBeside } from './saving.ts';
import type { RunStage } from './steps.ts';

/** A way that costs more than this times the cheapest, laid out with little effort, is not laid out with the whole (our choice). */
const CLOSE = 1.05;

/**
 * The checked plan of the cheapest way to build that the job names. Several are first laid out with little effort, all alike;
 * then those that come close to the cheapest with the whole effort, the cheapest first, each as if it stood alone. So a limit of
 * the clock favours none for being named first: all are compared at the start, and the one that leads has what is left. What
 * each would cost is told. A way that refuses loses; when all do, so does the job.
 */
export async function cheapest(job: Job, sliced: Sliced, stage: RunStage, isCompared = false): Promise<Plan> {
  if (job.split.length === 1) return onlyWay(job, sliced, stage, isCompared);
  const nest = previewOf(job.nest);
  const tried: Tried[] = [];
  for (const [way, split] of job.split.entries()) tried.push(await attempt({ split, way, nest }, job, sliced, stage));
  const ranked = tried.filter(isMade).sort((a, b) => compared(a.plan, b.plan) || a.way - b.way);
  if (ranked.length === 0) allRefuse(tried);
  const isPreview = nest !== job.nest;
  const close = ranked.filter(({ plan }) => isClose(plan, ranked[0].plan));
  const inFull: Made[] = [];
  for (const each of isPreview ? close : []) {
    const full = await attempt({ split: job.split[each.way], way: each.way, nest: job.nest }, job, sliced, stage);
    // Cut short by the clock it may be no better than it was.
    inFull.push(isMade(full) && compared(full.plan, each.plan) <= 0 ? full : each);
  }
  const [best] = [...(isPreview ? inFull : ranked)].sort((a, b) => compared(a.plan, b.plan) || a.way - b.way);
  const others = tried
    .filter(({ way }) => way !== best.way)
    .map((each) => {
      const full = inFull.find(({ way }) => way === each.way);
      const how =
        isPreview && isMade(each) && !full ? ` It was laid out with an effort of ${nest.options.effort} only.` : '';
      return `${loserTold(full ?? each, best.plan)}${how}`;
    });
  return { ...best.plan, job: sliced.job, findings: [...best.plan.findings, waysTold(best, others)] };
}

/**
 * The plan of the only way that a job names, with what it saves beside others where that is to be stated (saving.ts). A job
 * with much effort is laid out once more with little, and so are the others: alike, and in a fraction of its time.
 */
async function onlyWay(job: Job, sliced: Sliced, stage: RunStage, isCompared: boolean): Promise<Plan> {
  const [split] = job.split;
  const own = await attempt({ split, way: 0, nest: job.nest }, job, sliced, stage);
  if (!isMade(own)) throw own.refusal;
  const beside = isCompared ? [] : waysBeside(job);
  if (beside.length === 0) return own.plan;
  const nest = previewOf(job.nest);
  const others: Tried[] = [];
  for (const [i, other] of beside.entries()) {
    others.push(await attempt({ split: other, way: i + 1, nest }, job, sliced, stage));
  }
  const isPreview = nest !== job.nest;
  const again = isPreview ? await attempt({ split, way: 0, nest }, job, sliced, stage) : own;
  const told = savingTold(own.name, isMade(again) ? again.plan : own.plan, others, isPreview ? nest : null);
  return { ...own.plan, findings: [...own.plan.findings, told] };
}

/** Whether the whole effort may make a plan cheaper than the one that leads. */
function isClose(plan: Plan, leads: Plan): boolean {
  const money = ({ quantities: { price, boardsBought } }: Plan) => price ?? boardsBought;
  return stops(plan) <= stops(leads) && money(plan) <= CLOSE * money(leads);
}

function allRefuse(tried: readonly Tried[]): never {
  const refusals = tried.flatMap((each) => (isMade(each) ? [] : [each.refusal]));
  throw new CannotMake(
    refusals.flatMap(({ faults }) => faults),
    refusals[0].told,
  );
}

function waysTold({ name, plan }: Made, others: readonly string[]): Finding {
  const passes = stops(plan) === 0;
  return {
    level: passes ? 'note' : 'watch',
    code: 'split/best',
    message: `Of ${others.length + 1} ways to build, ${name} is taken: ${costText(plan)}. ${others.join(' ')}${passes ? '' : ' None passes every check.'}`,
    fix: 'Name another under split to build it so.',
    where: { path: 'split' },
  };
}

function loserTold(each: Tried, best: Plan): string {
  if (!isMade(each)) return `${each.name} cannot be: ${each.refusal.faults[0].message}`;
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
