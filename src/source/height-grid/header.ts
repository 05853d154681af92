import { fileKind } from '../../model/file-kind.ts';
import { MOST_POSTS } from '../../model/landform.ts';
import {
  badCount,
  badStep,
  emptyFile,
  missing,
  noNumber,
  notText,
  strangeWord,
  tooMany,
  tooShort,
  twice,
  twoNumbers,
} from './header-faults.ts';
import { isBlank, isLineEnd, nextLine, numberOf, wordEnd, wordText } from './scan.ts';

/** What stands before the numbers of a grid, in the file's own unit. */
export interface GridHeader {
  readonly columns: number;
  readonly rows: number;
  readonly stepX: number;
  readonly stepY: number;
  /** West and south of the corner or the centre of the first cell; null when not said. Only looked at, never used. */
  readonly west: number | null;
  readonly south: number | null;
  readonly noData: number;
  /** Where the numbers begin: byte, and line from 1. */
  readonly start: number;
  readonly line: number;
}

/** "NODATA_VALUE … Default is −9999" (Esri, ASCII raster format). Bare grids are read by the same rule. */
export const NO_DATA = -9999;

const WORDS = [
  'ncols',
  'nrows',
  'xllcorner',
  'xllcenter',
  'yllcorner',
  'yllcenter',
  'cellsize',
  'dx',
  'dy',
  'nodata_value',
];
/** A number and the blank before it: no grid is shorter. */
const LEAST_BYTES = 2;

/** Read the header of a grid, or null when the file begins with a number. Refuses what is not text, and a header that is no grid's. */
export function readGridHeader(bytes: Uint8Array, file: string): GridHeader | null {
  if (bytes.length === 0) emptyFile(file);
  const kind = fileKind(bytes);
  if (kind !== 'plain text') notText(file, kind);
  const said = new Map<string, number>();
  let at = textStart(bytes);
  let line = 1;
  for (; at < bytes.length; line++) {
    let start = at;
    while (start < bytes.length && isBlank(bytes[start])) start++;
    const end = start < bytes.length && !isLineEnd(bytes[start]) ? wordEnd(bytes, start) : start;
    const word = wordText(bytes, start, end).toLowerCase();
    if (!/^[a-z]/.test(word) || /^(nan|inf)/.test(word)) {
      if (word !== '') break;
      at = nextLine(bytes, start);
      continue;
    }
    if (!WORDS.includes(word)) strangeWord(file, word, WORDS, line);
    if (said.has(word)) twice(file, word, line);
    let valueStart = end;
    while (valueStart < bytes.length && isBlank(bytes[valueStart])) valueStart++;
    const valueEnd =
      valueStart < bytes.length && !isLineEnd(bytes[valueStart]) ? wordEnd(bytes, valueStart) : valueStart;
    const value = numberOf(bytes, valueStart, valueEnd);
    if (!Number.isFinite(value)) noNumber(file, word, wordText(bytes, valueStart, valueEnd), line);
    said.set(word, value);
    let rest = valueEnd;
    while (rest < bytes.length && isBlank(bytes[rest])) rest++;
    if (rest < bytes.length && !isLineEnd(bytes[rest])) twoNumbers(file, word, line);
    at = nextLine(bytes, rest);
  }
  if (said.size === 0) return null;
  return checked(said, bytes.length, { file, start: at, line });
}

/** Where the text begins: after the mark that some editors put before UTF-8. */
export const textStart = (bytes: Uint8Array): number =>
  bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf ? 3 : 0;

function checked(
  said: ReadonlyMap<string, number>,
  length: number,
  { file, start, line }: { file: string; start: number; line: number },
): GridHeader {
  const columns = said.get('ncols') ?? missing(file, 'ncols');
  const rows = said.get('nrows') ?? missing(file, 'nrows');
  for (const [word, count] of [
    ['ncols', columns],
    ['nrows', rows],
  ] as const) {
    if (!Number.isInteger(count) || count < 2) badCount(file, word, count);
  }
  if (columns * rows > MOST_POSTS) tooMany(file, columns, rows);
  if ((length - start + 1) / LEAST_BYTES < columns * rows) tooShort(file, columns, rows);
  const stepX = said.get('cellsize') ?? said.get('dx') ?? missing(file, 'cellsize');
  const stepY = said.get('cellsize') ?? said.get('dy') ?? missing(file, 'dy');
  if (!(stepX > 0 && stepY > 0)) badStep(file);
  const west = said.get('xllcorner') ?? said.get('xllcenter') ?? null;
  const south = said.get('yllcorner') ?? said.get('yllcenter') ?? null;
  return { columns, rows, stepX, stepY, west, south, noData: said.get('nodata_value') ?? NO_DATA, start, line };
}
