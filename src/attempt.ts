import { inspect } from './checks/inspect.ts';
import { CannotMake, type Finding } from './findings.ts';
import type { Job, Step } from './job.ts';
import type { Wish } from './model/piece.ts';
import type { Plan } from './model/plan.ts';
import type { RunStage } from './steps.ts';
import { tally } from './workshop/quantities.ts';

/** How often at most the layout may ask that a piece be divided otherwise. */
const ROUNDS = 1;

const NO_WISHES: readonly Wish[] = [];

/** All that is settled before layers become pieces. */
export type Sliced = Pick<Plan, 'name' | 'unit' | 'job' | 'facts' | 'landform' | 'stack' | 'deviation' | 'findings'>;

/** A way to build that was tried, by its place in the job: its plan, or why there is none. */
export type Tried = { readonly name: string; readonly way: number } & (
  | { readonly plan: Plan }
  | { readonly refusal: CannotMake }
);

export type Made = Extract<Tried, { plan: Plan }>;

export const isMade = (each: Tried): each is Made => 'plan' in each;

/** What is tried: a way to split, by its number, and how it is laid out. */
export interface Way {
  readonly split: Step<'split'>;
  readonly way: number;
  readonly nest: Step<'nest'>;
}

/** Build in one way, as if it stood alone; what it refuses is told and thrown no further. */
export async function attempt(asked: Way, job: Job, sliced: Sliced, stage: RunStage): Promise<Tried> {
  const { split, way } = asked;
  const { name } = split.plugin;
  try {
    return { name, way, plan: await built(asked, job, sliced, stage) };
  } catch (error) {
    if (error instanceof CannotMake) return { name, way, refusal: error };
    throw error;
  }
}

/** The plan of one way to build: split, laid out and checked, and once more as the layout wishes where that costs less. */
async function built({ split, way, nest }: Way, job: Job, sliced: Sliced, stage: RunStage): Promise<Plan> {
  // Checks read how it was built, whatever else the job would have taken.
  const asBuilt = { ...sliced, job: { ...sliced.job, split: { [split.plugin.name]: split.options } } };
  // What a layout for comparison made is remembered beside the job's own.
  const nestWay = nest === job.nest ? way : -1 - way;
  let plan: Plan | undefined;
  let wishes = NO_WISHES;
  for (let round = 0; ; round++) {
    const findings = [...sliced.findings];
    const blanks = await stage(split, { stack: sliced.stack, wishes }, round, findings, undefined, way);
    const layout = await stage(nest, blanks, round, findings, undefined, nestWay);
    const now = inspect(tally({ ...asBuilt, blanks, layout, findings }));
    if (!plan) plan = now;
    else if (compared(now, plan) < 0) plan = { ...now, findings: [...now.findings, divided(wishes, plan, now)] };
    wishes = layout.wishes;
    if (round === ROUNDS || wishes.length === 0) return plan;
  }
}

export const stops = ({ findings }: Plan): number => findings.filter(({ level }) => level === 'stop').length;

/** Below 0 when a plan costs less than another: fewer findings of level stop, then less money, then fewer boards. */
export function compared(plan: Plan, other: Plan): number {
  const [a, b] = [plan, other].map((each) => [stops(each), each.quantities.price ?? 0, each.quantities.boardsBought]);
  const place = a.findIndex((value, i) => value !== b[i]);
  return place < 0 ? 0 : a[place] - b[place];
}

/** What was divided otherwise since that costs less. Pieces have the names that they had before. */
function divided(wishes: readonly Wish[], before: Plan, { quantities }: Plan): Finding {
  const names = wishes.map(({ piece }) => piece);
  const [was, is] = [before.quantities, quantities].map(({ boardsBought }) => boardsBought);
  const layer = before.pieces.find(({ name }) => name === names[0])?.layer;
  return {
    level: 'note',
    code: 'nest/divided-otherwise',
    message: `A board was bought for hardly more than ${names.join(', ')}; divided otherwise it takes ${is} boards to buy, before ${was}.`,
    fix: 'Nothing need be done. Pieces of that layer may have other names than in an earlier plan.',
    where: layer === undefined ? {} : { layer },
  };
}
