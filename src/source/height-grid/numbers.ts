import { refuse, type Where } from '../../findings.ts';
import { MOST_POSTS } from '../../model/landform.ts';
import { type GridHeader, textStart } from './header.ts';
import { tooMany } from './header-faults.ts';
import { isBlank, isComma, isLineEnd, nextLine, numberOf, wordEnd, wordText } from './scan.ts';

/** Bytes read between two words of progress. */
const BREATH_BYTES = 1 << 20;
const FIRST_ROOM = 4096;

export interface Numbers {
  /** Row by row from the north, as the file has them. */
  readonly values: Float64Array;
  readonly columns: number;
  readonly rows: number;
}

/**
 * Read the numbers of a grid. Rows are lines, all as long as the first (or as ncols). With a header whose first line of numbers
 * is not one row, line ends mean nothing and only the total counts: the format allows it. But as many lines as rows are rows. Numbers stand apart by
 * blanks, commas or semicolons, by one of them throughout, so that a decimal comma cannot pass for two numbers. Yields progress.
 */
export function* readNumbers(bytes: Uint8Array, header: GridHeader | null, file: string): Generator<number, Numbers> {
  let values = new Float64Array(header ? header.columns * header.rows : FIRST_ROOM);
  let columns = header?.columns ?? 0;
  let isFree = false;
  let first = { found: 0, line: 0 };
  let apart = 0;
  let count = 0;
  let rows = 0;
  let line = header?.line ?? 1;
  let breath = 0;
  for (let at = header?.start ?? textStart(bytes), lineStart = at; at < bytes.length; line++, at = lineStart) {
    const before = count;
    let mark = 0;
    for (; at < bytes.length && !isLineEnd(bytes[at]); ) {
      const byte = bytes[at];
      if (isBlank(byte)) at++;
      else if (isComma(byte)) {
        if (mark !== 0 || count === before) emptyPlace(place(at));
        mark = byte;
        at++;
      } else {
        if (count > before) {
          apart ||= mark || 1;
          if (apart !== (mark || 1)) mixed(place(at));
        }
        const end = wordEnd(bytes, at);
        const value = numberOf(bytes, at, end);
        if (!Number.isFinite(value)) notNumber(wordText(bytes, at, end), place(at));
        if (count === values.length) {
          if (header) tooManyNumbers(header, place(at));
          if (count >= MOST_POSTS) tooMany(file, columns || count, rows + 1);
          const more = new Float64Array(Math.min(MOST_POSTS, count * 2));
          more.set(values);
          values = more;
        }
        values[count++] = value;
        mark = 0;
        at = end;
      }
    }
    if (mark !== 0) emptyPlace(place(at));
    lineStart = nextLine(bytes, at);
    const found = count - before;
    if (found === 0) continue;
    if (rows === 0) first = { found, line };
    if (rows === 0 && header) isFree = found !== columns;
    if (columns === 0) columns = found;
    rows++;
    if (!isFree && found !== columns) ragged(rows, found, columns, { file, line });
    if (at - breath > BREATH_BYTES) {
      breath = at;
      yield at / bytes.length;
    }

    function place(offset: number): Where {
      return { file, line, column: offset - lineStart + 1 };
    }
  }
  if (isFree && rows === header?.rows) ragged(1, first.found, columns, { file, line: first.line });
  if (header && count < values.length) tooFewNumbers(header, count, file);
  if (!header && (columns < 2 || rows < 2)) tooSmall(file, columns, rows);
  return { values: values.subarray(0, count), columns, rows: header?.rows ?? rows };
}

const notNumber = (word: string, where: Where): never =>
  refuse(
    'source/not-a-number',
    `"${word}" is not a number.`,
    'Mend it; where there is no height, write the number that the header names as NODATA_value (−9999 without one).',
    where,
  );

const emptyPlace = (where: Where): never =>
  refuse(
    'source/not-a-number',
    'A number is missing before or after this comma or semicolon.',
    'Write −9999 where there is no height.',
    where,
  );

const mixed = (where: Where): never =>
  refuse(
    'source/separators',
    'Numbers stand apart now by a comma, a semicolon or a blank, where it was another before.',
    'Separate them in one way, and write decimals with a point.',
    where,
  );

const ragged = (row: number, found: number, wanted: number, where: Where): never =>
  refuse(
    'source/ragged-row',
    `Row ${row} holds ${found} numbers; ${wanted} are wanted.`,
    'Every row must be as long as the first, or as ncols says.',
    where,
  );

const tooManyNumbers = ({ columns, rows }: GridHeader, where: Where): never =>
  refuse(
    'source/too-many-numbers',
    `There are more numbers than the ${columns} × ${rows} that the header promises.`,
    'Mend ncols and nrows, or take out what does not belong to the grid.',
    where,
  );

const tooFewNumbers = ({ columns, rows }: GridHeader, count: number, file: string): never =>
  refuse(
    'source/too-few-numbers',
    `There are ${count} numbers; the header promises ${columns} × ${rows}, ${columns * rows} of them.`,
    'Mend ncols and nrows, or fetch the file again if it was cut off.',
    { file },
  );

const tooSmall = (file: string, columns: number, rows: number): never =>
  refuse(
    'source/too-few-posts',
    `The grid holds ${columns} × ${rows} numbers: ground needs at least 2 × 2.`,
    'Name a file that holds the grid.',
    { file },
  );
