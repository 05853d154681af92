import { type Box, boxOf } from '../geometry/ring.ts';
import type { Pen } from './pen.ts';

/** A run of straight strokes in page space: flat x, y … A closed one does not repeat its first point. */
export interface Line {
  readonly points: Float64Array;
  readonly closed: boolean;
}

/** What one pen draws as one: an outline with its holes, a word, a pin. */
export interface Mark {
  readonly pen: Pen;
  readonly lines: readonly Line[];
  /** Name of the mark in a file that has names; unique on its page. */
  readonly id?: string;
  /** What it says or shows, in words: for readers who do not see it. */
  readonly title?: string;
  /** Of lettering: what `lines` say and where, so that a file that has typefaces may hold it as text. */
  readonly text?: Lettering;
}

/** A text in single strokes: where its base line starts, and its turn counter-clockwise as seen. */
export interface Lettering {
  readonly text: string;
  readonly heightMm: number;
  readonly xMm: number;
  readonly yMm: number;
  readonly turnDeg: number;
  /** The first of `lines` then runs under the text. */
  readonly underlined: boolean;
}

export interface Group {
  readonly id: string;
  readonly marks: readonly Mark[];
}

/** All marks of some groups, in the order in which they are drawn. */
export const marksOf = (groups: readonly Group[]): Mark[] => groups.flatMap(({ marks }) => marks);

/**
 * A drawing before it is a file. Page space: millimetres, x to the right, y down, the origin at the top left corner.
 * SVG and PDF are two ways to write it; neither knows what it shows.
 */
export interface Page {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly title: string;
  readonly description: string;
  /** Drawn in order. */
  readonly groups: readonly Group[];
}

/** Points of a y-up space of this height as page points. The only flip there is. */
export function toPage(points: Float64Array, heightMm: number): Float64Array {
  const flipped = new Float64Array(points.length);
  for (let i = 0; i < points.length; i += 2) {
    flipped[i] = points[i];
    flipped[i + 1] = heightMm - points[i + 1];
  }
  return flipped;
}

export const openLine = (...points: readonly number[]): Line => ({ points: new Float64Array(points), closed: false });

export const frame = (left: number, top: number, right: number, bottom: number): Line => ({
  points: new Float64Array([left, top, right, top, right, bottom, left, bottom]),
  closed: true,
});

/** The same marks, moved. */
export const shifted = (marks: readonly Mark[], dx: number, dy: number): Mark[] =>
  mapped(marks, (x, y) => [x + dx, y + dy], 0);

/** The same marks after a quarter turn, reading upward: the box (0, 0)–(width, height) comes to (0, 0)–(height, width). */
export const turnedUp = (marks: readonly Mark[], width: number): Mark[] => mapped(marks, (x, y) => [y, width - x], 90);

/** Marks under a motion of the page; `turnDeg`: what it turns by, for lettering. */
function mapped(marks: readonly Mark[], move: (x: number, y: number) => readonly [number, number], turnDeg: number) {
  return marks.map(({ text, ...mark }): Mark => {
    const lines = mark.lines.map(({ points, closed }) => {
      const there = new Float64Array(points.length);
      for (let i = 0; i < points.length; i += 2) there.set(move(points[i], points[i + 1]), i);
      return { points: there, closed };
    });
    if (!text) return { ...mark, lines };
    const [xMm, yMm] = move(text.xMm, text.yMm);
    return { ...mark, lines, text: { ...text, xMm, yMm, turnDeg: text.turnDeg + turnDeg } };
  });
}

/** Lines drawn smaller, about the origin; what pen draws them is another matter. */
export const smaller = (lines: readonly Line[], scale: number): Line[] =>
  lines.map(({ points, closed }) => ({ points: points.map((value) => value * scale), closed }));

/** The box of a line's points; pens' widths are not counted. */
export const boxOfLine = ({ points }: Line): Box => boxOf([points]);

/** The box of some marks with the width of their pens; null for none. */
export function boxOfMarks(marks: readonly Mark[]): Box | null {
  let box: Box | null = null;
  for (const { pen, lines } of marks) {
    const half = pen.widthMm / 2;
    for (const line of lines) {
      const [left, top, right, bottom] = boxOfLine(line);
      if (!box) box = [left - half, top - half, right + half, bottom + half];
      else {
        box = [
          Math.min(box[0], left - half),
          Math.min(box[1], top - half),
          Math.max(box[2], right + half),
          Math.max(box[3], bottom + half),
        ];
      }
    }
  }
  return box;
}
