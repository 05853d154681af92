import type { Box } from '../geometry/ring.ts';
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
}

export interface Group {
  readonly id: string;
  readonly marks: readonly Mark[];
}

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

/** The same marks, scaled about the origin and then moved. Pens keep their widths: a smaller drawing is not a paler one. */
export const shifted = (marks: readonly Mark[], dx: number, dy: number, scale = 1): Mark[] =>
  marks.map((mark) => ({
    ...mark,
    lines: mark.lines.map(({ points, closed }) => ({
      points: points.map((value, i) => value * scale + (i % 2 === 0 ? dx : dy)),
      closed,
    })),
  }));

/** The same marks after a quarter turn, reading upward: the box (0, 0)–(width, height) comes to (0, 0)–(height, width). */
export const turnedUp = (marks: readonly Mark[], width: number): Mark[] =>
  marks.map((mark) => ({
    ...mark,
    lines: mark.lines.map(({ points, closed }) => ({
      points: points.map((_, i) => (i % 2 === 0 ? points[i + 1] : width - points[i - 1])),
      closed,
    })),
  }));

/** The box of a line's points; pens' widths are not counted. */
export function boxOfLine({ points }: Line): Box {
  let minX = Infinity;
  let minY = Infinity;
  let maxX = -Infinity;
  let maxY = -Infinity;
  for (let i = 0; i < points.length; i += 2) {
    if (points[i] < minX) minX = points[i];
    if (points[i] > maxX) maxX = points[i];
    if (points[i + 1] < minY) minY = points[i + 1];
    if (points[i + 1] > maxY) maxY = points[i + 1];
  }
  return [minX, minY, maxX, maxY];
}
