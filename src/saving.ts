import type { CannotMake, Finding } from './findings.ts';
import { makeKit } from './job/kit.ts';
import type { Job, Step } from './job.ts';
import type { Plan } from './model/plan.ts';
import { hollow } from './split/hollow.ts';
import { solid } from './split/solid.ts';
import { numberText } from './units.ts';

/** A way to build that was tried: its plan, or why there is none. */
export type Tried = { readonly name: string } & ({ readonly plan: Plan } | { readonly refusal: CannotMake });

/** What a plan costs, in words. */
export function costText({ quantities: { boardsBought, price, foamVolumeM3, pieces } }: Plan): string {
  const money = price === null ? '' : ` for ${price.toFixed(2)}`;
  return `${boardsBought} ${boardsBought === 1 ? 'board' : 'boards'} to buy${money}, ${numberText(foamVolumeM3, 3)} m³ of foam in ${pieces} pieces`;
}

/**
 * The ways to build that the saving of a job's own way is stated against, each laid out as if it stood alone: rings against
 * hollow and solid layers of the same lap and stagger. None for other ways, and none where the job compares ways itself.
 */
export function waysBeside({ split }: Pick<Job, 'split'>): Step<'split'>[] {
  const [{ plugin, options }] = split;
  if (split.length > 1 || plugin.name !== 'rings') return [];
  const { lap, seams } = options;
  const kit = makeKit('mm');
  const step = (beside: typeof hollow | typeof solid, written: object): Step<'split'> => ({
    stage: 'split',
    plugin: beside,
    options: beside.options(kit).parse(written),
    path: 'split',
  });
  return [step(hollow, { lap, seams }), step(solid, { seams })];
}

/** What a way to build takes beside others that were laid out for the same job. */
export function savingTold(name: string, plan: Plan, others: readonly Tried[]): Finding {
  const texts = others.map((other) =>
    'refusal' in other
      ? `${other.name} cannot be: ${other.refusal.faults[0].message}`
      : `${other.name} takes ${costText(other.plan)} (${savedText(name, plan, other.plan)}).`,
  );
  return {
    level: 'note',
    code: 'split/saving',
    message: `Split in ${name} the job takes ${costText(plan)}. Laid out in the same way, ${texts.join(' ')}`,
    fix: 'Name another under split to build it so, or say best to have the cheapest taken.',
    where: { path: 'split' },
  };
}

function savedText(name: string, { quantities: own }: Plan, { quantities: other }: Plan): string {
  const saved = other.boardsBought - own.boardsBought;
  if (saved > 0) return `${name} save ${saved}, ${numberText((100 * saved) / other.boardsBought, 0)} %`;
  return saved === 0 ? `${name} save no board` : `${-saved} fewer than ${name}`;
}
