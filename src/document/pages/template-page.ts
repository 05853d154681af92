import { fitText, lettered, wrapText } from '../../drawing/lettering.ts';
import { type Group, type Line, type Mark, openLine, type Page, shifted, turnedUp } from '../../drawing/page.ts';
import { PENS } from '../../drawing/pen.ts';
import type { Unit } from '../../units.ts';
import { checkBar, PRINT_TRUE } from '../board/blocks.ts';
import { isKept, type PageGrid, type PaperFrame, pageName, viewOf } from './grid.ts';

const TEXT_MM = 3.5;
const SMALL_MM = 2.5;
/** The key page has the whole of it; this strip is trimmed off before the pages are taped. */
const PAGE_CAUTION = 'Shape only; cautions on the key page.';
/** Half the diagonal of a joining mark, and where along a page's edge the marks stand, as shares of it. */
const DIAMOND_MM = 4;
const ALONG = [0.25, 0.75];

/** One page of paper with its part of the board at true size, its joining lines and marks, its name and its check bars. */
export function templatePage(
  groups: readonly Group[],
  grid: PageGrid,
  row: number,
  column: number,
  name: string,
  unit: Unit,
): Page {
  const { frame } = grid;
  const view = viewOf(grid, row, column);
  const dx = frame.leftMm - view[0];
  const dy = frame.topMm - view[1];
  const { leftMm, topMm, viewWidthMm, viewHeightMm } = frame;
  const shown = [leftMm, topMm, leftMm + viewWidthMm, topMm + viewHeightMm] as const;
  const joints = [{ id: 'joints', marks: joiningMarks(grid, row, column) }];
  return {
    widthMm: frame.widthMm,
    heightMm: frame.heightMm,
    title: name,
    description: PRINT_TRUE,
    windows: [groups, joints].map((groups) => ({ groups, view: shown, turnDeg: 0, xMm: dx, yMm: dy })),
    groups: [{ id: 'strips', marks: stripMarks(frame, name, unit) }],
  };
}

/**
 * Joining lines and marks of a page, drawing coordinates. Neighbours draw the same marks at the same place of the board,
 * so that they meet when taped. A page is trimmed along its left and top line, and laid on the lines of its neighbours.
 */
export function joiningMarks(grid: PageGrid, row: number, column: number): Mark[] {
  const marks: Mark[] = [];
  const lines: Line[] = [];
  const [left, top, right, bottom] = viewOf(grid, row, column);
  const beside = (y: number, x: number) => isKept(grid, y, x);
  // Lettered along the line, so that a name fits into the narrowest overlap.
  const upright = (x: number, leftName: string, rightName: string) => {
    lines.push(openLine(x, top, x, bottom));
    for (const share of ALONG) {
      const y = top + share * (bottom - top);
      const place = { heightMm: SMALL_MM, yMm: y - DIAMOND_MM - 1, turnDeg: 90 };
      lines.push(diamond(x, y));
      marks.push(
        lettered(leftName, { ...place, xMm: x - 1 }),
        lettered(rightName, { ...place, xMm: x + 1 + SMALL_MM }),
      );
    }
  };
  const level = (y: number, upperName: string, lowerName: string) => {
    lines.push(openLine(left, y, right, y));
    for (const share of ALONG) {
      const x = left + share * (right - left);
      const place = { heightMm: SMALL_MM, xMm: x + DIAMOND_MM + 1 };
      lines.push(diamond(x, y));
      marks.push(
        lettered(upperName, { ...place, yMm: y - 1 }),
        lettered(lowerName, { ...place, yMm: y + 1 + SMALL_MM }),
      );
    }
  };
  const name = pageName(row, column);
  if (beside(row, column - 1)) upright(left, pageName(row, column - 1), name);
  if (beside(row, column + 1)) upright(viewOf(grid, row, column + 1)[0], name, pageName(row, column + 1));
  if (beside(row - 1, column)) level(top, pageName(row - 1, column), name);
  if (beside(row + 1, column)) level(viewOf(grid, row + 1, column)[1], name, pageName(row + 1, column));
  if (lines.length > 0) marks.push({ pen: PENS.thin, title: 'page joints', lines });
  return marks;
}

const diamond = (x: number, y: number): Line => ({
  points: new Float64Array([x - DIAMOND_MM, y, x, y - DIAMOND_MM, x + DIAMOND_MM, y, x, y + DIAMOND_MM]),
  closed: true,
});

/** What stands in the strips of a page: its name, check bars both ways, scale and caution. */
export function stripMarks({ widthMm, marginMm, leftMm, topMm }: PaperFrame, name: string, unit: Unit): Mark[] {
  const bar = checkBar(unit);
  const beside = leftMm + bar.widthMm + 3;
  const row = (text: string, heightMm: number, xMm: number, yMm: number) =>
    lettered(fitText(text, heightMm, widthMm - marginMm - xMm), { heightMm, xMm, yMm });
  return [
    row(name, TEXT_MM, leftMm, marginMm + 4),
    row(PRINT_TRUE, SMALL_MM, beside, topMm - 7.4),
    ...wrapText(PAGE_CAUTION, SMALL_MM, widthMm - marginMm - beside).map((line, i) =>
      row(line, SMALL_MM, beside, topMm - 4.1 + 3.3 * i),
    ),
    ...shifted(bar.marks, leftMm, topMm - bar.heightMm - 1),
    ...shifted(turnedUp(bar.marks, bar.widthMm), marginMm, topMm),
  ];
}
