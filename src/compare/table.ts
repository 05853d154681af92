import type { Comparison, Row } from '../compare.ts';
import type { Block } from '../drawing/flow/block.ts';
import { dayText } from '../model/day.ts';
import { lengthText, numberText, type Unit } from '../units.ts';
import { type Figures, hoursAltogether } from '../workshop/comparing.ts';
import { type Hours, middle } from '../workshop/hours.ts';

const UNKNOWN = 'not worked out';
const MOST_WORDS = 90;

/** The comparison as a table: a line for each figure, a column for each way, with differences from the job as it stands. */
export function tableOf({ rows, unit, rate }: Pick<Comparison, 'rows' | 'unit' | 'rate'>): {
  readonly head: readonly string[];
  readonly lines: readonly (readonly string[])[];
} {
  const now = rows.find(({ isNow }) => isNow);
  const lines = LINES.map(({ label, text, value, isMoney }) => [
    label,
    ...rows.map((row) => {
      const own = text(row.figures, unit);
      if (!value || !now || row === now) return own;
      const [a, b] = [value(row.figures), value(now.figures)];
      if (a === null || b === null) return own;
      const difference = isMoney ? (a - b).toFixed(2) : numberText(a - b, 1);
      return Number(difference) === 0 ? own : `${own} (${a > b ? '+' : '−'}${difference.replace(/^[-−]/, '')})`;
    }),
  ]);
  const altogether =
    rate === null ? [] : [[`money + hours × ${rate}`, ...rows.map(({ figures }) => altogetherText(figures, rate))]];
  return { head: ['', ...rows.map(titleOf)], lines: [...lines, ...altogether] };
}

const titleOf = ({ name, isNow }: Row): string => (isNow ? `now: ${name}` : name);

const altogetherText = (figures: Figures, rate: number): string =>
  figures.money === null ? UNKNOWN : (figures.money + rate * hoursAltogether(figures)).toFixed(2);

interface Line {
  readonly label: string;
  readonly isMoney?: boolean;
  text(figures: Figures, unit: Unit): string;
  value?(figures: Figures): number | null;
}

const hoursText = ({ least, most }: Hours): string =>
  most === 0 ? 'none' : `${numberText(least, least < 10 ? 1 : 0)} to ${numberText(most, most < 10 ? 1 : 0)} h`;

const LINES: readonly Line[] = [
  { label: 'what stops it', text: ({ stops }) => (stops.length === 0 ? 'nothing' : some(stops)) },
  {
    label: 'ready by, float',
    text: ({ readyDay, floatDays }) =>
      floatDays === null
        ? UNKNOWN
        : `${readyDay === null ? '' : `${dayText(readyDay)}, `}${numberText(floatDays, 1)} days${floatDays < 0 ? ': too late' : ''}`,
    value: ({ floatDays }) => floatDays,
  },
  {
    label: 'money to spend',
    isMoney: true,
    text: ({ money, unpriced }) =>
      money === null ? UNKNOWN : `${money.toFixed(2)}${unpriced > 0 ? ` and ${unpriced} without a price` : ''}`,
    value: ({ money }) => money,
  },
  { label: 'hours: cut', text: ({ hours }) => hoursText(hours.cut), value: ({ hours }) => middle(hours.cut) },
  { label: 'hours: carve', text: ({ hours }) => hoursText(hours.carve), value: ({ hours }) => middle(hours.carve) },
  { label: 'hours: place', text: ({ hours }) => hoursText(hours.place), value: ({ hours }) => middle(hours.place) },
  { label: 'hours: cover', text: ({ hours }) => hoursText(hours.cover), value: ({ hours }) => middle(hours.cover) },
  { label: 'wire, m', text: ({ wireM }) => numberText(wireM, 0), value: ({ wireM }) => wireM },
  {
    label: 'boards, fewest possible',
    text: ({ boards, fewest }) => (boards === 0 ? 'none bought' : `${boards}, not under ${fewest}`),
    value: ({ boards }) => boards,
  },
  { label: 'van trips', text: ({ trips }) => String(trips), value: ({ trips }) => trips },
  {
    label: 'kg wet',
    text: ({ kgWet }) => orUnknown(kgWet, (kg) => numberText(kg, kg < 10 ? 1 : 0)),
    value: ({ kgWet }) => kgWet,
  },
  { label: 'deepest carve', text: ({ deepestMm }, unit) => orUnknown(deepestMm, (mm) => lengthText(mm, unit)) },
  { label: 'least lap', text: ({ leastLapMm }, unit) => orUnknown(leastLapMm, (mm) => lengthText(mm, unit)) },
  { label: 'waste, m³', text: ({ wasteM3 }) => numberText(wasteM3, 2), value: ({ wasteM3 }) => wasteM3 },
  {
    label: 'what goes wrong',
    text: ({ watches }) =>
      watches.length === 0 ? 'nothing is to be watched' : `${watches.length} to watch: ${short(watches[0])}`,
  },
];

const orUnknown = (value: number | null, text: (value: number) => string): string =>
  value === null ? UNKNOWN : text(value);

const some = (messages: readonly string[]): string =>
  `${short(messages[0])}${messages.length > 1 ? ` and ${messages.length - 1} more` : ''}`;

const short = (message: string): string =>
  message.length <= MOST_WORDS ? message : `${message.slice(0, MOST_WORDS).replace(/\s+\S*$/, '')} …`;

/** The comparison as blocks of a sheet. */
export function blocksOf(comparison: Comparison): Block[] {
  const { head, lines } = tableOf(comparison);
  const { dropped, told, flips } = comparison;
  return [
    { kind: 'heading', level: 1, text: `${comparison.name}: ways to build it` },
    { kind: 'table', head, rows: lines },
    ...told.map((text) => ({ kind: 'text' as const, text })),
    ...(flips.length > 0
      ? [
          { kind: 'heading' as const, level: 2 as const, text: 'What would turn it' },
          { kind: 'list' as const, items: flips },
        ]
      : []),
    ...(dropped.length > 0
      ? [
          { kind: 'heading' as const, level: 2 as const, text: 'Left out' },
          { kind: 'list' as const, items: dropped.map(({ name, why }) => `${name}: ${why}`) },
        ]
      : []),
    { kind: 'caution', text: CAUTION },
  ];
}

export const CAUTION =
  'Laid out with little effort, all alike: the chosen one gets fewer boards when it is made. Times are ranges from the figures of the trade; time a metre and a piece of your own. This proves nothing of loads, fire or equipment: ask the venue, the fire authority and a competent person.';
