import type { Finding } from '../../findings.ts';
import type { Plan } from '../../model/plan.ts';
import { numberText } from '../../units.ts';
import { builtLoad, floorLoad, YARDSTICKS } from '../../workshop/floor-load.ts';
import { massText } from '../report/amounts.ts';
import { caution, heading, plainValue, rulesUsed, type WorkSheet, words } from './sheet.ts';

/** What presses on the floor, beside what the venue wrote. No approval. */
export const FLOOR: WorkSheet = {
  name: 'floor-sheet',
  title: 'Floor',
  summary: 'what presses on the floor finished, wet and while it is delivered, beside the figure of the venue',
  blocks: (plan) => {
    const load = floorLoad(plan);
    const { floor } = plan.facts.work;
    const kN = (value: number | null) => (value === null ? 'not worked out: say cover.density' : numberText(value, 2));
    const against = (value: number | null) =>
      floor === null || value === null ? '_______' : value > floor.kNM2 ? 'MORE than the figure' : 'less';
    return [
      caution(
        'This is no approval. Whoever answers for the floor decides, in writing; a competent person where people, stairs, balconies or old floors are near.',
      ),
      {
        kind: 'values',
        rows: [
          plainValue(
            "The venue's figure, kN/m²",
            floor === null
              ? '_______ (ask for it in writing)'
              : `${numberText(floor.kNM2, 2)}${floor.from === null ? ', from whom: _______' : `, ${floor.from}`}`,
          ),
        ],
      },
      {
        kind: 'table',
        head: ['What presses', 'kN/m²', "The venue's figure"],
        rows: [
          ['finished, over all of the plan', kN(load.finished), against(load.finished)],
          ['finished, where it is highest', kN(load.highest), against(load.highest)],
          ['wet, over all of the plan', kN(load.wet), against(load.wet)],
          ['wet, where it is highest', kN(load.highestWet), against(load.highestWet)],
          ...(load.heap === null
            ? []
            : [['all the cover tipped in one heap, under its middle', kN(load.heap), against(load.heap)]]),
          ['a pallet of bags as delivered', kN(load.pallet), against(load.pallet)],
        ],
        right: [1],
      },
      words(
        `A pallet of ${massText(plan.facts.work.rules.palletKg.value, plan.unit)} presses more than the ground ever will: have bags set down where vehicles stand, and bring them in a few at a time. Water is 9.81 kN/m² for each metre of depth.`,
      ),
      words(
        'Not counted: people, decks by others, points (a castor, a leg, a heel), things that move. A crowd counts as 4 to 5 kN/m² and more.',
      ),
      heading('Yardsticks: what codes ask of floors'),
      {
        kind: 'table',
        head: ['Floor', 'kN/m²', 'Source'],
        rows: YARDSTICKS.map(({ place, kNM2, source }) => [place, kNM2, source]),
        right: [1],
        note: 'Your floor may take less: age, rot, spans and other loads count. National annexes choose within the ranges.',
      },
      heading('Counted with'),
      rulesUsed(plan, ['palletKg', 'palletM2']),
    ];
  },
  findings: (plan) => overFloor(plan),
};

function overFloor(plan: Plan): Finding[] {
  const { floor } = plan.facts.work;
  if (floor === null) return [];
  const load = floorLoad(plan);
  const { pallet } = load;
  const built = builtLoad(load);
  const where = { path: 'floor.load' };
  const tell = (level: Finding['level'], what: string, kNM2: number, fix: string): Finding => ({
    level,
    code: 'document/floor-over',
    message: `${what} presses with ${numberText(kNM2, 2)} kN/m²; the venue's figure is ${numberText(floor.kNM2, 2)}.`,
    fix,
    where,
  });
  if (built > floor.kNM2)
    return [
      tell('stop', 'The ground, wet,', built, 'Lighten the cover or spread it; ask whoever answers for the floor.'),
    ];
  return pallet > floor.kNM2
    ? [tell('watch', 'A pallet of bags', pallet, 'Set pallets down outside and bring the bags in a few at a time.')]
    : [];
}
