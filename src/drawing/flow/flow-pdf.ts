import { cutToWidth, DESCENT, MM_IN_PT, missingIn, readable, type SetText, setLines, setWidthMm } from '../face.ts';
import { type Mark, openLine, shifted } from '../page.ts';
import { type Bookmark, type PrintedPage, pagesToPdf } from '../pdf.ts';
import { PENS } from '../pen.ts';
import type { Block } from './block.ts';
import { baseMm, linesAt, pitchMm, type Sizes, type Strip, sizesOf } from './strip.ts';
import { type Body, stripsOf } from './strips.ts';

/** What stands on every page, so that printings are not mixed and nobody reads one page as the whole. */
export interface Sheet {
  readonly title: string;
  readonly job: string;
  readonly revision: string;
  /** One sentence of what the plan does not prove; it defers to local codes. */
  readonly caution: string;
  /** Of the paper as it lies. */
  readonly widthMm: number;
  readonly heightMm: number;
  /** At least 14 for what is read at arm's length. */
  readonly textPt: number;
}

export interface Flowed {
  readonly bytes: Uint8Array;
  readonly pages: number;
  /** How many characters no letter of the face stands for: they are open boxes, and each page says so. */
  readonly missing: number;
}

/** White at each edge: common printers leave 4 to 7 mm (makers' guides), and the left one is punched. */
const MARGIN_MM = 11;
const PUNCHED_MM = 18;

/** The room between head and foot of a page: what a figure that fills a page is drawn for. */
export function bodyOf(sheet: Sheet): Body {
  const widthMm = sheet.widthMm - MARGIN_MM - PUNCHED_MM;
  const { smallPt } = sizesOf(sheet.textPt);
  const feet = cautionLines(sheet, widthMm, smallPt).length + 2;
  return { widthMm, heightMm: sheet.heightMm - 2 * MARGIN_MM - HEAD_MM - feet * pitchMm(smallPt) - 2 };
}

const HEAD_MM = 9;

/** How much of a page's height some blocks take, millimetres: what is left may be drawn in. */
export function tallMm(blocks: readonly Block[], sheet: Sheet): number {
  const body = bodyOf(sheet);
  const strips = blocks.flatMap((block) => stripsOf(block, body, sizesOf(sheet.textPt)));
  return strips.reduce((sum, { beforeMm, heightMm }) => sum + beforeMm + heightMm, 0);
}

/** Flow blocks over pages: tables break with their head repeated, headings stay with what they head. */
export async function flowPdf(blocks: readonly Block[], sheet: Sheet): Promise<Flowed> {
  const sizes = sizesOf(sheet.textPt);
  const body = bodyOf(sheet);
  const pages = broken(
    blocks.flatMap((block) => stripsOf(block, body, sizes)),
    body,
  );
  const missing = missingIn(`${sheet.title}${sheet.job}${wordsOf(blocks)}`);
  const printed = pages.map((page, i) => printedPage(page, i, pages.length, missing > 0, sheet, sizes));
  const subject = `${sheet.job}, revision ${sheet.revision}. ${sheet.caution}`;
  const bytes = await pagesToPdf(`${sheet.title}: ${sheet.job}`, subject, printed);
  return { bytes, pages: pages.length, missing };
}

/** Strips on one page, each with its distance from the top of the body. */
type Filled = { readonly strip: Strip; readonly topMm: number }[];

/** Break strips over pages; those that must stand with the next move on together. */
function broken(strips: readonly Strip[], { heightMm }: Body): Filled[] {
  const pages: Filled[] = [[]];
  let down = 0;
  for (let i = 0; i < strips.length; ) {
    let end = i + 1;
    while (end < strips.length && strips[end - 1].keep && !strips[end].starts) end++;
    const group = strips.slice(i, end);
    const isFirst = down === 0;
    const needed = group.reduce(
      (sum, { beforeMm, heightMm }, n) => sum + (isFirst && n === 0 ? 0 : beforeMm) + heightMm,
      0,
    );
    if (!isFirst && (group[0].starts || down + needed > heightMm)) {
      pages.push([]);
      down = 0;
    }
    for (const strip of group) {
      if (down + strip.beforeMm + strip.heightMm > heightMm && down > 0) {
        pages.push([]);
        down = 0;
      }
      const page = pages[pages.length - 1];
      const placed = down === 0 && strip.head ? [strip.head, strip] : [strip];
      for (const each of placed) {
        if (down > 0) down += each.beforeMm;
        page.push({ strip: each, topMm: down });
        down += each.heightMm;
      }
    }
    i = end;
  }
  return pages;
}

function printedPage(
  filled: Filled,
  i: number,
  count: number,
  saysMissing: boolean,
  sheet: Sheet,
  { smallPt }: Sizes,
): PrintedPage {
  const topMm = MARGIN_MM + HEAD_MM;
  const texts: SetText[] = [];
  const marks: Mark[] = [];
  const bookmarks: Bookmark[] = [];
  for (const { strip, topMm: down } of filled) {
    for (const text of strip.texts) texts.push({ ...text, xMm: text.xMm + PUNCHED_MM, yMm: text.yMm + topMm + down });
    marks.push(...shifted(strip.marks, PUNCHED_MM, topMm + down));
    if (strip.bookmark) bookmarks.push(strip.bookmark);
  }
  const edges = edgesOf(i, count, saysMissing, sheet, smallPt);
  return {
    widthMm: sheet.widthMm,
    heightMm: sheet.heightMm,
    title: sheet.title,
    description: sheet.caution,
    groups: [{ id: 'sheet', marks: [...marks, ...edges.marks] }],
    texts: [...texts, ...edges.texts],
    bookmarks,
  };
}

/** Over the body: title, job and page; under it: the caution, the revision and what made it. */
function edgesOf(i: number, count: number, saysMissing: boolean, sheet: Sheet, smallPt: number) {
  const right = sheet.widthMm - MARGIN_MM;
  const widthMm = right - PUNCHED_MM;
  const ends = (
    left: string,
    rightText: string,
    sizePt: number,
    yMm: number,
    weight: 'regular' | 'bold',
  ): SetText[] => {
    const rightMm = setWidthMm(readable(rightText), sizePt, weight);
    return [
      { text: cutToWidth(left, sizePt, weight, widthMm - rightMm - 4), sizePt, weight, xMm: PUNCHED_MM, yMm },
      { text: readable(rightText), sizePt, weight, xMm: right - rightMm, yMm },
    ];
  };
  const headPt = smallPt + 2;
  const cautions = cautionLines(sheet, widthMm, smallPt);
  const footMm = sheet.heightMm - MARGIN_MM - DESCENT * smallPt * MM_IN_PT;
  const cautionMm = footMm - pitchMm(smallPt) - (cautions.length - 1) * pitchMm(smallPt) - baseMm(smallPt);
  const boxes = saysMissing ? '; an open box is a letter that this lettering lacks' : '';
  const ruleMm = MARGIN_MM + pitchMm(headPt) + 0.6;
  return {
    texts: [
      ...ends(`${sheet.title}: ${sheet.job}`, `page ${i + 1} of ${count}`, headPt, MARGIN_MM + baseMm(headPt), 'bold'),
      ...linesAt(cautions, smallPt, 'regular', PUNCHED_MM, cautionMm),
      ...ends(`made with Lynchet${boxes}`, `revision ${sheet.revision}`, smallPt, footMm, 'regular'),
    ],
    marks: [
      { pen: PENS.thin, lines: [openLine(PUNCHED_MM, ruleMm, right, ruleMm)] },
      { pen: PENS.thin, lines: [openLine(PUNCHED_MM, cautionMm - 0.8, right, cautionMm - 0.8)] },
    ],
  };
}

const cautionLines = ({ caution }: Sheet, widthMm: number, smallPt: number): string[] =>
  setLines(caution, smallPt, 'regular', widthMm);

/** Every word that blocks set in the face. */
function wordsOf(blocks: readonly Block[]): string {
  return blocks
    .flatMap((block): readonly string[] => {
      if (block.kind === 'list') return block.items;
      if (block.kind === 'table') return [...block.head, ...block.rows.flat(), block.note ?? ''];
      if (block.kind === 'values')
        return block.rows.flatMap(({ label, value, source }) => [label, value, source ?? '']);
      if (block.kind === 'figure') return [block.caption];
      return block.kind === 'page' ? [] : [block.text];
    })
    .join('');
}
