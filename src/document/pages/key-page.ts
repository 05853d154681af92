import { lettered } from '../../drawing/lettering.ts';
import { frame as box, type Line, type Mark, openLine, shifted } from '../../drawing/page.ts';
import type { PrintedPage } from '../../drawing/pdf.ts';
import { PENS } from '../../drawing/pen.ts';
import { legend } from '../board/legend.ts';
import { isKept, type PageGrid, type PaperFrame, pageName } from './grid.ts';
import { howToRows } from './legend-page.ts';
import type { Pattern } from './pattern.ts';
import { smallDrawing } from './small.ts';
import { type Strip, stripPage } from './strips.ts';

const TEXT_MM = 3.5;
const PITCH = 1.5;
const GUTTER_MM = 6;

const HOW_TO =
  'Print one page and measure its bars before printing all. Trim each page along its left and top line and lay it on the ' +
  'lines of the pages beside it, so that the diamonds meet; tape from the top left, row by row. A crossed field has no page: ' +
  'nothing is to be traced there.';

/** A small drawing of a pattern that shows which page goes where; how to put them together; the lines; the cautions. */
export function keyPage(pattern: Pattern, grid: PageGrid, frame: PaperFrame, strip: Strip): PrintedPage {
  const { leftMm, topMm, viewWidthMm, viewHeightMm } = frame;
  const lines = legend(strip.unit, { pages: true });
  const isBeside = viewWidthMm - lines.widthMm - GUTTER_MM >= 60;
  const textWidthMm = isBeside ? viewWidthMm - lines.widthMm - GUTTER_MM : viewWidthMm;
  const rows = howToRows(HOW_TO, textWidthMm);
  const textHeightMm = rows.length * PITCH * TEXT_MM;
  const bandMm = isBeside ? Math.max(lines.heightMm, textHeightMm) : lines.heightMm + GUTTER_MM + textHeightMm;
  const bandTopMm = topMm + viewHeightMm - bandMm;

  const [wideMm, highMm] = sizeOf(grid);
  const scale = Math.min(viewWidthMm / wideMm, (bandTopMm - topMm - 2 * GUTTER_MM) / highMm);
  const overlay = fields(grid, scale);
  const drawing = [
    ...smallDrawing(pattern, { turnDeg: grid.turnDeg, fromMm: grid.fromMm, scale }, overlay),
    ...overlay,
  ];

  let y = isBeside ? bandTopMm : bandTopMm + lines.heightMm + GUTTER_MM;
  const textLeftMm = isBeside ? leftMm + lines.widthMm + GUTTER_MM : leftMm;
  const text = rows.map((row) => {
    y += PITCH * TEXT_MM;
    return lettered(row, { heightMm: TEXT_MM, xMm: textLeftMm, yMm: y });
  });
  return stripPage(
    frame,
    strip,
    [
      { id: 'key', marks: shifted(drawing, leftMm, topMm + GUTTER_MM / 2) },
      { id: 'legend', marks: shifted(lines.marks, leftMm, bandTopMm) },
      { id: 'text', marks: text },
    ],
    { bookmarks: [{ level: 1, title: pattern.name }] },
  );
}

/** What the pages of a grid show together. */
function sizeOf({ frame, columns, rows }: PageGrid): readonly [number, number] {
  const { viewWidthMm, viewHeightMm, overlapMm } = frame;
  return [columns * (viewWidthMm - overlapMm) + overlapMm, rows * (viewHeightMm - overlapMm) + overlapMm];
}

/** The fields of the grid, each with the name of its page or crossed out. A field is what a page shows but its overlaps. */
function fields(grid: PageGrid, scale: number): Mark[] {
  const { frame, columns, rows } = grid;
  const stepX = frame.viewWidthMm - frame.overlapMm;
  const stepY = frame.viewHeightMm - frame.overlapMm;
  const [wideMm, highMm] = sizeOf(grid);
  const high = Math.max(1.8, Math.min(TEXT_MM, 0.3 * stepY * scale, 0.25 * stepX * scale));
  const lines: Line[] = [];
  const marks: Mark[] = [];
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const left = column * stepX * scale;
      const top = row * stepY * scale;
      const right = (column === columns - 1 ? wideMm : (column + 1) * stepX) * scale;
      const bottom = (row === rows - 1 ? highMm : (row + 1) * stepY) * scale;
      lines.push(box(left, top, right, bottom));
      if (isKept(grid, row, column)) {
        marks.push(lettered(pageName(row, column), { heightMm: high, xMm: left + 1, yMm: top + 1 + high }));
      } else lines.push(openLine(left, top, right, bottom), openLine(left, bottom, right, top));
    }
  }
  return [{ pen: PENS.fine, lines }, ...marks];
}
