/**
 * What ids, layer names and attributes say. A name counts without what drawing programs add to keep ids apart: a leading `_`,
 * endings of `-` or `_` and digits (`h150-2`, `h150_1_`, `ridge-3`), and characters written as `_x31_`.
 */
import { LENGTH, toMm, type Unit } from '../../units.ts';
import type { Element } from './xml.ts';

/** What a line may be beside a contour. */
export const KINDS = ['contour', 'spot', 'footprint', 'ridge', 'stream', 'cliff', 'nothing'] as const;
export type Kind = (typeof KINDS)[number];

const HEIGHT = /^h?\s*([+-]?(?:\d+(?:\.\d*)?|\.\d+)\s*(?:mm|cm|m|in|ft)?)$/i;
/** Longer names and heights say nothing here. */
const LONGEST = 100;
const ENDINGS = /(?:[-_]\d{1,4})+_?$|_$/;

/** Names by which an element may be known: its id, and the layer's or shape's name that a program keeps beside it. */
export function namesOf({ attributes }: Element): string[] {
  const written = [attributes.get('id'), attributes.get(':label'), attributes.get('data-name')];
  const isName = (name?: string) => name !== undefined && name.trim() !== '' && name.length <= LONGEST;
  return written.filter(isName).map((name) => unescaped(String(name)));
}

const unescaped = (name: string): string =>
  name
    .trim()
    .replace(/_x([0-9A-Fa-f]{2})_/g, (_, code: string) => String.fromCharCode(Number.parseInt(code, 16)))
    .replace(/^_(?=[\d+.])/, '');

/** A name as it was before the program told it apart from others. */
export const withoutEnding = (name: string): string => name.replace(ENDINGS, '');

/** The kind that a word names, in one or many: `ridge`, `ridges`; null for any other. */
export function kindOf(word: string): Kind | null {
  const small = withoutEnding(word).toLowerCase();
  return KINDS.find((kind) => small === kind || small === `${kind}s`) ?? null;
}

/** The height that a name says, `h150`, `150`, `150mm`, `h1.2m-3`, in millimetres; null for any other name. */
export function heightOfName(name: string, unit: Unit): number | null {
  const match = HEIGHT.exec(name) ?? HEIGHT.exec(withoutEnding(name));
  return match === null ? null : heightOfText(match[1], unit);
}

/** The height that a number says, with or without its unit, a comma or a point before its decimals; null for what is none. */
export function heightOfText(text: string, unit: Unit): number | null {
  if (text.length > LONGEST) return null;
  const plain = text
    .trim()
    .replace(/^[−–]/, '-')
    .replace(/^([+-]?\d+),(\d+)/, '$1.$2');
  if (!LENGTH.test(plain)) return null;
  const mm = toMm(plain, unit);
  return Number.isFinite(mm) && Math.abs(mm) <= HIGHEST_MM ? mm : null;
}

/** As long as a length in a job may be: 100 km. */
const HIGHEST_MM = 1e8;
