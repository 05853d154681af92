import { clipSegment } from '../../drawing/seen.ts';
import type { Box } from '../../geometry/ring.ts';

/** A strip along the top of each page and one on its left, outside the drawing: what stands there is trimmed off. */
const TOP_STRIP_MM = 20;
const LEFT_STRIP_MM = 8;

/** One sort of page: the paper as it lies, and the part of it that shows the drawing. Millimetres of the print. */
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
  /** What a millimetre of the print is in the file, across and down: 1, unless a printer's error is put right. */
  readonly trueMm: readonly [number, number];
}

/**
 * Lay a page out. `barsMm`: how long the bars of 100 mm came out of the printer, across and down. On a printer that prints them
 * too long, paper is larger in millimetres of the print, and everything is drawn smaller in the file.
 */
export function paperFrame(
  sides: readonly [short: number, long: number],
  lying: boolean,
  { margin: marginMm, overlap: overlapMm, barsMm }: FrameOptions,
): PaperFrame {
  const [short, long] = sides;
  const trueMm = [100 / barsMm[0], 100 / barsMm[1]] as const;
  const [widthMm, heightMm] = lying ? [long / trueMm[0], short / trueMm[1]] : [short / trueMm[0], long / trueMm[1]];
  const leftMm = marginMm + LEFT_STRIP_MM;
  const topMm = marginMm + TOP_STRIP_MM;
  const viewWidthMm = widthMm - marginMm - leftMm;
  const viewHeightMm = heightMm - marginMm - topMm;
  return { widthMm, heightMm, marginMm, overlapMm, leftMm, topMm, viewWidthMm, viewHeightMm, trueMm };
}

export interface FrameOptions {
  readonly margin: number;
  readonly overlap: number;
  readonly barsMm: readonly [number, number];
}

/** A drawing cut up on pages: which page shows which part of it, and which are left out because nothing is on them. */
export interface PageGrid {
  readonly frame: PaperFrame;
  /** By what the drawing is turned first, counter-clockwise as seen; then the grid's corner lies here. */
  readonly turnDeg: number;
  readonly fromMm: readonly [number, number];
  readonly columns: number;
  readonly rows: number;
  /** Row by row from the top: 1 for a page that is printed. */
  readonly kept: Uint8Array;
  readonly count: number;
}

/**
 * Cut up what lies in a box of the turned drawing. Pages on which none of its strokes shows are left out, save those without
 * which the others would not hang together when they are taped.
 */
export function pageGrid(frame: PaperFrame, box: Box, strokes: Float64Array, turnDeg = 0): PageGrid {
  const { overlapMm, viewWidthMm, viewHeightMm } = frame;
  const across = (size: number, view: number) => Math.max(1, Math.ceil((size - overlapMm) / (view - overlapMm)));
  const columns = across(box[2] - box[0], viewWidthMm);
  const rows = across(box[3] - box[1], viewHeightMm);
  const fromMm = [box[0], box[1]] as const;
  const grid = { frame, turnDeg, fromMm, columns, rows, kept: new Uint8Array(columns * rows), count: 0 };
  for (let i = 0; i < strokes.length; i += 4) touch(grid, strokes[i], strokes[i + 1], strokes[i + 2], strokes[i + 3]);
  hangTogether(grid);
  return { ...grid, count: grid.kept.reduce((sum, kept) => sum + kept, 0) };
}

/** The part of the turned drawing that a page shows. */
export function viewOf({ frame, fromMm }: PageGrid, row: number, column: number): Box {
  const { overlapMm, viewWidthMm, viewHeightMm } = frame;
  const left = fromMm[0] + column * (viewWidthMm - overlapMm);
  const top = fromMm[1] + row * (viewHeightMm - overlapMm);
  return [left, top, left + viewWidthMm, top + viewHeightMm];
}

export const isKept = ({ kept, columns, rows }: PageGrid, row: number, column: number): boolean =>
  row >= 0 && column >= 0 && row < rows && column < columns && kept[row * columns + column] === 1;

/** The pages that are printed, row by row from the top: the order of taping. */
export function* keptPages(grid: PageGrid): Generator<{ readonly row: number; readonly column: number }> {
  for (let row = 0; row < grid.rows; row++) {
    for (let column = 0; column < grid.columns; column++) if (isKept(grid, row, column)) yield { row, column };
  }
}

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
  const { frame, fromMm, columns, rows, kept } = grid;
  const stepX = frame.viewWidthMm - frame.overlapMm;
  const stepY = frame.viewHeightMm - frame.overlapMm;
  const lastColumn = Math.min(columns - 1, Math.floor((Math.max(ax, bx) - fromMm[0]) / stepX));
  const lastRow = Math.min(rows - 1, Math.floor((Math.max(ay, by) - fromMm[1]) / stepY));
  const firstColumn = Math.max(0, Math.ceil((Math.min(ax, bx) - fromMm[0] - frame.viewWidthMm) / stepX));
  const firstRow = Math.max(0, Math.ceil((Math.min(ay, by) - fromMm[1] - frame.viewHeightMm) / stepY));
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
