import { fitText, lettered, textWidth, wrapText } from '../../drawing/lettering.ts';
import { frame, type Line, type Mark, openLine, turnedUp } from '../../drawing/page.ts';
import { PENS } from '../../drawing/pen.ts';
import type { LayoutBoard } from '../../model/layout.ts';
import type { Plan } from '../../model/plan.ts';
import { lengthText, thicknessText, type Unit } from '../../units.ts';
import { CAUTIONS } from '../../workshop/cautions.ts';

/** A finished drawing with a size, its top left corner at (0, 0), to be put where there is room. */
export interface Block {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly marks: readonly Mark[];
}

/** A block after a quarter turn, reading upward. */
export const standing = ({ widthMm, heightMm, marks }: Block): Block => ({
  widthMm: heightMm,
  heightMm: widthMm,
  marks: turnedUp(marks, widthMm),
});

export const PRINT_TRUE = 'Print at 100 %, no fit to page.';

const BAR_MM = 100;
const BAR_HEIGHT_MM = 8;
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
      lettered(text, { heightMm: TEXT_MM, xMm: BAR_MM / 4 + 6, yMm: y - 1.5, align: 'middle' }),
    ],
  };
}

/** What a title block says of its board. */
export interface BoardWords {
  readonly plan: Plan;
  /** As it is bought, whatever the drawing is made smaller by. */
  readonly board: LayoutBoard;
  /** Names in the order of cutting, each with the number of its cut. */
  readonly cuts: readonly (readonly [number: number, piece: string])[];
  readonly revision: string;
  /** 1, or 10 for 1:10. */
  readonly scale: number;
}

/**
 * Title block in a frame of the width that ISO 7200 gives one (180 mm): job, board, foam, what to check before tracing, pieces to
 * tick as they are cut, revision, a box for the cutter's initials; `short` leaves off what other papers say too.
 */
export function titleBlock(words: BoardWords, { short = false } = {}): Block {
  const { plan, board, cuts, revision, scale } = words;
  const widthMm = 180;
  const inner = widthMm - 8;
  const size = boardSizeText(plan, board);
  const thick = thicknessText(board.thicknessMm, plan.unit);
  const [wide, deep] = board.sizeMm;
  const diagonal = lengthText(Math.sqrt(wide * wide + deep * deep), plan.unit);
  const wrapped = (text: string) => wrapText(text, TEXT_MM, inner).map((line) => [line, TEXT_MM] as const);
  const check = board.rings
    ? `Check before tracing: a kept offcut in a box of ${size}, ${thick} thick.`
    : `Check before tracing: ${size}, ${thick} thick; both diagonals ${diagonal}. If not, stop.`;
  const rows: (readonly [string, number])[] = [
    [`board ${board.number} of ${plan.boards.length}`, LARGE_MM],
    [plan.name, 5],
    [`${board.stock}, ${size} × ${thick} as measured`, TEXT_MM],
    ...(scale === 1 ? [] : [[scaleText(plan, board, scale), TEXT_MM] as const]),
    ...(short
      ? []
      : [
          ...wrapped(check),
          ...wrapped('Measure from the lower and the left edge. Cut ON the line: it is the finished edge.'),
        ]),
    ...(short ? [] : wrapped(`${PRINT_TRUE} ${CAUTIONS[0]}`)),
  ];
  let y = 2;
  const marks: Mark[] = rows.map(([text, heightMm]) => {
    y += 1.6 * heightMm;
    return lettered(fitText(text, heightMm, inner), { heightMm, xMm: 4, yMm: y });
  });
  const ticks = tickRows(cuts, 4, y + 3, inner);
  y = ticks.bottomMm + 4;
  const initials = `Lynchet, revision ${revision}. Cut by`;
  marks.push(...ticks.marks, lettered(initials, { heightMm: TEXT_MM, xMm: 4, yMm: y + 6.5 }));
  const box = 8 + textWidth(initials, TEXT_MM);
  marks.push({ pen: PENS.thin, title: 'initials', lines: [frame(box, y, box + 30, y + 10)] });
  const heightMm = y + 14;
  return { widthMm, heightMm, marks: [{ pen: PENS.thin, lines: [frame(0, 0, widthMm, heightMm)] }, ...marks] };
}

/** Size of a board in the job's unit, without its thickness. */
const boardSizeText = ({ unit }: Plan, { sizeMm }: LayoutBoard): string =>
  sizeMm.map((mm) => lengthText(mm, unit)).join(' × ');

/** What a drawing made smaller is, and of what the maquette is built. */
export const scaleText = ({ unit }: Plan, { thicknessMm }: { readonly thicknessMm: number }, scale: number): string =>
  `SCALE 1:${scale}, for card ${thicknessText(thicknessMm / scale, unit)} thick`;

/** Numbers, empty boxes and names, as many in a row as have room. */
function tickRows(cuts: BoardWords['cuts'], left: number, top: number, widthMm: number) {
  const marks: Mark[] = [];
  const boxes: Line[] = [];
  const height = 5;
  let x = left;
  let y = top + height;
  for (const [number, piece] of cuts) {
    const wide = [textWidth(`${number}`, TEXT_MM), 6, textWidth(piece, height)];
    const total = wide[0] + 2 + wide[1] + 2 + wide[2] + 6;
    if (x > left && x + total > left + widthMm) {
      x = left;
      y += 9;
    }
    boxes.push(frame(x + wide[0] + 2, y - 5.5, x + wide[0] + 8, y + 0.5));
    marks.push(
      lettered(`${number}`, { heightMm: TEXT_MM, xMm: x, yMm: y }),
      lettered(piece, { heightMm: height, xMm: x + wide[0] + 10, yMm: y }),
    );
    x += total;
  }
  if (boxes.length > 0) marks.push({ pen: PENS.thin, title: 'to tick', lines: boxes });
  return { marks, bottomMm: cuts.length > 0 ? y : top };
}
