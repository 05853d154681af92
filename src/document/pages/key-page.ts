import { coarser, segmentsOf } from '../../drawing/fit.ts';
import { lettered, wrapText } from '../../drawing/lettering.ts';
import { frame as box, type Line, type Mark, openLine, type Page, shifted, smaller } from '../../drawing/page.ts';
import { PENS, TEXT_HEIGHTS_MM } from '../../drawing/pen.ts';
import type { Unit } from '../../units.ts';
import { CAUTIONS } from '../../workshop/cautions.ts';
import { legend, PRINT_TRUE } from '../board/blocks.ts';
import type { BoardDrawing } from '../board/draw-board.ts';
import { textBlock } from '../board/label-blocks.ts';
import { labeller } from '../board/labeller.ts';
import type { PieceName } from '../board/piece-labels.ts';
import { isKept, type PageGrid, type PaperFrame, pageName } from './grid.ts';
import { stripMarks } from './template-page.ts';

const TEXT_MM = 3.5;
const SMALL_MM = 2.5;
const PITCH = 1.5;
const GUTTER_MM = 6;
/** Outlines of the small drawing are this coarse on paper. */
const COARSE_MM = 0.1;

const HOW_TO =
  'Print one page and measure its bars before printing all. Trim each page along its left and top line and lay it on the ' +
  'lines of the pages beside it, so that the diamonds meet; tape from the top left. A crossed field has no page: nothing is ' +
  'to be traced there.';

/** A small drawing of a board that shows which page goes where; how to put them together; the lines; the cautions. */
export function keyPage(
  { page, names }: BoardDrawing,
  grid: PageGrid,
  frame: PaperFrame,
  name: string,
  unit: Unit,
): Page {
  const { leftMm, topMm, viewWidthMm, viewHeightMm } = frame;
  const lines = legend({ pages: true });
  const isBeside = viewWidthMm - lines.widthMm - GUTTER_MM >= 60;
  const textWidthMm = isBeside ? viewWidthMm - lines.widthMm - GUTTER_MM : viewWidthMm;
  const rows = [
    ...wrapText(HOW_TO, TEXT_MM, textWidthMm).map((text) => ({ text, heightMm: TEXT_MM })),
    { text: '', heightMm: TEXT_MM },
    ...wrapText(`${CAUTIONS[0]} ${CAUTIONS[1]}`, SMALL_MM, textWidthMm).map((text) => ({ text, heightMm: SMALL_MM })),
  ];
  const textHeightMm = rows.reduce((sum, { heightMm }) => sum + PITCH * heightMm, 0);
  const bandMm = isBeside ? Math.max(lines.heightMm, textHeightMm) : lines.heightMm + GUTTER_MM + textHeightMm;
  const bandTopMm = topMm + viewHeightMm - bandMm;

  const roomMm = [viewWidthMm, bandTopMm - topMm - 2 * GUTTER_MM];
  const scale = Math.min(roomMm[0] / page.widthMm, roomMm[1] / page.heightMm);
  const overlay = fields(grid, page, scale);
  const drawing = [...smallDrawing(page, scale), ...overlay, ...smallNames(names, scale, overlay)];

  let y = isBeside ? bandTopMm : bandTopMm + lines.heightMm + GUTTER_MM;
  const textLeftMm = isBeside ? leftMm + lines.widthMm + GUTTER_MM : leftMm;
  const text = rows.map(({ text, heightMm }) => {
    y += PITCH * heightMm;
    return lettered(text, { heightMm, xMm: textLeftMm, yMm: y });
  });
  return {
    widthMm: frame.widthMm,
    heightMm: frame.heightMm,
    title: name,
    description: PRINT_TRUE,
    groups: [
      { id: 'key', marks: shifted(drawing, leftMm, topMm + GUTTER_MM / 2) },
      { id: 'legend', marks: shifted(lines.marks, leftMm, bandTopMm) },
      { id: 'text', marks: text },
      { id: 'strips', marks: stripMarks(frame, name, unit) },
    ],
  };
}

function smallDrawing({ widthMm, heightMm, groups }: Page, scale: number): Mark[] {
  const cut = groups.find(({ id }) => id === 'cut')?.marks ?? [];
  const lines = cut.flatMap((mark) =>
    mark.lines.map(({ points }) => ({ points: coarser(points, COARSE_MM / scale), closed: true })),
  );
  return [
    { pen: PENS.thin, lines: smaller(lines, scale) },
    { pen: PENS.edge, lines: [box(0, 0, widthMm * scale, heightMm * scale)] },
  ];
}

/** The names of the pieces where they stand on the board, moved a little where a field's name or line is in the way. */
function smallNames(names: readonly PieceName[], scale: number, overlay: readonly Mark[]): Mark[] {
  const lines = overlay.flatMap((mark) => mark.lines);
  const labels = labeller(
    segmentsOf(
      lines.filter(({ closed }) => closed).map(({ points }) => points),
      lines.filter(({ closed }) => !closed).map(({ points }) => points),
    ),
  );
  for (const { text, x, y, heightMm } of names) {
    const most = Math.min(TEXT_HEIGHTS_MM[5], 2 * heightMm * scale);
    const blocks = TEXT_HEIGHTS_MM.filter((height) => height <= most || height === 1.8).map((height) =>
      textBlock([{ text, heightMm: height }]),
    );
    const spots = NEARBY_MM.map(([dx, dy]) => ({
      x: x * scale + dx,
      y: y * scale + dy,
      turnsDeg: [0],
      clearance: Infinity,
    }));
    if (!labels.put(blocks, spots)) labels.force(blocks[blocks.length - 1], x * scale, y * scale);
  }
  return [...labels.marks];
}

/** Where a small name may move to, nearest first. */
const NEARBY_MM = [-6, -4, -2, 0, 2, 4, 6]
  .flatMap((dx) => [-6, -4, -2, 0, 2, 4, 6].map((dy) => [dx, dy] as const))
  .sort((a, b) => a[0] * a[0] + a[1] * a[1] - (b[0] * b[0] + b[1] * b[1]) || a[0] - b[0] || a[1] - b[1]);

/** The fields of the grid, each with the name of its page or crossed out. A field is what a page shows but its overlaps. */
function fields(grid: PageGrid, { widthMm, heightMm }: Page, scale: number): Mark[] {
  const { frame, columns, rows } = grid;
  const stepX = frame.viewWidthMm - frame.overlapMm;
  const stepY = frame.viewHeightMm - frame.overlapMm;
  const high = Math.max(1.8, Math.min(TEXT_MM, 0.3 * stepY * scale, 0.25 * stepX * scale));
  const lines: Line[] = [];
  const marks: Mark[] = [];
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const left = column * stepX * scale;
      const top = row * stepY * scale;
      const right = (column === columns - 1 ? widthMm : (column + 1) * stepX) * scale;
      const bottom = (row === rows - 1 ? heightMm : (row + 1) * stepY) * scale;
      lines.push(box(left, top, right, bottom));
      if (isKept(grid, row, column)) {
        marks.push(lettered(pageName(row, column), { heightMm: high, xMm: left + 1, yMm: top + 1 + high }));
      } else lines.push(openLine(left, top, right, bottom), openLine(left, bottom, right, top));
    }
  }
  return [{ pen: FIELD_PEN, lines }, ...marks];
}

/** Half the narrow width: the fields lie under the outlines, and the drawing is small. */
const FIELD_PEN = { widthMm: 0.18, dashMm: [] };
