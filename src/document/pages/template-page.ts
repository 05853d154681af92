import { lettered } from '../../drawing/lettering.ts';
import { type Group, type Line, type Mark, openLine } from '../../drawing/page.ts';
import type { PrintedPage } from '../../drawing/pdf.ts';
import { PENS } from '../../drawing/pen.ts';
import { isKept, type PageGrid, pageName, viewOf } from './grid.ts';
import { type Strip, stripPage } from './strips.ts';

const TEXT_MM = 3.5;
/** Half the diagonal of a joining mark, and where along a page's edge the marks stand, as shares of it. */
const DIAMOND_MM = 4;
const ALONG = [0.25, 0.75];

/** One page of paper with its part of a pattern at its size, its joining lines and marks, its name and its check bars. */
export function templatePage(
  groups: readonly Group[],
  grid: PageGrid,
  row: number,
  column: number,
  strip: Strip,
): PrintedPage {
  const { frame, turnDeg } = grid;
  const { leftMm, topMm, viewWidthMm, viewHeightMm } = frame;
  const [fromX, fromY] = viewOf(grid, row, column);
  const view = [leftMm, topMm, leftMm + viewWidthMm, topMm + viewHeightMm] as const;
  const at = { view, xMm: leftMm - fromX, yMm: topMm - fromY };
  const joints = [{ id: 'joints', marks: joiningMarks(grid, row, column) }];
  const panes = [
    { ...at, groups, turnDeg },
    { ...at, groups: joints, turnDeg: 0 },
  ];
  return stripPage(frame, strip, [], { panes });
}

/**
 * Joining lines and marks of a page, in the turned drawing's coordinates. Neighbours draw the same marks at the same place of the board,
 * so that they meet when taped. A page is trimmed along its left and top line, and laid on the lines of its neighbours.
 */
function joiningMarks(grid: PageGrid, row: number, column: number): Mark[] {
  const marks: Mark[] = [];
  const lines: Line[] = [];
  const [left, top, right, bottom] = viewOf(grid, row, column);
  const beside = (y: number, x: number) => isKept(grid, y, x);
  // Lettered along the line, so that a name fits into the narrowest overlap.
  const upright = (x: number, leftName: string, rightName: string) => {
    lines.push(openLine(x, top, x, bottom));
    for (const share of ALONG) {
      const y = top + share * (bottom - top);
      const place = { heightMm: TEXT_MM, yMm: y - DIAMOND_MM - 1, turnDeg: 90 };
      lines.push(diamond(x, y));
      marks.push(lettered(leftName, { ...place, xMm: x - 1 }), lettered(rightName, { ...place, xMm: x + 1 + TEXT_MM }));
    }
  };
  const level = (y: number, upperName: string, lowerName: string) => {
    lines.push(openLine(left, y, right, y));
    for (const share of ALONG) {
      const x = left + share * (right - left);
      const place = { heightMm: TEXT_MM, xMm: x + DIAMOND_MM + 1 };
      lines.push(diamond(x, y));
      marks.push(
        lettered(upperName, { ...place, yMm: y - 1 }),
        lettered(lowerName, { ...place, yMm: y + 1 + TEXT_MM }),
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
