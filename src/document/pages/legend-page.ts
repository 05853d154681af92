import { lettered, wrapText } from '../../drawing/lettering.ts';
import { type Mark, shifted } from '../../drawing/page.ts';
import type { PrintedPage } from '../../drawing/pdf.ts';
import type { Unit } from '../../units.ts';
import { CAUTIONS } from '../../workshop/cautions.ts';
import type { Block } from '../board/blocks.ts';
import { legend } from '../board/legend.ts';
import type { PaperFrame } from './grid.ts';
import { type Strip, stripPage } from './strips.ts';

const TEXT_MM = 3.5;
const PITCH = 1.5;
const TEXT_WIDE_MM = 170;
/** Air over the block on a page of its own. */
const BLOCK_TOP_MM = 4;

/** How to use what was printed, then the cautions, broken into rows of this width. */
export const howToRows = (howTo: string, widthMm: number): string[] => [
  ...wrapText(howTo, TEXT_MM, widthMm),
  '',
  ...wrapText(`${CAUTIONS[0]} ${CAUTIONS[1]}`, TEXT_MM, widthMm),
];

/** Legend, how to use what was printed, and the cautions, one under the other. */
export function legendBlock(unit: Unit, howTo: string, pages = false): Block {
  const lines = legend(unit, { pages });
  const rows = howToRows(howTo, TEXT_WIDE_MM);
  const text: Mark[] = rows.map((row, i) =>
    lettered(row, { heightMm: TEXT_MM, xMm: 0, yMm: lines.heightMm + 4 + (i + 1) * PITCH * TEXT_MM }),
  );
  return {
    widthMm: Math.max(lines.widthMm, TEXT_WIDE_MM),
    heightMm: lines.heightMm + 6 + rows.length * PITCH * TEXT_MM,
    marks: [...lines.marks, ...text],
  };
}

/** A page of its own for it. */
export const legendPage = (frame: PaperFrame, strip: Strip, howTo: string, pages = false): PrintedPage => {
  const { marks } = legendBlock(strip.unit, howTo, pages);
  const legend = { id: 'legend', marks: shifted(marks, frame.leftMm, frame.topMm + BLOCK_TOP_MM) };
  return stripPage(frame, strip, [legend], { bookmarks: [{ level: 1, title: 'key' }] });
};
