/** How a line is drawn, with round ends and corners as a pen draws it. Everything is black: what a line means is told by its width and its dashes, never by a colour. */
export interface Pen {
  readonly widthMm: number;
  /** Lengths of dash, gap, dash, gap … between round ends; empty for a continuous line. */
  readonly dashMm: readonly number[];
}

/** The usual pair of line widths, 2 : 1 (ISO 128; Manual of Engineering Drawing, chapter 7). */
export const WIDE_MM = 0.7;
export const NARROW_MM = 0.35;

/** Elements of a dashed line in line widths (ISO 128-2, from memory): dash 12, long dash 24, gap 3; a dot is a touch. */
const DOT = 1;
const DASH = [12, 3];
const LONG_DASH_DOT = [24, 3, DOT, 3];
const LONG_DASH_DOUBLE_DOT = [24, 3, DOT, 3, DOT, 3];
const DOTS = [DOT, 3];

/** Length of the touch that makes a dot, in line widths: of no length at all, some readers draw nothing. */
const TOUCH = 0.02;

/** A round end makes each element a width longer and each gap a width shorter: taken off here. */
const pen = (widthMm: number, elements: readonly number[] = []): Pen => ({
  widthMm,
  dashMm: elements.map((element, i) => (i % 2 === 0 ? Math.max(TOUCH, element - 1) : element + 1) * widthMm),
});

/**
 * The kinds of line by what they mean. Number and use in ISO 128-2: continuous wide 01.2 visible edges; long-dash dot
 * wide 04.2 cutting planes; dashed narrow 02.1 hidden edges, here what will stand on the piece; long-dash double-dot
 * narrow 05.1 adjacent things, initial outlines; long-dash dot narrow 04.1; dotted narrow 07.1; dashed wide 02.2, where a surface is
 * treated, here where waste is cut through; continuous narrow 01.1 all else. Which of
 * them means what on a template is ours; the legend on the document says it.
 */
export const PENS = {
  cut: pen(WIDE_MM),
  slit: pen(WIDE_MM, LONG_DASH_DOT),
  /** Cuts through waste: run-ins, and what breaks a board down. */
  waste: pen(WIDE_MM, DASH),
  placing: pen(NARROW_MM, DASH),
  glue: pen(NARROW_MM, DOTS),
  /** Wide dotted, 07.2: the surface that a rock is carved to. */
  carved: pen(WIDE_MM, DOTS),
  edge: pen(NARROW_MM, LONG_DASH_DOUBLE_DOT),
  offcut: pen(NARROW_MM, LONG_DASH_DOT),
  thin: pen(NARROW_MM),
  /** Half the narrow width: what lies under the outlines of a small drawing, fields and grids, and its lesser lines. */
  fine: pen(0.18),
  /** The line that all is measured from. */
  base: pen(1),
} as const;

/** Stroke of lettering of this height: a tenth of it (ISO 3098, type B). */
export const letteringPen = (heightMm: number): Pen => pen(heightMm / 10);

/** Nominal heights of lettering (ISO 3098), and two more steps of √2 for what is read at arm's length. */
export const TEXT_HEIGHTS_MM = [40, 28, 20, 14, 10, 7, 5, 3.5, 2.5, 1.8] as const;
