import type { Tried } from './attempt.ts';
import type { Finding } from './findings.ts';
import { makeKit } from './job/kit.ts';
import type { Job, Step } from './job.ts';
import type { Plan } from './model/plan.ts';
import { hollow } from './split/hollow.ts';
import { solid } from './split/solid.ts';
import { numberText } from './units.ts';

/** What a plan costs, in words. */
export function costText({ quantities: { boardsBought, price, foamVolumeM3, pieces } }: Plan): string {
  const money = price === null ? '' : ` for ${price.toFixed(2)}`;
  return `${boardsBought} ${boardsBought === 1 ? 'board' : 'boards'} to buy${money}, ${numberText(foamVolumeM3, 3)} m³ of foam in ${pieces} pieces`;
}

/** More effort than this is spent on no layout that is made only to be compared (our choice: whole boards are settled long before). */
const PREVIEW_EFFORT = 30_000;

/** A nest step with no more effort than a comparison is worth; the same step where it asks for less, or knows of no effort. */
export function previewOf(nest: Step<'nest'>): Step<'nest'> {
  const { effort } = nest.options;
  if (typeof effort !== 'number' || effort <= PREVIEW_EFFORT) return nest;
  return { ...nest, options: { ...nest.options, effort: PREVIEW_EFFORT } };
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

/**
 * What a way to build takes beside others of the same job, all laid out with the same effort.
 * @param preview the layout of the comparison where it has less effort than the job's own; null where it has the same.
 */
export function savingTold(name: string, plan: Plan, others: readonly Tried[], preview: Step<'nest'> | null): Finding {
  const texts = others.map((other) =>
    'refusal' in other
      ? `${other.name} cannot be: ${other.refusal.faults[0].message}`
      : `${other.name} takes ${costText(other.plan)} (${savedText(name, plan, other.plan)}).`,
  );
  const how =
    preview === null
      ? `Split in ${name} the job takes ${costText(plan)}. Laid out in the same way,`
      : `Laid out for comparison with an effort of ${preview.options.effort}, all alike, ${name} take ${costText(plan)};`;
  return {
    level: 'note',
    code: 'split/saving',
    message: `${how} ${texts.join(' ')}`,
    fix: 'Name another under split to build it so, or say best to have the cheapest taken.',
    where: { path: 'split' },
  };
}

function savedText(name: string, { quantities: own }: Plan, { quantities: other }: Plan): string {
  const saved = other.boardsBought - own.boardsBought;
  if (saved > 0) return `${name} save ${saved}, ${numberText((100 * saved) / other.boardsBought, 0)} %`;
  return saved === 0 ? `${name} save no board` : `${-saved} fewer than ${name}`;
}
