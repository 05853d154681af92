import { lettered } from '../drawing/lettering.ts';
import { type Line, type Mark, openLine, shifted } from '../drawing/page.ts';
import { type PrintedPage, pagesToPdf } from '../drawing/pdf.ts';
import { PENS } from '../drawing/pen.ts';
import type { OutputFile } from '../model/plan.ts';
import { revision } from '../model/revision.ts';
import { definePlugin } from '../plugin.ts';
import { lengthText } from '../units.ts';
import { CAUTIONS } from '../workshop/cautions.ts';
import { drawnNow } from './board/drawn-boards.ts';
import { scaleOption } from './board/scale-option.ts';
import { type PaperFrame, paperFrame } from './pages/grid.ts';
import { legendPage } from './pages/legend-page.ts';
import { paperOption, sidesOf } from './pages/papers.ts';
import { type Pattern, patternsOf } from './pages/pattern.ts';
import { smallDrawing } from './pages/small.ts';
import { type Strip, stripPage } from './pages/strips.ts';

const TEXT_MM = 3.5;
/** Room for the numbers of the grid along its lower and left edge. */
const NUMBERS_MM = 8;
/** Squares smaller than this on paper cannot be read across. */
const LEAST_SQUARE_MM = 4;
/** Every so many lines are wide, to count by. */
const COUNTED = 5;

const HOW_TO =
  'Draw the same squares on the board from the two edges with triangles, number their lines, mark where each outline crosses a ' +
  'line, and join the marks with a bent batten. Bar and lettering are true; the board is drawn small.';

/**
 * Squaring-up sheets: each board small on a page, under a grid whose lines are numbered from the two edges to measure from. Draw the
 * same squares on the board, mark where outlines cross their lines, and join; or throw the page on the board.
 */
export const gridPdf = definePlugin({
  api: 1,
  stage: 'document',
  name: 'grid-pdf',
  summary: 'each board small under a numbered grid, to copy square by square: one PDF',
  options: (kit) =>
    kit.z.strictObject({
      paper: paperOption(kit),
      margin: kit.length({ least: 5, most: 30 }).default(10).describe('what the printer leaves white at each edge'),
      square: kit.length({ least: 5, most: 1000 }).default(100).describe('side of a square on the board'),
      scale: scaleOption(kit),
    }),
  async run(plan, { paper, margin, square, scale }): Promise<readonly OutputFile[]> {
    if (plan.boards.length === 0) return [];
    const patterns = patternsOf(plan, drawnNow(plan, scale), 'boards');
    const frame = paperFrame(sidesOf(paper), true, { margin, overlap: 0, barsMm: [100, 100] });
    const count = patterns.length + 1;
    const print = `revision ${revision(plan)}`;
    const strip = (name: string, page: number) => ({
      name: `${name}, page ${page} of ${count}, ${print}`,
      job: plan.name,
      unit: plan.unit,
    });
    const pages = patterns.map((pattern, i) => gridPage(pattern, frame, square, strip(pattern.name, i + 1)));
    const key = legendPage(frame, strip('key', count), HOW_TO);
    const subject = `Lynchet, ${print}. ${CAUTIONS[0]}`;
    const body = await pagesToPdf(`${plan.name}: squaring up`, subject, [...pages, key]);
    return [{ path: 'grid.pdf', mediaType: 'application/pdf', body, pages: count }];
  },
});

function gridPage(pattern: Pattern, frame: PaperFrame, square: number, strip: Strip): PrintedPage {
  const { leftMm, topMm, viewWidthMm, viewHeightMm } = frame;
  const [left, top, right, bottom] = pattern.box;
  const [wide, high] = [right - left, bottom - top];
  const room = [viewWidthMm - 2 * NUMBERS_MM, viewHeightMm - 3 * NUMBERS_MM] as const;
  const scale = Math.min(room[0] / wide, room[1] / high);
  // Twice as wide until they can be told apart: a large board on a small page.
  let side = square;
  while (side * scale < LEAST_SQUARE_MM) side *= 2;
  const grid = gridMarks(wide, high, side, scale);
  const small = smallDrawing(pattern, { turnDeg: 0, fromMm: [left, top], scale }, grid);
  const said = `Squares of ${lengthText(side, strip.unit, 2)}, numbered from the two edges to measure from; drawn 1:${(1 / scale).toFixed(1)}.`;
  const text = lettered(said, {
    heightMm: TEXT_MM,
    xMm: leftMm + NUMBERS_MM,
    yMm: topMm + 3 * NUMBERS_MM + high * scale - 3,
  });
  return stripPage(
    frame,
    strip,
    [
      { id: 'small', marks: shifted([...grid, ...small], leftMm + NUMBERS_MM, topMm + NUMBERS_MM) },
      { id: 'text', marks: [text] },
    ],
    { title: pattern.name, description: said, bookmarks: [{ level: 1, title: pattern.name }] },
  );
}

/** Lines from the lower left corner on, numbered there and at the far ends. */
function gridMarks(wide: number, high: number, side: number, scale: number): Mark[] {
  const [right, bottom] = [wide * scale, high * scale];
  const thin: Line[] = [];
  const counted: Line[] = [];
  const numbers: Mark[] = [];
  const step = side * scale;
  // Every number where there is room for it, else every fifth.
  const isNumbered = (n: number) => step >= 6 || n % COUNTED === 0;
  const number = (n: number, xMm: number, yMm: number) =>
    isNumbered(n) ? [lettered(`${n}`, { heightMm: TEXT_MM, xMm, yMm, align: 'middle' })] : [];
  for (let n = 0; n * step <= right + 0.001; n++) {
    (n % COUNTED === 0 ? counted : thin).push(openLine(n * step, 0, n * step, bottom));
    numbers.push(...number(n, n * step, bottom + 6), ...number(n, n * step, -2));
  }
  for (let n = 0; n * step <= bottom + 0.001; n++) {
    const y = bottom - n * step;
    (n % COUNTED === 0 ? counted : thin).push(openLine(0, y, right, y));
    numbers.push(...number(n, -4.5, y + TEXT_MM / 2), ...number(n, right + 4.5, y + TEXT_MM / 2));
  }
  return [{ pen: PENS.fine, lines: thin }, { pen: PENS.thin, lines: counted }, ...numbers];
}
