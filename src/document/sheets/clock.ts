import type { Block, Value } from '../../drawing/flow/block.ts';
import type { Finding } from '../../findings.ts';
import { dayText } from '../../model/day.ts';
import type { Plan } from '../../model/plan.ts';
import { lengthText, numberText } from '../../units.ts';
import { type Basis, basisOf, type Clock, clockOf, dryingHours, SET_UP, savingsOf } from '../../workshop/clock.ts';
import { caution, given, heading, hoursText, plainValue, rulesUsed, slotText, type WorkSheet, words } from './sheet.ts';

/** The latest start of every job, backwards from the opening; the float; what to drop. */
export const CLOCK: WorkSheet = {
  name: 'clock',
  title: 'Clock',
  summary: 'the latest start of every job, backwards from the opening, the float, and what to drop',
  blocks: (plan) => {
    const basis = basisOf(plan);
    const clock = clockOf(plan, {}, basis);
    const savings = savingsOf(plan, basis);
    return [
      { kind: 'values', rows: dates(clock, plan) },
      {
        kind: 'table',
        head: ['Job', 'Who', 'Work', 'Waits', 'Start at the latest', 'Started'],
        rows: clock.steps.map(({ what, who, workHours, waitHours, startSlot }) => [
          what,
          who,
          workHours === 0 ? '' : hoursText(workHours),
          waitHours === 0 ? '' : waitHours >= 48 ? `${numberText(waitHours / 24, 1)} days` : hoursText(waitHours),
          slotText(clock, startSlot),
          '________',
        ]),
        right: [2, 3],
        ticks: true,
        note: `Hours of the clock with everyone at it; each job after the one before. Hours may be off by ${numberText(100 * plan.facts.work.rules.timeSpread.value, 0)} % either way: the first boards tell.`,
      },
      heading('If it does not fit'),
      savings.length === 0
        ? words('Nothing here gains half a day: ask for a later opening, or for less ground.')
        : {
            kind: 'table',
            head: ['Drop or add', 'Days gained'],
            rows: savings.map(({ what, days }) => [what, numberText(days, 1)]),
            right: [1],
            note: 'Each alone. Never drop: drying, the inspection, breaks, the second pair of hands.',
          },
      ...block(plan),
      caution('Long shifts make burns and cuts: nobody works a wire alone, tired or without breaks.'),
      heading('Counted with'),
      rulesUsed(plan, [
        'daysAWeek',
        'timeSpread',
        'wireHours',
        'dryMinutesAPiece',
        'packMinutesAPiece',
        'setUpMinutesAPiece',
        'strangersTimes',
        'glueMinutesAPiece',
        'cureHours',
        'carveLitresAnHour',
        'coverM2AnHour',
        'coatDryHours',
        'doublesEveryK',
        'driveHours',
        'inspectionHours',
      ]),
    ];
  },
  findings: (plan) => {
    const { opening, today, getIn } = plan.facts.work.ready;
    // Nothing is late where nobody said when it begins or ends.
    if (opening === null || (today === null && getIn === null)) return [];
    const basis = basisOf(plan);
    return late(clockOf(plan, {}, basis), basis, plan);
  },
};

function dates({ floatDays, getInFloatDays, steps }: Clock, { facts }: Plan): Value[] {
  const { ready, crew, rules } = facts.work;
  const day = (label: string, value: number | null) =>
    plainValue(label, value === null ? '_______ (not said)' : dayText(value));
  const days = (value: number | null) => (value === null ? 'not worked out' : `${numberText(value, 1)} days`);
  const dry = dryingHours(rules.coatDryHours.value, ready.dryingCelsius.value, rules.doublesEveryK.value);
  const strangers = crew.strangers.value ? 'strangers' : 'those who built it';
  return [
    day('Opening', ready.opening),
    day('Get-in', ready.getIn),
    day('Today', ready.today),
    plainValue('Float before the order has to go out', days(floatDays)),
    ...(steps.some(({ what }) => what === SET_UP)
      ? [plainValue('Float between get-in and setting up', days(getInFloatDays))]
      : []),
    given('People', crew.people),
    given('Hours a day', crew.hoursADay),
    given('Setting up by', crew.strangers, strangers),
    given('Drying at', ready.dryingCelsius, `${ready.dryingCelsius.value} °C: ${hoursText(dry)} a coat`),
  ];
}

/** Blocks want airing before all this. */
function block({ facts, unit }: Plan): Block[] {
  const { blocks, rules } = facts.work;
  return blocks.map(({ name, ageDays, heightMm }) =>
    words(
      `If boards are wired from ${name} (${lengthText(heightMm, unit)} high): add ${Math.max(0, rules.blockRestDays.value - (ageDays ?? 0))} days of airing and a day of wiring between delivery and cutting.`,
    ),
  );
}

function late({ floatDays, getInFloatDays }: Clock, basis: Basis, plan: Plan): Finding[] {
  const least = plan.facts.work.rules.leastFloatDays.value;
  const isShort = floatDays !== null && floatDays < least;
  const isBeforeGetIn = getInFloatDays !== null && getInFloatDays < 0;
  if (!isShort && !isBeforeGetIn) return [];
  const [best] = savingsOf(plan, basis);
  const help = best
    ? `The most helps: ${best.what} (${numberText(best.days, 1)} days).`
    : 'Ask for a later opening, or for less ground.';
  const findings: Finding[] = [];
  if (isShort) {
    const message =
      floatDays < 0
        ? `The order should have gone out ${numberText(-floatDays, 1)} days ago.`
        : `There are ${numberText(floatDays, 1)} days of float.`;
    findings.push({
      level: floatDays < 0 ? 'stop' : 'watch',
      code: 'document/late',
      message,
      fix: help,
      where: { path: 'ready.date' },
    });
  }
  if (isBeforeGetIn) {
    const message = `Setting up should start ${numberText(-getInFloatDays, 1)} days before the crew is let in.`;
    findings.push({
      level: 'stop',
      code: 'document/get-in',
      message,
      fix: `Ask for an earlier get-in. ${help}`,
      where: { path: 'ready.getIn' },
    });
  }
  return findings;
}
