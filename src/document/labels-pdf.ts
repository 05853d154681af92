import type { PrintedPage } from '../drawing/pdf.ts';
import { pagesToPdf } from '../drawing/pdf.ts';
import { refuse } from '../findings.ts';
import type { OutputFile } from '../model/plan.ts';
import { revision } from '../model/revision.ts';
import { definePlugin } from '../plugin.ts';
import { CAUTIONS } from '../workshop/cautions.ts';
import { boardOfPiece } from '../workshop/quantities.ts';
import { type LabelGrid, labelPage, placesOn } from './labels/grid-page.ts';
import { boxesTold, labelOf } from './labels/label.ts';
import { paperOption, sidesOf } from './pages/papers.ts';

/**
 * labels.pdf: a label for each piece, on sheets of stickers or to cut up and pin on: name, which of its layer, neighbours,
 * arrow to the front, bundle. A grid is rows × columns of paper with margins and gaps, as packets of stickers say it.
 */
export const labelsPdf = definePlugin({
  api: 1,
  stage: 'document',
  name: 'labels-pdf',
  summary: 'a label for each piece, on stickers or to pin on',
  options: (kit) => {
    const { z, length } = kit;
    return z.strictObject({
      paper: paperOption(kit),
      rows: z.number().int().min(1).max(30).default(7).describe('labels under one another'),
      columns: z.number().int().min(1).max(10).default(2).describe('labels side by side'),
      top: length({ least: 0, most: 100 }).default(15).describe('white above the first row'),
      left: length({ least: 0, most: 100 }).default(8).describe('white before the first column'),
      across: length({ least: 0, most: 50 }).default(2).describe('gap between two columns'),
      down: length({ least: 0, most: 50 }).default(0).describe('gap between two rows'),
      skip: z.number().int().min(0).max(299).default(0).describe('labels of the first sheet that are used up'),
      outlines: z.boolean().default(true).describe('whether their outlines are drawn, to cut along'),
    });
  },
  async run(plan, { paper, skip, ...said }, { tell }): Promise<readonly OutputFile[]> {
    if (plan.pieces.length === 0) return [];
    const [widthMm, heightMm] = sidesOf(paper);
    const grid: LabelGrid = { widthMm, heightMm, ...said };
    const size = placesOn(grid);
    if (size.widthMm < LEAST_MM[0] || size.heightMm < LEAST_MM[1]) tooSmall(size);
    const each = grid.rows * grid.columns;
    if (skip >= each) noneLeft(skip, each);
    const stamp = revision(plan);
    const boardOf = boardOfPiece(plan.boards);
    const labels = plan.pieces.map((piece) => labelOf(plan, piece, boardOf.get(piece.name), stamp));
    const count = Math.ceil((skip + labels.length) / each);
    const pages: PrintedPage[] = [];
    for (let i = 0; i < count; i++) {
      const from = Math.max(0, i * each - skip);
      const on = labels.slice(from, (i + 1) * each - skip);
      const words = `${plan.name}, labels, revision ${stamp}, page ${i + 1} of ${count}, made with Lynchet`;
      pages.push(labelPage(on, i === 0 ? skip : 0, grid, words, SHORT_CAUTION));
    }
    const body = await pagesToPdf(`Labels: ${plan.name}`, `revision ${stamp}. ${CAUTIONS[0]}`, pages);
    const boxes = boxesTold(plan.name, plan.facts.front.word, stamp);
    if (boxes) tell(boxes);
    return [{ path: 'labels.pdf', mediaType: 'application/pdf', body, pages: count }];
  },
});

/** The margin of a sheet of labels has room for no more. */
const SHORT_CAUTION =
  'Shape only: it proves nothing about people on it, fire or equipment. Local codes and licensed practice go first.';

/** A label under this holds no name that is read across a room. */
const LEAST_MM = [30, 14] as const;

function tooSmall({ widthMm, heightMm }: { widthMm: number; heightMm: number }): never {
  const size = `${Math.floor(widthMm)} × ${Math.floor(heightMm)} mm`;
  const message = `A label of this grid would be ${size}; the least is ${LEAST_MM.join(' × ')} mm.`;
  return refuse('document/labels', message, 'Say fewer rows or columns, or smaller margins and gaps.');
}

function noneLeft(skip: number, each: number): never {
  const message = `A page of this grid has ${each} labels: with ${skip} used up none of them is left.`;
  return refuse('document/labels-used', message, `Begin a new sheet with skip: 0, or say at most ${each - 1}.`);
}
