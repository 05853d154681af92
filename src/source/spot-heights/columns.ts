import { refuse, type Where } from '../../findings.ts';
import { type Form, numberIn } from './records.ts';

/** Where x, y and the height stand in each line, the first column 0. */
export interface Columns {
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

/** Which columns to take, by name or by number from 1. */
export type Wanted = Readonly<Partial<Record<keyof Columns, string | number>>>;

const NAMES: Readonly<Record<keyof Columns, readonly string[]>> = {
  x: ['x', 'easting', 'eastings', 'east', 'e'],
  y: ['y', 'northing', 'northings', 'north', 'n'],
  z: ['z', 'elevation', 'elev', 'height', 'level', 'altitude', 'alt', 'h'],
};
const DEGREES = ['lon', 'long', 'longitude', 'lat', 'latitude'];

/** Whether a first line holds names: it has fewer than three numbers. */
export const isHeader = (fields: readonly string[], form: Form): boolean =>
  fields.filter((field) => Number.isFinite(numberIn(field, form))).length < 3;

/**
 * Find the columns: as the job says; else by the names of the header, in any case, units in brackets aside; else in the order
 * x, y, height, after a first column that counts the points 1, 2, 3 … `second` is the second line of numbers.
 */
export function columnsOf(
  first: readonly string[],
  second: readonly string[],
  form: Form,
  wanted: Wanted,
  where: Where,
): { columns: Columns; isGuess: boolean } {
  const header = isHeader(first, form) ? first.map(plain) : null;
  const found: Partial<Record<keyof Columns, number>> = {};
  for (const axis of ['x', 'y', 'z'] as const) {
    const column = wanted[axis];
    if (typeof column === 'number') found[axis] = column - 1;
    else if (column !== undefined) found[axis] = named(header, [plain(column)], where);
    else if (header) found[axis] = named(header, NAMES[axis], where);
    if (column !== undefined && !((found[axis] ?? -1) >= 0)) noColumn(axis, column, where);
  }
  const { x = -1, y = -1, z = -1 } = found;
  if (x >= 0 && y >= 0 && z >= 0) {
    if (x === y || y === z || x === z) sameColumn(where);
    return { columns: { x, y, z }, isGuess: false };
  }
  if (header?.some((name) => DEGREES.includes(name))) degrees(where);
  if (x >= 0 || y >= 0 || z >= 0) someColumns(first, where);
  const sample = header ? second : first;
  const numbers = sample.map((field, i) => (Number.isFinite(numberIn(field, form)) ? i : -1)).filter((i) => i >= 0);
  if (numbers.length < 3) tooFew(numbers.length, where);
  if (header && numbers.length > 3) someColumns(first, where);
  const from = !header && numbers.length > 3 && isCount(first, second, numbers[0], form) ? 1 : 0;
  const [ax, ay, az] = numbers.slice(from);
  return { columns: { x: ax, y: ay, z: az }, isGuess: header !== null || numbers.length > 3 };
}

const plain = (name: string): string =>
  name
    .toLowerCase()
    .replace(/[([{].*$/, '')
    .replace(/[^\p{L}\p{N}]/gu, '')
    .trim();

function named(header: readonly string[] | null, names: readonly string[], where: Where): number {
  for (const name of names) {
    const at = header?.indexOf(name) ?? -1;
    if (at >= 0 && header?.indexOf(name, at + 1) !== -1) twice(name, where);
    if (at >= 0) return at;
  }
  return -1;
}

function isCount(first: readonly string[], second: readonly string[], column: number, form: Form): boolean {
  const a = numberIn(first[column], form);
  return Number.isInteger(a) && numberIn(second[column] ?? '', form) === a + 1;
}

const SAY = 'Say which columns to take: columns: { x: 2, y: 3, z: 4 }, by number from 1 or by name.';

const noColumn = (axis: string, column: string | number, where: Where): never =>
  refuse('source/no-column', `There is no column "${column}", wanted for ${axis}.`, SAY, where);

const sameColumn = (where: Where): never =>
  refuse('source/same-column', 'One column is wanted for two of x, y and z.', SAY, where);

const twice = (name: string, where: Where): never =>
  refuse('source/column-twice', `Two columns are called "${name}".`, SAY, where);

const someColumns = (names: readonly string[], where: Where): never =>
  refuse(
    'source/columns',
    `Which columns are x, y and height cannot be told from "${names.join(', ').slice(0, 80)}".`,
    SAY,
    where,
  );

const tooFew = (count: number, where: Where): never =>
  refuse(
    'source/too-few-columns',
    `A line holds ${count} ${count === 1 ? 'number' : 'numbers'}: a spot needs x, y and its height.`,
    'Give three numbers on each line, set apart by commas, semicolons, tabs or blanks.',
    where,
  );

const degrees = (where: Where): never =>
  refuse(
    'source/degrees',
    'The columns are called longitude and latitude: degrees of arc, which heights are not.',
    'Project the points to metres first.',
    where,
  );
