import { lettered, wrapText } from '../../drawing/lettering.ts';
import { type Mark, shifted } from '../../drawing/page.ts';
import type { PrintedPage } from '../../drawing/pdf.ts';
import type { Unit } from '../../units.ts';
import { CAUTIONS } from '../../workshop/cautions.ts';
import { type Block, legend } from '../board/blocks.ts';
import type { PaperFrame } from './grid.ts';
import { type Strip, stripMarks } from './strips.ts';

const TEXT_MM = 3.5;
const PITCH = 1.5;
const TEXT_WIDE_MM = 170;

/** Legend, how to use what was printed, and the cautions, one under the other. */
export function legendBlock(unit: Unit, howTo: string, pages = false): Block {
  const lines = legend(unit, { pages });
  const rows = [
    ...wrapText(howTo, TEXT_MM, TEXT_WIDE_MM),
    '',
    ...wrapText(`${CAUTIONS[0]} ${CAUTIONS[1]}`, TEXT_MM, TEXT_WIDE_MM),
  ];
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
export function legendPage(frame: PaperFrame, strip: Strip, howTo: string): PrintedPage {
  const { widthMm, heightMm, trueMm, leftMm, topMm } = frame;
  return {
    widthMm,
    heightMm,
    trueMm,
    title: strip.name,
    description: strip.name,
    bookmarks: [{ level: 1, title: 'key' }],
    groups: [
      { id: 'legend', marks: shifted(legendBlock(strip.unit, howTo).marks, leftMm, topMm + 4) },
      { id: 'strips', marks: stripMarks(frame, strip) },
    ],
  };
}
