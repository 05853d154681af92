import { refuse, type Where } from '../../findings.ts';
import { type Columns, columnsOf, isHeader, type Wanted } from './columns.ts';
import { eachRecord, formOf, numberIn, textOf } from './records.ts';

/** More spots than this are refused: the work grows with their number, and boards cannot show them. */
const MOST_SPOTS = 200_000;

/** Spots as the file has them, in its own unit and from its own origin. */
export interface Points {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly z: Float64Array;
  /** The line of the file on which each stands. */
  readonly line: Uint32Array;
  readonly columns: Columns;
  /** Whether the columns were taken by their order, with others beside them. */
  readonly isGuess: boolean;
}

/** Read the spots of a file: text, one on a line. Refuses with the line whatever is no spot. O(bytes). */
export function readPoints(bytes: Uint8Array, wanted: Wanted, file: string): Points {
  const text = textOf(bytes, file);
  const form = formOf(text);
  const numbers: number[] = [];
  const lines: number[] = [];
  const ahead: { fields: readonly string[]; line: number }[] = [];
  const found: { columns: Columns; isGuess: boolean }[] = [];
  eachRecord(text, form, file, (record) => {
    if (found.length > 0) return takeSpot(record.fields, record.line, found[0].columns);
    ahead.push(record);
    // A header, and two lines of numbers to see whether the first column counts.
    if (ahead.length === 3) begin();
  });
  if (found.length === 0 && ahead.length > 0) begin();
  const count = lines.length;
  if (count === 0) noSpots(file);
  const pick = (axis: number) => Float64Array.from({ length: count }, (_, i) => numbers[3 * i + axis]);
  return { x: pick(0), y: pick(1), z: pick(2), line: Uint32Array.from(lines), ...found[0] };

  function begin(): void {
    const [first, second] = ahead;
    found.push(columnsOf(first.fields, second?.fields ?? [], form, wanted, { file, line: first.line }));
    const from = isHeader(first.fields, form) ? 1 : 0;
    for (const { fields, line } of ahead.slice(from)) takeSpot(fields, line, found[0].columns);
  }

  function takeSpot(fields: readonly string[], line: number, columns: Columns): void {
    if (lines.length === MOST_SPOTS) tooMany({ file, line });
    for (const axis of ['x', 'y', 'z'] as const) {
      const field = fields[columns[axis]];
      if (field === undefined) short(fields.length, columns[axis] + 1, { file, line });
      const value = numberIn(field, form);
      if (!Number.isFinite(value)) notNumber(field, axis, { file, line });
      numbers.push(value);
    }
    lines.push(line);
  }
}

const noSpots = (file: string): never =>
  refuse('source/no-spots', 'The file holds no spot.', 'Give x, y and height of each spot, one on a line.', { file });

const notNumber = (field: string, axis: 'x' | 'y' | 'z', where: Where): never =>
  refuse(
    'source/not-a-number',
    `${field === '' ? 'Nothing' : `"${field.slice(0, 24)}"`} stands where ${axis === 'z' ? 'the height' : axis} should.`,
    'Mend it, or take the line out.',
    where,
  );

const short = (found: number, wanted: number, where: Where): never =>
  refuse(
    'source/too-few-columns',
    `This line has ${found} ${found === 1 ? 'field' : 'fields'}; the spot's numbers reach to the ${wanted}th.`.replace(
      '3th',
      '3rd',
    ),
    'Give x, y and height on each line.',
    where,
  );

const tooMany = (where: Where): never =>
  refuse(
    'source/too-many-spots',
    `There are more than ${MOST_SPOTS} spots.`,
    'Thin them out, or grid them elsewhere and read them with height-grid.',
    where,
  );
