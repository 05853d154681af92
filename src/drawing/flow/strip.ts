import { ASCENT, MM_IN_PT, type SetText, setLines, type Weight } from '../face.ts';
import type { Mark } from '../page.ts';

/** What is never broken over pages: a line, a row, a figure. Its own space: millimetres from its top left corner, y down. */
export interface Strip {
  readonly heightMm: number;
  /** Left free over it, save at the top of a page. */
  readonly beforeMm: number;
  /** Whether the next strip must stand on the same page. */
  readonly keep: boolean;
  readonly texts: readonly SetText[];
  readonly marks: readonly Mark[];
  /** Stands over it when it comes first on a page: the head of its table. */
  readonly head?: Strip;
  readonly bookmark?: { readonly level: number; readonly title: string };
  /** Whether it starts a page. */
  readonly starts?: boolean;
}

/** Sizes that a sheet is set in, points: 14 and more for what is read at arm's length, 10 to 11 for tables on a desk. */
export interface Sizes {
  readonly textPt: number;
  readonly tablePt: number;
  /** Of what stands at the edges of each page, and under tables. */
  readonly smallPt: number;
  readonly headingPt: readonly [number, number, number];
}

export const sizesOf = (textPt: number): Sizes => ({
  textPt,
  tablePt: Math.min(textPt, 10.5),
  smallPt: 8.5,
  headingPt: [textPt * 1.7, textPt * 1.3, textPt * 1.1],
});

/** From one base line to the next, millimetres. */
export const pitchMm = (sizePt: number): number => 1.3 * sizePt * MM_IN_PT;

/** From the top of a line to its base line, so that it stands in the middle of its pitch. */
export const baseMm = (sizePt: number): number => (ASCENT + 0.02) * sizePt * MM_IN_PT;

/** Lines of text under one another, the first at the top. */
export function linesAt(
  lines: readonly string[],
  sizePt: number,
  weight: Weight,
  xMm: number,
  topMm: number,
): SetText[] {
  return lines.map((text, i) => ({ text, sizePt, weight, xMm, yMm: topMm + i * pitchMm(sizePt) + baseMm(sizePt) }));
}

/** A text as strips of a line each: the first two and the last two stay together. */
export function paragraph(text: string, sizePt: number, weight: Weight, leftMm: number, widthMm: number): Strip[] {
  const lines = setLines(text, sizePt, weight, widthMm - leftMm);
  return lines.map((line, i) => ({
    heightMm: pitchMm(sizePt),
    beforeMm: i === 0 ? 0.4 * pitchMm(sizePt) : 0,
    keep: i < lines.length - 1 && (i === 0 || i === lines.length - 2),
    texts: linesAt([line], sizePt, weight, leftMm, 0),
    marks: [],
  }));
}

/** Lines in groups of at most so many; the groups of an empty text are one that is empty. */
export function groupsOf(lines: readonly string[], most: number): (readonly string[])[] {
  const groups: (readonly string[])[] = [];
  for (let i = 0; i < Math.max(1, lines.length); i += most) groups.push(lines.slice(i, i + most));
  return groups;
}
