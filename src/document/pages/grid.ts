import type { Mark } from '../../drawing/page.ts';
import { clipSegment } from '../../drawing/seen.ts';
import type { Box } from '../../geometry/ring.ts';

/** Paper sizes, standing, millimetres: ISO 216 (A) and ANSI/ASME Y14.1 (Letter is A, 8.5 × 11 in; Tabloid is B, 11 × 17 in). */
export const PAPERS = {
  A4: [210, 297],
  A3: [297, 420],
  Letter: [215.9, 279.4],
  Tabloid: [279.4, 431.8],
} as const satisfies Record<string, readonly [number, number]>;
export type Paper = keyof typeof PAPERS;

/** A strip along the top of each page and one on its left, outside the drawing: what stands there is trimmed off. */
export const TOP_STRIP_MM = 15;
export const LEFT_STRIP_MM = 8;

/** One sort of page: the paper as it lies, and the part of it that shows the drawing. */
export interface PaperFrame {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly marginMm: number;
  readonly overlapMm: number;
  /** Top left corner of the drawing on the paper, and its size. */
  readonly leftMm: number;
  readonly topMm: number;
  readonly viewWidthMm: number;
  readonly viewHeightMm: number;
}

export function paperFrame(paper: Paper, lying: boolean, marginMm: number, overlapMm: number): PaperFrame {
  const [short, long] = PAPERS[paper];
  const [widthMm, heightMm] = lying ? [long, short] : [short, long];
  const leftMm = marginMm + LEFT_STRIP_MM;
  const topMm = marginMm + TOP_STRIP_MM;
  const viewWidthMm = widthMm - marginMm - leftMm;
  const viewHeightMm = heightMm - marginMm - topMm;
  return { widthMm, heightMm, marginMm, overlapMm, leftMm, topMm, viewWidthMm, viewHeightMm };
}

/** A board cut up on pages: which page shows which part of it, and which are left out because nothing is on them. */
export interface PageGrid {
  readonly frame: PaperFrame;
  readonly columns: number;
  readonly rows: number;
  /** Row by row from the top: 1 for a page that is printed. */
  readonly kept: Uint8Array;
  readonly count: number;
}

/**
 * Cut a drawing up. Pages on which none of `marks` shows are left out, save those without which the others would not
 * hang together when they are taped.
 */
export function pageGrid(frame: PaperFrame, widthMm: number, heightMm: number, marks: readonly Mark[]): PageGrid {
  const { overlapMm, viewWidthMm, viewHeightMm } = frame;
  const across = (size: number, view: number) => Math.max(1, Math.ceil((size - overlapMm) / (view - overlapMm)));
  const columns = across(widthMm, viewWidthMm);
  const rows = across(heightMm, viewHeightMm);
  const grid = { frame, columns, rows, kept: new Uint8Array(columns * rows), count: 0 };
  for (const { lines } of marks) {
    for (const { points, closed } of lines) {
      const last = points.length - 2;
      for (let i = 0; i < points.length; i += 2) {
        const next = i === last ? (closed ? 0 : i) : i + 2;
        touch(grid, points[i], points[i + 1], points[next], points[next + 1]);
      }
    }
  }
  hangTogether(grid);
  return { ...grid, count: grid.kept.reduce((sum, kept) => sum + kept, 0) };
}

/** The part of the drawing that a page shows, drawing coordinates. */
export function viewOf({ frame }: PageGrid, row: number, column: number): Box {
  const { overlapMm, viewWidthMm, viewHeightMm } = frame;
  const left = column * (viewWidthMm - overlapMm);
  const top = row * (viewHeightMm - overlapMm);
  return [left, top, left + viewWidthMm, top + viewHeightMm];
}

export const isKept = ({ kept, columns, rows }: PageGrid, row: number, column: number): boolean =>
  row >= 0 && column >= 0 && row < rows && column < columns && kept[row * columns + column] === 1;

/** Rows of a grid by letters without I and O, as in the fields of a drawing sheet (ISO 5457); columns by numbers. */
const ROW_LETTERS = 'ABCDEFGHJKLMNPQRSTUVWXYZ';

/** `B3`: second row from the top, third column from the left. */
export const pageName = (row: number, column: number): string => `${rowLetters(row)}${column + 1}`;

const rowLetters = (row: number): string =>
  row < ROW_LETTERS.length
    ? ROW_LETTERS[row]
    : rowLetters(Math.floor(row / ROW_LETTERS.length) - 1) + ROW_LETTERS[row % ROW_LETTERS.length];

/** Keep every page that a stroke shows on. */
function touch(grid: PageGrid, ax: number, ay: number, bx: number, by: number) {
  const { frame, columns, rows, kept } = grid;
  const stepX = frame.viewWidthMm - frame.overlapMm;
  const stepY = frame.viewHeightMm - frame.overlapMm;
  const lastColumn = Math.min(columns - 1, Math.floor(Math.max(ax, bx) / stepX));
  const lastRow = Math.min(rows - 1, Math.floor(Math.max(ay, by) / stepY));
  const firstColumn = Math.max(0, Math.ceil((Math.min(ax, bx) - frame.viewWidthMm) / stepX));
  const firstRow = Math.max(0, Math.ceil((Math.min(ay, by) - frame.viewHeightMm) / stepY));
  for (let row = firstRow; row <= lastRow; row++) {
    for (let column = firstColumn; column <= lastColumn; column++) {
      if (kept[row * columns + column] === 1) continue;
      if (clipSegment(ax, ay, bx, by, viewOf(grid, row, column))) kept[row * columns + column] = 1;
    }
  }
}

/** Add the fewest pages that join the first group of neighbours to its nearest other, until there is one group. */
function hangTogether({ columns, rows, kept }: PageGrid) {
  const start = kept.indexOf(1);
  if (start < 0) return;
  for (;;) {
    const from = new Int32Array(columns * rows).fill(UNSEEN);
    from[start] = IN_GROUP;
    const queue = [start];
    for (let i = 0; i < queue.length; i++) {
      for (const next of neighbours(queue[i], columns, rows)) {
        if (from[next] !== UNSEEN || kept[next] === 0) continue;
        from[next] = IN_GROUP;
        queue.push(next);
      }
    }
    // On through blank pages, nearest first, to a page that is kept and not in the group.
    let last = UNSEEN;
    for (let i = 0; i < queue.length && last === UNSEEN; i++) {
      for (const next of neighbours(queue[i], columns, rows)) {
        if (from[next] !== UNSEEN) continue;
        from[next] = queue[i];
        queue.push(next);
        if (kept[next] === 1) last = queue[i];
      }
    }
    if (last === UNSEEN) return;
    for (let cell = last; from[cell] !== IN_GROUP; cell = from[cell]) kept[cell] = 1;
  }
}

const UNSEEN = -2;
const IN_GROUP = -1;

function* neighbours(cell: number, columns: number, rows: number): Generator<number> {
  const column = cell % columns;
  if (column > 0) yield cell - 1;
  if (column < columns - 1) yield cell + 1;
  if (cell >= columns) yield cell - columns;
  if (cell < columns * (rows - 1)) yield cell + columns;
}
