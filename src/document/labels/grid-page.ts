import { CAPITAL, cutToWidth, MM_IN_PT, type SetText, setWidthMm } from '../../drawing/face.ts';
import { frame, type Mark, openLine } from '../../drawing/page.ts';
import type { PrintedPage } from '../../drawing/pdf.ts';
import { PENS } from '../../drawing/pen.ts';
import type { Label } from './label.ts';

/** Labels on paper: so many rows and columns between equal margins, as packets of stickers say it. Millimetres. */
export interface LabelGrid {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly rows: number;
  readonly columns: number;
  /** Above the first row as below the last, before the first column as after the last. */
  readonly top: number;
  readonly left: number;
  /** Gaps between columns and between rows. */
  readonly across: number;
  readonly down: number;
  readonly outlines: boolean;
}

/** Size of one label. */
export const placesOn = ({ widthMm, heightMm, rows, columns, top, left, across, down }: LabelGrid) => ({
  widthMm: (widthMm - 2 * left - (columns - 1) * across) / columns,
  heightMm: (heightMm - 2 * top - (rows - 1) * down) / rows,
});

/** Inside a label's edge: printers shift a sheet by a millimetre or two. */
const PAD_MM = 2.5;

/** A page of labels, row by row, from the place `first` on; `words` stand above the labels and the caution below them, where the margin has room. */
export function labelPage(
  labels: readonly Label[],
  first: number,
  grid: LabelGrid,
  words: string,
  caution: string,
): PrintedPage {
  const size = placesOn(grid);
  const texts: SetText[] = [];
  const marks: Mark[] = [];
  labels.forEach((label, i) => {
    const place = first + i;
    const x = grid.left + (place % grid.columns) * (size.widthMm + grid.across);
    const y = grid.top + Math.floor(place / grid.columns) * (size.heightMm + grid.down);
    if (grid.outlines) marks.push({ pen: PENS.thin, lines: [frame(x, y, x + size.widthMm, y + size.heightMm)] });
    const drawn = drawLabel(label, x + PAD_MM, y + PAD_MM, size.widthMm - 2 * PAD_MM, size.heightMm - 2 * PAD_MM);
    texts.push(...drawn.texts);
    marks.push(...drawn.marks);
  });
  if (grid.top >= EDGE_ROOM_MM) {
    const xMm = Math.max(grid.left, 8);
    const row = (said: string, yMm: number): SetText => {
      const text = cutToWidth(said, EDGE_PT, 'regular', grid.widthMm - 2 * xMm);
      return { text, sizePt: EDGE_PT, weight: 'regular', xMm, yMm };
    };
    texts.push(row(words, grid.top - 3), row(caution, grid.heightMm - grid.top + 4.5));
  }
  return {
    widthMm: grid.widthMm,
    heightMm: grid.heightMm,
    title: words,
    description: words,
    groups: [{ id: 'labels', marks }],
    texts,
    bookmarks: [{ level: 1, title: `${labels[0].name} to ${labels[labels.length - 1].name}` }],
  };
}

const EDGE_PT = 8;
const EDGE_ROOM_MM = 8;

/** The name as large as fits, a line under it so that 6 and 9 differ; the arrow on the right; rows as far as there is room. */
function drawLabel({ name, rows, arrow }: Label, x: number, y: number, widthMm: number, heightMm: number) {
  const arrowMm = Math.min(0.34 * widthMm, 24);
  const leftMm = widthMm - arrowMm - 2;
  const tallest = (0.42 * heightMm) / (CAPITAL * MM_IN_PT);
  const widest = leftMm / setWidthMm(name, 1, 'bold');
  const namePt = Math.min(tallest, widest);
  const nameMm = CAPITAL * namePt * MM_IN_PT;
  const texts: SetText[] = [{ text: name, sizePt: namePt, weight: 'bold', xMm: x, yMm: y + nameMm }];
  const under = y + nameMm + 1;
  const marks: Mark[] = [
    {
      pen: PENS.cut,
      title: 'under the name',
      lines: [openLine(x, under, x + setWidthMm(name, namePt, 'bold'), under)],
    },
  ];
  const rowPt = Math.max(6.5, Math.min(11, (heightMm - nameMm - 2) / (rows.length * 1.25 * MM_IN_PT)));
  const pitchMm = 1.25 * rowPt * MM_IN_PT;
  rows.forEach((row, i) => {
    const yMm = under + 0.6 + (i + 0.85) * pitchMm;
    if (yMm > y + heightMm) return;
    texts.push({
      text: cutToWidth(row, rowPt, 'regular', i === 0 ? leftMm : widthMm),
      sizePt: rowPt,
      weight: 'regular',
      xMm: x,
      yMm,
    });
  });
  const wordPt = Math.min(10, (0.24 * heightMm) / MM_IN_PT);
  const word = cutToWidth(arrow.word, wordPt, 'bold', arrowMm);
  const middle = x + widthMm - arrowMm / 2;
  const wordMm = CAPITAL * wordPt * MM_IN_PT;
  texts.push({
    text: word,
    sizePt: wordPt,
    weight: 'bold',
    xMm: middle - setWidthMm(word, wordPt, 'bold') / 2,
    yMm: y + wordMm,
  });
  const [high, low] = [y + wordMm + 1.5, y + Math.max(wordMm + 6, 0.55 * heightMm)];
  const [tip, barbs] = arrow.isUp ? [high, high + 2.4] : [low, low - 2.4];
  marks.push({
    pen: PENS.cut,
    title: arrow.isUp ? 'up' : 'to the front',
    lines: [openLine(middle, high, middle, low), openLine(middle - 2, barbs, middle, tip, middle + 2, barbs)],
  });
  return { texts, marks };
}
