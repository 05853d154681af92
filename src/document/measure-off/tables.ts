import type { Block } from '../../drawing/flow/block.ts';
import type { Measures } from '../sheets/measures.ts';
import type { Measured, NumberedMark } from './measured.ts';

/**
 * What is measured of a piece: a row for each station with every mark on it, the extra marks, and pins and slits. `120 (3)`: 120 up
 * from the base line is mark 3.
 */
export function pieceTables({ marks, pins, slits }: Measured, spacingMm: number, measures: Measures): Block[] {
  const { unit } = measures;
  const all = marks.flat();
  const isOnStation = ({ x }: NumberedMark) =>
    Math.abs(x - Math.round(x / spacingMm) * spacingMm) < measures.stepMm / 2;
  const joining = marks
    .map((ring, i) => {
      const [first, last] = [ring[0].number, ring[ring.length - 1].number];
      return `${i === 0 ? 'Join' : 'opening:'} ${first} to ${last} and back to ${first}`;
    })
    .join('; ');
  const up = `up from the base line (${unit}), with the mark's number`;
  const blocks: Block[] = [
    {
      kind: 'table',
      head: [`station (${unit})`, up],
      right: [0],
      rows: byStation(all.filter(isOnStation), measures),
      note: `${joining}.`,
    },
  ];
  const extra = all.filter((mark) => !isOnStation(mark));
  if (extra.length > 0) blocks.push(inColumns([`extra (${unit})`, 'up, mark'], byStation(extra, measures)));
  const ends = [
    ...pins.map(([x, y], i) => [`pin ${i + 1}`, measures.text(x), measures.text(y)]),
    ...slits.flatMap((slit, i) => [
      [`slit ${i + 1} from`, measures.text(slit[0]), measures.text(slit[1])],
      [`slit ${i + 1} to`, measures.text(slit[slit.length - 2]), measures.text(slit[slit.length - 1])],
    ]),
  ];
  if (ends.length > 0)
    blocks.push({ kind: 'table', head: ['', `along (${unit})`, `up (${unit})`], right: [1, 2], rows: ends });
  return blocks;
}

/** Most of the columns side by side in which short rows stand, and how long a row may be for that. */
const MOST_COLUMNS = 4;
const SHORT = 14;

/** A table of two columns set side by side as often as its longest row lets it, read down and then across. */
function inColumns(head: readonly string[], rows: readonly string[][]): Block {
  const longest = rows.reduce((most, [, ups]) => Math.max(most, ups.length), 0);
  const across = longest <= SHORT ? MOST_COLUMNS : longest <= 2 * SHORT ? 2 : 1;
  const down = Math.ceil(rows.length / across);
  const beside = Array.from({ length: Math.ceil(rows.length / down) }, (_, i) => i);
  return {
    kind: 'table',
    head: beside.flatMap(() => head),
    right: beside.map((i) => 2 * i),
    rows: Array.from({ length: down }, (_, i) => beside.flatMap((k) => rows[k * down + i] ?? ['', ''])),
  };
}

/** Marks by how far along the base line they are, then by how far up. */
function byStation(marks: readonly NumberedMark[], { text }: Measures): string[][] {
  const stations = new Map<number, NumberedMark[]>();
  for (const mark of marks) stations.set(mark.x, [...(stations.get(mark.x) ?? []), mark]);
  return [...stations]
    .sort(([a], [b]) => a - b)
    .map(([x, on]) => {
      const ups = on.sort((a, b) => a.y - b.y || a.number - b.number);
      return [text(x), ups.map(({ y, number }) => `${text(y)} (${number})`).join(', ')];
    });
}
