import { ADVANCES, LATIN, LATIN_MORE } from './face/advances.ts';
import { inLetters, MISSING } from './letters.ts';

/**
 * The face that sheets are set in: text that a reader can search and copy. Drawn so that no two characters are taken for one
 * another (1 l I, 6 9, 0 O), which matters at arm's length in bad light; single strokes are for what is cut and plotted.
 */
export type Weight = keyof typeof ADVANCES;

/** A text on a page: one line in one weight, from its base line's start. Page space. */
export interface SetText {
  readonly text: string;
  readonly sizePt: number;
  readonly weight: Weight;
  readonly xMm: number;
  readonly yMm: number;
}

/** Millimetres in a point: 1/72 in. */
export const MM_IN_PT = 25.4 / 72;

/** Height of a capital, and of what stands over and under the base line, in sizes of the text. */
export const CAPITAL = 0.668;
export const ASCENT = 0.95;
export const DESCENT = 0.3;

const CHARACTERS = [...LATIN, ...LATIN_MORE];
const COUNT_LATIN = [...LATIN].length;
const PLACES: ReadonlyMap<string, number> = new Map(CHARACTERS.map((character, i) => [character, i]));
const WIDTHS = { regular: ADVANCES.regular.split(' ').map(Number), bold: ADVANCES.bold.split(' ').map(Number) };
/** How wide the open box is set that stands for a character that the face lacks, in sizes of the text. */
export const BOX_WIDTH = 0.6;

/** A text in the characters that the face has. */
export const readable = (text: string): string => inLetters(text, (character) => PLACES.has(character));

/** How many characters of a text the face lacks: they stand as open boxes. */
export const missingIn = (text: string): number => [...readable(text)].filter((each) => each === MISSING).length;

/** How wide a readable text is set, millimetres. No pairs are drawn closer, so that widths add up. */
export function setWidthMm(text: string, sizePt: number, weight: Weight): number {
  let width = 0;
  for (const character of text) width += advance(character, weight);
  return (width * sizePt * MM_IN_PT) / 1000;
}

const advance = (character: string, weight: Weight): number => {
  const place = PLACES.get(character);
  return place === undefined ? BOX_WIDTH * 1000 : WIDTHS[weight][place];
};

/** A stretch of a text that one embedded file has; `box` stands for characters that none has. */
export interface Run {
  readonly from: 'latin' | 'more' | 'box';
  readonly text: string;
  /** From the start of the text. */
  readonly atMm: number;
}

/** A readable text by the files that have its characters. */
export function runsOf({ text, sizePt, weight }: Pick<SetText, 'text' | 'sizePt' | 'weight'>): Run[] {
  const runs: Run[] = [];
  let atMm = 0;
  for (const character of text) {
    const place = PLACES.get(character);
    const from = place === undefined ? 'box' : place < COUNT_LATIN ? 'latin' : 'more';
    const last = runs[runs.length - 1];
    if (last?.from === from) runs[runs.length - 1] = { ...last, text: last.text + character };
    else runs.push({ from, text: character, atMm });
    atMm += (advance(character, weight) * sizePt * MM_IN_PT) / 1000;
  }
  return runs;
}

/** A space that must not break: between a number and its unit, and between inches and their fraction. */
const BOUND = / (?=(?:mm|cm|m|km|kg|g|in|ft|lb|oz|min|h|s|V|A|W|%)[²³]?(?:[\s.,;:)/]|$)|\d+\/\d)/g;

/** What of a readable text is never broken over two lines. A number and its unit are one word. */
export function wordsOf(text: string): string[] {
  const bound = text.replace(BOUND, (space, at: number) => (/\d/.test(text[at - 1] ?? '') ? '\u00A0' : space));
  return bound.split(' ').map((word) => word.replaceAll('\u00A0', ' '));
}

/** A text broken at its spaces into lines no wider than this; a longer word is broken where it must be. */
export function setLines(text: string, sizePt: number, weight: Weight, widthMm: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of wordsOf(readable(text))) {
    if (word === '') continue;
    const longer = line === '' ? word : `${line} ${word}`;
    if (setWidthMm(longer, sizePt, weight) <= widthMm) {
      line = longer;
      continue;
    }
    if (line !== '') lines.push(line);
    line = '';
    for (const character of word) {
      if (line !== '' && setWidthMm(line + character, sizePt, weight) > widthMm) {
        lines.push(line);
        line = '';
      }
      line += character;
    }
  }
  if (line !== '') lines.push(line);
  return lines;
}

/** As much of a text as is no wider than this; what is left out shows as an ellipsis. */
export function cutToWidth(text: string, sizePt: number, weight: Weight, widthMm: number): string {
  const whole = readable(text);
  if (setWidthMm(whole, sizePt, weight) <= widthMm) return whole;
  let kept = '';
  for (const character of whole) {
    if (setWidthMm(`${kept}${character}…`, sizePt, weight) > widthMm) break;
    kept += character;
  }
  return `${kept.trimEnd()}…`;
}
