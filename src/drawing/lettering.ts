import { turn } from '../geometry/exact-math.ts';
import type { Box } from '../geometry/ring.ts';
import { GLYPHS } from './lettering/strokes.ts';
import { inLetters } from './letters.ts';
import type { Line, Mark } from './page.ts';
import { letteringPen } from './pen.ts';

/** Height of a capital in the face's own units: the nominal height of lettering is that of its capitals (ISO 3098). */
export const CAPITAL = 646;

export interface Glyph {
  readonly advance: number;
  readonly strokes: readonly (readonly number[])[];
}

/** The glyphs of the face by their characters. */
export const FACE: ReadonlyMap<string, Glyph> = new Map(
  Object.entries(GLYPHS).map(([character, data]) => {
    const [advance, ...strokes] = data.split('|');
    return [character, { advance: Number(advance), strokes: strokes.map((stroke) => stroke.split(' ').map(Number)) }];
  }),
);

/** What stands for a character that the face does not have: an open box, so that nothing is lost in silence. */
export const BOX: Glyph = { advance: 501, strokes: [[70, 0, 430, 0, 430, 646, 70, 646, 70, 0]] };

/** A text in the characters that the single strokes have (drawing/letters.ts says how). */
export const writable = (text: string): string => inLetters(text, (character) => FACE.has(character));

/** How wide a text is set, from where its first letter starts to where a next one would, millimetres. */
export function textWidth(text: string, heightMm: number): number {
  let units = 0;
  for (const character of writable(text)) units += (FACE.get(character) ?? BOX).advance;
  return (units * heightMm) / CAPITAL;
}

/** As much of a text as is no wider than this; what is left out shows as three dots. */
export function fitText(text: string, heightMm: number, widthMm: number): string {
  const whole = writable(text);
  if (textWidth(whole, heightMm) <= widthMm) return whole;
  let room = widthMm - textWidth(DOTS, heightMm);
  let kept = '';
  for (const character of whole) {
    room -= textWidth(character, heightMm);
    if (room < 0) break;
    kept += character;
  }
  return kept.trimEnd() + DOTS;
}

const DOTS = '...';

/** A text broken at its spaces into lines no wider than this. A longer word stands on a line of its own. */
export function wrapText(text: string, heightMm: number, widthMm: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of writable(text).split(' ')) {
    if (word === '') continue;
    const longer = line === '' ? word : `${line} ${word}`;
    if (line !== '' && textWidth(longer, heightMm) > widthMm) {
      lines.push(line);
      line = word;
    } else line = longer;
  }
  if (line !== '') lines.push(line);
  return lines;
}

export interface TextPlace {
  readonly heightMm: number;
  /** Where the base line of the first letter starts, has its middle, or of the last letter ends. */
  readonly xMm: number;
  readonly yMm: number;
  /** Counter-clockwise as seen on the page. */
  readonly turnDeg?: number;
  readonly align?: 'left' | 'middle' | 'right';
  /** A line under it, so that 6 and 9 differ from any side. */
  readonly underlined?: boolean;
}

/** How far under the base line an underline is, in heights of the lettering. */
const UNDERLINE = 0.28;

/** Write a text in single strokes. Page space; a stroke is a tenth of the height wide. */
export function lettered(text: string, place: TextPlace): Mark {
  const { heightMm, xMm, yMm, turnDeg = 0, align = 'left', underlined = false } = place;
  const said = writable(text);
  const scale = heightMm / CAPITAL;
  const { cos, sin } = turn(turnDeg);
  const width = textWidth(said, heightMm);
  const lines: Line[] = [];
  let start = align === 'left' ? 0 : align === 'middle' ? -width / 2 : -width;
  const put = (stroke: readonly number[], from: number) => {
    const points = new Float64Array(stroke.length);
    for (let i = 0; i < stroke.length; i += 2) {
      const along = from + stroke[i] * scale;
      const up = stroke[i + 1] * scale;
      points[i] = xMm + along * cos - up * sin;
      points[i + 1] = yMm - along * sin - up * cos;
    }
    lines.push({ points, closed: false });
  };
  const begun = { xMm: xMm + start * cos, yMm: yMm - start * sin };
  const under = -UNDERLINE * CAPITAL;
  if (underlined) put([0, under, width / scale, under], start);
  for (const character of said) {
    const { advance, strokes } = FACE.get(character) ?? BOX;
    for (const stroke of strokes) put(stroke, start);
    start += advance * scale;
  }
  return {
    pen: letteringPen(heightMm),
    lines,
    title: said,
    text: { ...begun, text: said, heightMm, turnDeg, underlined },
  };
}

/** The box of the ink of a text written at (0, 0) without a turn, page space; half a stroke wider than its centre lines. */
export function inkBox(text: string, heightMm: number, underlined = false): Box {
  const { lines } = lettered(text, { heightMm, xMm: 0, yMm: 0, underlined });
  const half = heightMm / 20;
  let [minX, minY, maxX, maxY] = [0, 0, 0, 0];
  for (const { points } of lines) {
    for (let i = 0; i < points.length; i += 2) {
      minX = Math.min(minX, points[i] - half);
      maxX = Math.max(maxX, points[i] + half);
      minY = Math.min(minY, points[i + 1] - half);
      maxY = Math.max(maxY, points[i + 1] + half);
    }
  }
  return [minX, minY, maxX, maxY];
}
