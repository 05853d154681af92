import type { Block } from '../../drawing/flow/block.ts';
import type { Plan } from '../../model/plan.ts';
import { fineText, lengthText, numberText } from '../../units.ts';
import { type BoardCut, cuttingOf, skillTimes } from '../../workshop/cutting.ts';
import { wayText } from '../report/amounts.ts';
import { caution, given, heading, hoursText, plainValue, rulesUsed, type WorkSheet, words } from './sheet.ts';

/** Boards and pieces in the order of cutting, with metres, minutes and hands. */
export const CUTTING: WorkSheet = {
  name: 'cutting-plan',
  title: 'Cutting plan',
  summary: 'boards and pieces in the order of cutting, with metres, minutes and hands',
  blocks: (plan) => {
    const { unit, facts } = plan;
    const { rules, crew } = facts.work;
    const cutting = cuttingOf(plan);
    const isWire = facts.tool.kind === 'hot wire';
    const spread = (minutes: number) =>
      `${hoursText((minutes / 60) * (1 - rules.timeSpread.value))} to ${hoursText((minutes / 60) * (1 + rules.timeSpread.value))}`;
    return [
      ...(isWire
        ? [
            caution(
              'Nobody reaches under a cut; eyes protected; fumes drawn off at the wire; two on shift, never alone and tired. EPS and XPS only.',
            ),
          ]
        : [caution('Cut away from hands and body; clamp the board; eyes and breath protected from dust.')]),
      {
        kind: 'values',
        rows: [
          plainValue(
            `To cut with the ${facts.tool.kind}`,
            `${wayText(cutting.wireMm / 1000, unit)}, of it ${wayText(cutting.bendMm / 1000, unit)} in tight bends`,
          ),
          plainValue('One bow or saw after the other', spread(cutting.minutes)),
          plainValue('Hours of people (what two hold counts twice)', spread(cutting.personMinutes)),
          given('Bows or saws at once', crew.cutters),
          given('Practice', crew.skill, `${crew.skill.value}: times × ${numberText(skillTimes(facts.work))}`),
        ],
      },
      heading('Before the first board'),
      ...testStrip(plan),
      heading('Boards in turn'),
      {
        kind: 'table',
        head: ['Board', 'Stock', 'Break down', 'Pieces, in order', 'Insides', 'Metres', 'Run-in', 'Minutes', 'Hands'],
        rows: cutting.boards.map((cut) => boardRow(cut, plan)),
        right: [0, 2, 4, 5, 6, 7, 8],
        ticks: true,
        note: 'Break-down cuts are straight, right across, and come first. Inner outlines are cut while the board is stiff, then the largest pieces. Number each piece before the wire goes on to the next; keep the off-fall as a cradle.',
      },
      heading('Counted with'),
      rulesUsed(plan, [
        'secondsAMetre',
        'bendSecondsAMetre',
        'bendRadiusMm',
        ...(plan.boards.every(({ runIns }) => runIns) ? [] : (['runInMm'] as const)),
        'minutesABoard',
        'minutesAPiece',
        'minutesAnInside',
        'breakMinutesAnHour',
        'twoPersonMm',
        'timeSpread',
      ]),
    ];
  },
};

function testStrip({ facts, unit }: Plan): Block[] {
  const { kerfMm, kind } = facts.tool;
  const kerf = fineText(kerfMm, unit);
  return [
    {
      kind: 'list',
      numbered: true,
      items: [
        `Kerf strip: cut a square of ${lengthText(100, unit)} out of scrap of the same board, straight through at working heat and speed. Measure hole and square: kerf = (hole − square) ÷ 2 = ______. The plan reckons with ${kerf}; say tool.kerf, and keep strip and figure with the ${kind}.`,
        `Timed metre: cut a metre straight, ______ s; a metre of tight bends, ______ s. Say rules.secondsAMetre and rules.bendSecondsAMetre, and keep them with the wire's setting.`,
        'Measure the thickness of five boards of the pack: ____ ____ ____ ____ ____. Say "measured" in the stock where they differ.',
      ],
    },
    words(
      `The outlines are finished edges: the ${kind} runs half a kerf, ${fineText(kerfMm / 2, unit)}, outside them.`,
    ),
  ];
}

function boardRow(
  { board, pieces, breakDowns, wireMm, runInMm, insides, minutes, isForTwo }: BoardCut,
  { unit }: Plan,
): string[] {
  const inM = (mm: number) => wayText(mm / 1000, unit);
  return [
    `${board.number}`,
    board.stock,
    breakDowns === 0 ? '' : `${breakDowns}`,
    pieces.map(({ name }) => name).join(' '),
    insides === 0 ? '' : `${insides}`,
    inM(wireMm),
    inM(runInMm),
    numberText(minutes, 0),
    isForTwo ? '2' : '1',
  ];
}
