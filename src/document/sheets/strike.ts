import type { Block } from '../../drawing/flow/block.ts';
import type { Plan } from '../../model/plan.ts';
import { lengthText } from '../../units.ts';
import { clearingOf } from '../../workshop/clearing.ts';
import { rocksFrom } from '../../workshop/left-rocks.ts';
import { massText, volumeText } from '../report/amounts.ts';
import { caution, heading, moneyText, plainValue, rulesUsed, ticks, type WorkSheet } from './sheet.ts';

/** What has to go, and where, when the ground is struck. */
export const STRIKE: WorkSheet = {
  name: 'strike-list',
  title: 'Strike',
  summary: 'what has to go when the ground is struck: foam, cover, pins, skips',
  blocks: (plan) => {
    const { unit, facts } = plan;
    const left = clearingOf(plan);
    const { skipM3 } = facts.work.rules;
    return [
      caution('No burning. Local waste rules go first: ask the carrier what may go into a skip before it is ordered.'),
      {
        kind: 'values',
        rows: [
          plainValue('Clean foam, for a recycler or the next job', volumeText(left.cleanM3, unit)),
          plainValue('Coated or glued foam, usually general waste', volumeText(left.coatedM3, unit)),
          plainValue(
            'Broken, with the air between',
            `${volumeText(left.looseM3, unit)}: ${left.skips} ${left.skips === 1 ? 'skip' : 'skips'} of ${volumeText(skipM3.value, unit)}, ${moneyText(facts.work.prices.skip === null ? null : left.skips * facts.work.prices.skip)}`,
          ),
          plainValue(
            facts.cover ? `${facts.cover.material} to be taken out` : 'Cover',
            left.coverKg === null
              ? 'weight not worked out'
              : facts.cover
                ? `${massText(left.coverKg, unit)} as laid, ${left.bags} bags; more when wet`
                : 'none',
          ),
          plainValue('Pins to be counted out', `${left.pins}`),
        ],
      },
      heading('In this order'),
      ticks([
        'Photograph it, and say which pieces are kept: offcuts.json knows only what was left of boards.',
        'Cover off first, into bags, wheeled out: floors and backs carry it, foam does not.',
        'Take down layer by layer from the top; two people for what the carry sheet says.',
        `Pull every pin and count: ____ of ${left.pins}. One left in a heap goes through a glove.`,
        'Break clean foam from coated along the glue; keep plugs and flat pieces for rocks and packing.',
        'Clean foam in bags of its own, dry. Coated foam into the skip, covered against wind.',
        'Vacuum beads before anyone washes the floor; look into drains.',
        'Hand the floor back with whoever answers for it.',
      ]),
      ...leftRocks(plan),
      heading('Counted with'),
      rulesUsed(plan, ['looseTimes', 'skipM3', 'bagKg']),
    ];
  },
};

/** Boulders that the offcuts are large enough for; nothing where they are not. */
function leftRocks({ boards, unusedOffcuts, unit }: Plan): Block[] {
  const left = boards.flatMap(({ thicknessMm, offcuts }) =>
    offcuts.map(({ name, rings }) => ({ name, thicknessMm, rings })),
  );
  const rocks = rocksFrom([...unusedOffcuts, ...left]);
  if (rocks.length === 0) return [];
  const mm = (value: number) => lengthText(value, unit, unit === 'mm' ? 0 : undefined);
  return [
    heading('Rocks from what is left'),
    {
      kind: 'list',
      items: rocks.map(
        ({ acrossMm, heightMm, thicknessMm, from }) =>
          `A boulder about ${mm(acrossMm)} across and ${mm(heightMm)} high, to look at: ${from.length} layers of ${mm(thicknessMm)}, each carved, from the ground up out of ${from.join(', ')}.`,
      ),
    },
  ];
}
