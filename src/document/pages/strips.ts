import { fitText, lettered } from '../../drawing/lettering.ts';
import { type Group, type Mark, openLine, shifted } from '../../drawing/page.ts';
import type { PrintedPage } from '../../drawing/pdf.ts';
import { PENS } from '../../drawing/pen.ts';
import type { Unit } from '../../units.ts';
import { checkBar, PRINT_TRUE, standing } from '../board/blocks.ts';
import type { PaperFrame } from './grid.ts';

/** The nominal height next to 14 pt, whose capitals are 3.3 to 3.6 mm high. */
const TEXT_MM = 3.5;
/** The key page has the whole of it; this strip is trimmed off before the pages are taped, and on A4 has room for no more. */
const PAGE_CAUTION = 'Shape only: see cautions.';

/** What is said at the head of a page. */
export interface Strip {
  /** Which page it is: of its pattern, of the file, of which revision. */
  readonly name: string;
  readonly job: string;
  readonly unit: Unit;
}

/** A page of paper with its strips. `more`: what is not as the strip says. */
export function stripPage(
  frame: PaperFrame,
  strip: Strip,
  groups: readonly Group[],
  more: Partial<Pick<PrintedPage, 'title' | 'description' | 'bookmarks' | 'panes'>>,
): PrintedPage {
  const { widthMm, heightMm, trueMm } = frame;
  return {
    widthMm,
    heightMm,
    trueMm,
    title: strip.name,
    description: strip.name,
    ...more,
    groups: [...groups, { id: 'strips', marks: stripMarks(frame, strip) }],
  };
}

/** What stands in the strips of a page: its name, the job, check bars both ways, scale and caution; and marks to trim by. */
function stripMarks({ widthMm, marginMm, leftMm, topMm }: PaperFrame, { name, job, unit }: Strip): Mark[] {
  const bar = checkBar(unit);
  const barLeftMm = leftMm + 4;
  const beside = barLeftMm + bar.widthMm + 4;
  const row = (text: string, xMm: number, yMm: number) =>
    lettered(fitText(text, TEXT_MM, widthMm - marginMm - xMm), { heightMm: TEXT_MM, xMm, yMm });
  const corner = [openLine(leftMm, topMm - 8, leftMm, topMm), openLine(leftMm - 7, topMm, leftMm, topMm)];
  return [
    row(name, leftMm, marginMm + 4.5),
    row(`${PRINT_TRUE} Lynchet: ${job}`, leftMm, marginMm + 10),
    row(PAGE_CAUTION, beside, topMm - 3),
    { pen: PENS.thin, title: 'trim here', lines: corner },
    ...shifted(bar.marks, barLeftMm, topMm - bar.heightMm - 0.5),
    ...shifted(standing(bar).marks, marginMm - 0.5, topMm + 4),
  ];
}
