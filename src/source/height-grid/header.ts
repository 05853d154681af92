import { refuse } from '../../findings.ts';
import { fileKind } from '../../model/file-kind.ts';
import { MOST_POSTS } from '../../model/landform.ts';
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
    if (!WORDS.includes(word)) strangeWord(file, word, line);
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

/** Refuse a grid of more posts than are taken in. */
export const tooMany = (file: string, columns: number, rows: number): never =>
  refuse(
    'source/too-many-posts',
    `The grid has ${columns} × ${rows} posts or more: over the ${MOST_POSTS} that are taken in.`,
    'Resample the grid to wider posts, or cut out the ground that you need.',
    { file },
  );

const emptyFile = (file: string): never =>
  refuse('source/empty-file', `The file is empty or was not given.`, 'Name a file that holds the grid.', { file });

const notText = (file: string, kind: string): never =>
  refuse(
    'source/not-text',
    `The file is not a plain-text grid; it seems to be ${kind}.`,
    'Export the heights as an ASCII grid, in UTF-8.',
    {
      file,
    },
  );

const strangeWord = (file: string, word: string, line: number): never =>
  refuse(
    'source/grid-header',
    `"${word}" is not a word of a grid's header: those are ${WORDS.join(', ')}.`,
    'Take the line out, or export the heights as an ASCII grid.',
    { file, line, column: 1 },
  );

const twice = (file: string, word: string, line: number): never =>
  refuse('source/grid-header', `${word} is said twice.`, 'Keep the one that is true.', { file, line });

const noNumber = (file: string, word: string, text: string, line: number): never =>
  refuse(
    'source/grid-header',
    `${word} needs a number${text ? `, not "${text}"` : ''}.`,
    'Write decimals with a point.',
    {
      file,
      line,
    },
  );

const twoNumbers = (file: string, word: string, line: number): never =>
  refuse('source/grid-header', `More than a number stands after ${word}.`, 'Put one word and one number in a line.', {
    file,
    line,
  });

const missing = (file: string, word: string): never =>
  refuse('source/grid-header', `The header does not say ${word}.`, `Add a line: ${word} and its number.`, { file });

const badCount = (file: string, word: string, count: number): never =>
  refuse(
    'source/too-few-posts',
    `${word} is ${count}: ground needs at least 2 × 2 posts, in whole numbers.`,
    'Mend the header.',
    {
      file,
    },
  );

const badStep = (file: string): never =>
  refuse(
    'source/spacing',
    'The distance between posts must be above 0.',
    'Mend cellsize (or dx and dy) in the header.',
    { file },
  );

const tooShort = (file: string, columns: number, rows: number): never =>
  refuse(
    'source/too-few-numbers',
    `The header promises ${columns} × ${rows} numbers; the file is too short to hold them.`,
    'Fetch the file again: it was cut off, or the header is not its own.',
    { file },
  );
