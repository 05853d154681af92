import type { Block } from '../../drawing/flow/block.ts';
import type { Plan } from '../../model/plan.ts';
import { fineText, lengthText, numberText, thicknessText } from '../../units.ts';
import { densityText } from '../../workshop/density-text.ts';
import { mostVolts } from '../../workshop/wire/limits.ts';
import {
  judgeSupply,
  lowestSupply,
  needsTooMuch,
  reckonWire,
  tension,
  type WireReckoning,
  type WireTask,
} from '../../workshop/wire/reckoning.ts';
import { TABLE_RANGE } from '../../workshop/wire/tables.ts';
import { waysOutOf } from '../../workshop/wire/ways-out.ts';
import { caution, given, heading, plainValue, rulesUsed, ticks, type WorkSheet, words } from './sheet.ts';
import { foamRefused, taskOf, wireFindings } from './wire/told.ts';

/** The wire: what it needs in air and in foam, what may feed it, how it is strung. No wiring. */
export const WIRE: WorkSheet = {
  name: 'wire-sheet',
  title: 'Hot wire',
  summary: 'ohms, amps, volts and watts of the wire in air and in foam, its supply, its pull',
  blocks: (plan) => {
    if (plan.facts.tool.kind !== 'hot wire') {
      return [words(`The job cuts with a ${plan.facts.tool.kind}: there is no wire to set up.`)];
    }
    const foam = foamRefused(plan);
    if (foam) return [caution(`Refused. ${foam.message} ${foam.fix}`), ...LIMITS(plan)];
    const task = taskOf(plan);
    const reckoned = reckonWire(task);
    if (!reckoned) {
      const top = task.alloy.factors[task.alloy.factors.length - 1][0];
      return [
        caution(`Not worked out: the figures for this wire end at ${top} °C, below the ${task.celsius} °C wanted.`),
        ...LIMITS(plan),
      ];
    }
    const { isDamp } = plan.facts.work.wire;
    return [
      ...(needsTooMuch(reckoned, isDamp.value) ? refused(task, reckoned, plan) : ampsAndVolts(task, reckoned, plan)),
      ...LIMITS(plan),
      heading('Counted with'),
      rulesUsed(plan, ['wireCelsius', 'secondsAMetre', 'meltRiseK', 'wirePullN', 'springLossShare', 'noLoadShare']),
    ];
  },
  findings: wireFindings,
};

function ampsAndVolts(task: WireTask, reckoned: WireReckoning, plan: Plan): Block[] {
  const { unit, facts } = plan;
  const { wire, rules } = facts.work;
  const { inAir, cutting } = reckoned;
  const row = (name: string, { amps, volts, watts, wattsAMetre }: WireReckoning['inAir']) => [
    name,
    numberText(amps, 2),
    numberText(volts, 1),
    numberText(wattsAMetre, 0),
    numberText(watts, 0),
  ];
  const pull = tension(task, rules.wirePullN.value, rules.springLossShare.value);
  const table = reckoned.tableAmps;
  return [
    { kind: 'values', rows: wireValues(task, reckoned, plan) },
    heading('Amps and volts'),
    {
      kind: 'table',
      head: ['', 'Amps', 'Volts at the wire', 'Watts a metre', 'Watts in all'],
      rows: [
        row(`in still air, at ${numberText(task.celsius)} °C`, inAir),
        row(
          `while cutting ${fineText(task.feedMmS, unit)} a second, at ${numberText(task.celsius)} °C in the foam`,
          cutting,
        ),
      ],
      right: [1, 2, 3, 4],
      note: `Cutting through ${thicknessText(task.inFoamMm, unit)} of foam of ${densityText(task.densityKgM3, unit)}. Estimates, good to about 15 %: begin with the lower volts and trim on scrap of the same board, at full width.`,
    },
    words(
      table === null
        ? `The published table (Pelican Wire: ${TABLE_RANGE}) does not reach this wire: only the model speaks, and nothing was read into the table.`
        : `The published table (Pelican Wire) gives ${numberText(table, 2)} A in air for ${numberText(task.celsius)} °C; the model ${numberText(inAir.amps, 2)} A (Churchill and Chu, and radiation).`,
    ),
    ...idle(reckoned),
    heading('Strung'),
    {
      kind: 'values',
      rows: [
        plainValue('Sag in the middle', fineText(pull.sagMm, unit)),
        plainValue('Grows when hot: travel of the spring at least', thicknessText(pull.growthMm, unit)),
        plainValue('Spring no stiffer than', `${numberText(pull.stiffestNMm, 2)} N/mm`),
        plainValue(
          'Stress',
          `${numberText(pull.stressMPa, 0)} MPa, ${numberText(100 * pull.shareOfBreak, 0)} % of what breaks it cold`,
        ),
      ],
    },
    words(
      'Tighten when hot, slacken before switching off. Right heat leaves faint hairs on the cut; craters are too hot; if it wants force it is too cold.',
    ),
    heading('Supply'),
    ...supplyBlocks(reckoned, plan, wire.isDamp.value),
  ];
}

const wireValues = (
  { diameterMm, lengthMm, alloy }: WireTask,
  { coldOhms, hotOhms }: WireReckoning,
  { facts, unit }: Plan,
) => [
  { ...given('Wire', facts.work.wire.alloy), source: alloy.source },
  given('Diameter', facts.work.wire.diameterMm, fineText(diameterMm, unit)),
  given(
    'Length between its holders',
    { value: lengthMm, isAssumed: facts.tool.wireMm === null },
    lengthText(lengthMm, unit),
  ),
  plainValue('Ohms cold, and at its heat', `${numberText(coldOhms, 2)} ohm, ${numberText(hotOhms, 2)} ohm`),
  given('Damp place', facts.work.wire.isDamp, facts.work.wire.isDamp.value ? 'yes' : 'no'),
];

/** Past this, vapours of polystyrene can light (AIPE: 450 to 500 °C). */
const LIGHTS_CELSIUS = 450;

function idle({ idleCelsius }: WireReckoning): Block[] {
  const what = idleCelsius === null ? 'hotter than its table goes' : `about ${numberText(idleCelsius, 0)} °C`;
  return idleCelsius !== null && idleCelsius <= LIGHTS_CELSIUS
    ? [words(`At the cutting current the wire outside the foam is ${what}.`)]
    : [
        caution(
          `At the cutting current the wire outside the foam is ${what}: above ${LIGHTS_CELSIUS} °C vapour can light. Switch on only to cut, turn down between cuts, or cut slower.`,
        ),
      ];
}

function supplyBlocks(reckoned: WireReckoning, { facts }: Plan, isDamp: boolean): Block[] {
  const { supply } = facts.work.wire;
  const lowest = lowestSupply(reckoned, isDamp);
  const needs = lowest
    ? `The lowest common supply that does it: ${lowest.volts} V ${lowest.current}, ${numberText(lowest.amps, 1)} A or more, isolated (double-wound), fused, adjustable.`
    : 'No common supply that may be touched does it.';
  if (!supply)
    return [words(`${needs} The job names no supply: read its label, ____ V, ____ A, AC / DC, ____ V without load.`)];
  const verdicts = judgeSupply(supply, reckoned, isDamp, facts.work.rules);
  return [
    { kind: 'table', head: ['The supply', ''], rows: verdicts.map(({ what, holds }) => [what, holds ? 'yes' : 'NO']) },
    words(needs),
  ];
}

function refused(task: WireTask, { cutting }: WireReckoning, plan: Plan): Block[] {
  const { isDamp } = plan.facts.work.wire;
  const most = mostVolts('DC', isDamp.value);
  return [
    caution(
      `Refused: this wire wants ${numberText(cutting.volts, 0)} V while cutting. A bare wire that can be touched gets at most ${most} V DC${isDamp.value ? ' in the damp' : ''}. No amps or volts are given.`,
    ),
    heading('Ways out'),
    ticks(waysOutOf(task, most, plan.unit)),
  ];
}

const LIMITS = ({ facts }: Plan): Block[] => [
  heading('Never and always'),
  {
    kind: 'list',
    items: [
      `A hot wire is a bare live wire that can be touched: at most ${mostVolts('AC', false)} V AC or ${mostVolts('DC', false)} V DC, and ${mostVolts('AC', true)} V AC or ${mostVolts('DC', true)} V DC outdoors, on a wet floor or on metal staging, without load too (IEC 61140, and IEC 60364-4-41 from memory).`,
      'Never from the mains, with a dimmer or without: a dimmer does not isolate.',
      'An isolated supply made for the job, a fuse, a switch within reach of whoever holds the bow.',
      'No wiring is shown here: leave it, and batteries, to a qualified electrician.',
      'Polystyrene only (EPS, XPS). Draw the fumes away at the wire, to outside. Never leave it on.',
      ...(facts.work.wire.isDamp.value ? [] : ['If it gets damp, stop: these amps and volts are for a dry place.']),
    ],
  },
];
