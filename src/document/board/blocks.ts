import { fitText, lettered, textWidth, wrapText } from '../../drawing/lettering.ts';
import { frame, type Mark, openLine } from '../../drawing/page.ts';
import { PENS, type Pen } from '../../drawing/pen.ts';
import type { LayoutBoard } from '../../model/layout.ts';
import { GLUE_BACK_MM } from '../../model/piece.ts';
import type { Plan } from '../../model/plan.ts';
import { lengthText, thicknessText, type Unit } from '../../units.ts';
import { CAUTIONS } from '../../workshop/cautions.ts';
import { matchPicture, nickPicture, pinLines } from './on-board.ts';

/** A finished drawing with a size, its top left corner at (0, 0), to be put where there is room. */
export interface Block {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly marks: readonly Mark[];
}

export const PRINT_TRUE = 'Print at 100 %, no fit to page.';

const BAR_MM = 100;
const BAR_HEIGHT_MM = 8;
const SMALL_MM = 2.5;
const TEXT_MM = 3.5;
const LARGE_MM = 7;

/** A bar of 100 mm to hold a rule against, lying. */
export function checkBar(unit: Unit): Block {
  const text = unit === 'mm' ? '100 mm' : `100 mm = ${lengthText(BAR_MM, unit, 3)}`;
  const y = BAR_HEIGHT_MM - 2;
  const ticks = [0, 10, 50, BAR_MM].map((x) => openLine(x + 1, y - (x === 10 ? 1 : 2), x + 1, y + (x === 10 ? 1 : 2)));
  return {
    widthMm: BAR_MM + 2,
    heightMm: BAR_HEIGHT_MM,
    marks: [
      { pen: PENS.thin, title: 'check bar', lines: [openLine(1, y, BAR_MM + 1, y), ...ticks] },
      lettered(text, { heightMm: SMALL_MM, xMm: BAR_MM / 4 + 1, yMm: y - 2.5, align: 'middle' }),
    ],
  };
}

/** Job, board, stock, scale and caution in a frame of the width of a title block (180 mm, ISO 7200). */
export function titleBlock(plan: Plan, board: LayoutBoard): Block {
  const widthMm = 180;
  const inner = widthMm - 8;
  const size = board.sizeMm.map((mm) => lengthText(mm, plan.unit).replace(/ \S+$/, '')).join(' × ');
  const rows: [string, number][] = [
    [`board ${board.number} of ${plan.boards.length}`, LARGE_MM],
    [plan.name, 5],
    [`${board.stock}, ${size} × ${thicknessText(board.thicknessMm, plan.unit)}`, TEXT_MM],
    [PRINT_TRUE, TEXT_MM],
    ...wrapText(CAUTIONS[0], SMALL_MM, inner).map((line): [string, number] => [line, SMALL_MM]),
  ];
  let y = 2;
  const marks = rows.map(([text, heightMm]) => {
    y += 1.6 * heightMm;
    return lettered(fitText(text, heightMm, inner), { heightMm, xMm: 4, yMm: y });
  });
  const heightMm = y + 4;
  return { widthMm, heightMm, marks: [{ pen: PENS.thin, lines: [frame(0, 0, widthMm, heightMm)] }, ...marks] };
}

/** Length of a line in the legend: a long-dash double-dot line shows its pattern twice. */
const SAMPLE_MM = 44;

/** What each kind of line and mark means. `pages`: with the lines that only paper pages have. */
export function legend({ pages = false } = {}): Block {
  const sample = (pen: Pen, y: number): Mark => ({ pen, lines: [openLine(4, y, 4 + SAMPLE_MM, y)] });
  const middle = 4 + SAMPLE_MM / 2;
  const rows: [string, (y: number) => Mark][] = [
    ['cut here: the finished edge', (y) => sample(PENS.cut, y)],
    ['entry slit: cut to reach an inner outline', (y) => sample(PENS.slit, y)],
    [`the next layer stands here; glue keeps ${GLUE_BACK_MM} mm inside`, (y) => sample(PENS.placing, y)],
    ['pin through the layers', (y) => ({ pen: PENS.thin, lines: pinLines([middle, y]) })],
    ['match mark: carry it over the cut edge', (y) => ({ pen: PENS.thin, lines: matchPicture(middle, y) })],
    ['nick to cut: one to the front, two on its right', (y) => ({ pen: PENS.thin, lines: nickPicture(middle, y) })],
    ['edge of the board, and of its trim', (y) => sample(PENS.edge, y)],
    ['remainder to keep', (y) => sample(PENS.offcut, y)],
  ];
  if (pages) rows.push(['page joint: trim here, lay on the next', (y) => sample(PENS.thin, y)]);
  const pitch = 7;
  const marks: Mark[] = rows.flatMap(([text, draw], i) => {
    const y = 8 + i * pitch;
    return [draw(y), lettered(text, { heightMm: TEXT_MM, xMm: SAMPLE_MM + 10, yMm: y + TEXT_MM / 2 })];
  });
  const widthMm = SAMPLE_MM + 14 + Math.max(...rows.map(([text]) => textWidth(text, TEXT_MM)));
  const heightMm = 9 + rows.length * pitch;
  return { widthMm, heightMm, marks: [{ pen: PENS.thin, lines: [frame(0, 0, widthMm, heightMm)] }, ...marks] };
}
