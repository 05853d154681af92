import { lettered, textWidth } from '../../drawing/lettering.ts';
import { frame, type Line, type Mark, openLine } from '../../drawing/page.ts';
import { PENS, type Pen } from '../../drawing/pen.ts';
import { GLUE_BACK_MM } from '../../model/piece.ts';
import type { Unit } from '../../units.ts';
import type { Block } from './blocks.ts';
import { matchPicture, nickPicture, pinLines } from './on-board.ts';

const TEXT_MM = 3.5;
/** Length of a line in the legend: a long-dash double-dot line shows its pattern twice. */
const SAMPLE_MM = 44;

/** A kind of line or mark: how it looks and what it means, in words, and a sample of it. */
interface LegendRow {
  readonly look: string;
  readonly text: string;
  readonly draw: (y: number) => Mark;
}

const sample =
  (pen: Pen) =>
  (y: number): Mark => ({ pen, lines: [openLine(4, y, 4 + SAMPLE_MM, y)] });
const picture =
  (linesAt: (x: number, y: number) => readonly Line[]) =>
  (y: number): Mark => ({ pen: PENS.thin, lines: linesAt(4 + SAMPLE_MM / 2, y) });

/** What each kind of line and mark on a board means. */
export const legendRows = (unit: Unit): readonly LegendRow[] => [
  { look: 'wide line', text: 'cut ON this line: it is the finished edge', draw: sample(PENS.cut) },
  { look: 'wide long dashes and dots', text: 'entry slit: cut to reach an inner outline', draw: sample(PENS.slit) },
  { look: 'wide dashes', text: 'cut through waste: run-in, or board broken down', draw: sample(PENS.waste) },
  { look: 'narrow dashes', text: 'the next layer stands here', draw: sample(PENS.placing) },
  {
    look: 'narrow dots',
    text: `glue inside, ${GLUE_BACK_MM} mm back where foam is carved`,
    draw: sample(PENS.glue),
  },
  {
    look: 'wide dots',
    text: 'of a rock: carve to this line; depths at top/underside in mm',
    draw: sample(PENS.carved),
  },
  {
    look: 'crossed circle',
    text: `pin through the layers, its length in ${unit} beside it`,
    draw: picture((x, y) => pinLines([x, y])),
  },
  {
    look: 'short line across a cut',
    text: 'match mark: carry it over the cut edge',
    draw: picture(matchPicture),
  },
  {
    look: 'notch in a cut',
    text: 'nick to cut: one to the front, two on its right',
    draw: picture(nickPicture),
  },
  {
    look: 'narrow long dashes and two dots',
    text: 'edge of the board, and of its trim',
    draw: sample(PENS.edge),
  },
  { look: 'narrow long dashes and dots', text: 'remainder to keep', draw: sample(PENS.offcut) },
];

const PAGE_JOINT: LegendRow = {
  look: 'narrow line',
  text: 'page joint: trim here, lay on the next',
  draw: sample(PENS.thin),
};

/** The legend in a frame. `pages`: with the lines that only paper pages have. */
export function legend(unit: Unit, { pages = false } = {}): Block {
  const rows = [...legendRows(unit), ...(pages ? [PAGE_JOINT] : [])];
  const pitch = 7;
  const marks: Mark[] = rows.flatMap(({ text, draw }, i) => {
    const y = 8 + i * pitch;
    return [draw(y), lettered(text, { heightMm: TEXT_MM, xMm: SAMPLE_MM + 10, yMm: y + TEXT_MM / 2 })];
  });
  const widthMm = SAMPLE_MM + 14 + Math.max(...rows.map(({ text }) => textWidth(text, TEXT_MM)));
  const heightMm = 9 + rows.length * pitch;
  return { widthMm, heightMm, marks: [{ pen: PENS.thin, lines: [frame(0, 0, widthMm, heightMm)] }, ...marks] };
}
