import { type PrintedPage, pagesToPdf } from '../drawing/pdf.ts';
import type { Finding } from '../findings.ts';
import type { OutputFile, Plan } from '../model/plan.ts';
import { revision } from '../model/revision.ts';
import { definePlugin } from '../plugin.ts';
import { CAUTIONS } from '../workshop/cautions.ts';
import { MINUTES_A_PAGE, timeText } from '../workshop/taping.ts';
import { PRINT_TRUE, scaleText } from './board/blocks.ts';
import { toldOfDrawings } from './board/crowded.ts';
import { drawnNow } from './board/drawn-boards.ts';
import { scaleOption } from './board/scale-option.ts';
import { fewestPages } from './pages/fewest.ts';
import { keptPages, type PageGrid, type PaperFrame, pageName, paperFrame } from './pages/grid.ts';
import { keyPage } from './pages/key-page.ts';
import { paperOption, paperText, sidesOf } from './pages/papers.ts';
import { OF, type Pattern, patternsOf } from './pages/pattern.ts';
import { templatePage } from './pages/template-page.ts';

const WAYS = ['auto', 'portrait', 'landscape'] as const;

/** A pattern and how it is cut up. */
interface CutUp {
  readonly pattern: Pattern;
  readonly grid: PageGrid;
}

/**
 * Boards or pieces at true size, cut up on pages of ordinary paper that are taped together: one PDF, for each of them a key page
 * and then its pages row by row, which is the order of taping. Says how many pages that is and how long taping takes.
 */
export const pagesPdf = definePlugin({
  api: 1,
  stage: 'document',
  name: 'pages-pdf',
  summary: 'full-size templates on ordinary paper, to tape together: one PDF',
  options: (kit) => {
    const { z, length } = kit;
    return z.strictObject({
      of: z.enum(OF).default('boards').describe('whole boards, or each piece alone'),
      paper: paperOption(kit),
      margin: length({ least: 5, most: 30 }).default(10).describe('what the printer leaves white at each edge'),
      overlap: length({ least: 5, most: 40 }).default(10).describe('how far neighbouring pages show the same'),
      way: z.enum(WAYS).default('auto').describe('how the paper lies; auto takes the way with fewer pages'),
      turn: z.boolean().default(false).describe('turn and move each pattern whole for the fewest pages'),
      bars: z
        .tuple([length({ least: 90, most: 110 }), length({ least: 90, most: 110 })])
        .default([100, 100])
        .describe('how long the 100 mm bars came out of your printer, across and down: corrects the next print'),
      minutes: z.number().min(0).max(60).default(MINUTES_A_PAGE).describe('to trim and tape a page'),
      scale: scaleOption(kit),
    });
  },
  async run(plan, options, { tell }): Promise<readonly OutputFile[]> {
    if (plan.boards.length === 0) return [];
    const { paper, margin, overlap, way, scale, minutes } = options;
    const drawings = drawnNow(plan, scale);
    const frameOf = (lying: boolean) => paperFrame(sidesOf(paper), lying, { margin, overlap, barsMm: options.bars });
    const frames = (way === 'auto' ? ['portrait', 'landscape'] : [way]).map((way) => frameOf(way === 'landscape'));
    const cutUp = patternsOf(plan, drawings, options.of).map((pattern): CutUp => {
      return { pattern, grid: fewestPages(pattern, frames, options.turn) };
    });
    const templates = cutUp.reduce((sum, { grid }) => sum + grid.count, 0);
    const blank = cutUp.reduce((sum, { grid }) => sum + grid.columns * grid.rows, 0) - templates;
    const pages = templates + cutUp.length;
    const said = scale === 1 ? PRINT_TRUE : `${scaleText(plan, plan.boards[0], scale)}. ${PRINT_TRUE}`;
    const print = `revision ${revision(plan)}`;
    const subject = `Lynchet, ${print}. ${said} ${CAUTIONS[0]}`;
    const body = await pagesToPdf(
      `${plan.name}: templates`,
      subject,
      allPages(plan, print, cutUp, pages, scale, frameOf),
    );
    tell(paperNeeded(templates, cutUp.length, blank, paperText(paper), minutes));
    toldOfDrawings(plan, drawings).forEach(tell);
    return [{ path: 'pages.pdf', mediaType: 'application/pdf', body, pages, tapingMinutes: templates * minutes }];
  },
});

const paperNeeded = (templates: number, keys: number, blank: number, paper: string, minutes: number): Finding => ({
  level: 'note',
  code: 'document/pages',
  message: `pages.pdf prints on ${templates + keys} pages of ${paper}: ${templates} of templates and ${keys} of keys; ${blank} blank ones are left out. Trimming and taping take about ${timeText(templates * minutes)} at ${minutes} minutes a page.`,
  fix: 'Print one page and measure its bars first. A print shop can plot the boards from board-svg whole.',
  where: {},
});

/** For each pattern its key, then its pages, row by row. */
function* allPages(
  plan: Plan,
  print: string,
  cutUp: readonly CutUp[],
  pages: number,
  scale: number,
  frameOf: (lying: boolean) => PaperFrame,
): Generator<PrintedPage> {
  const job = scale === 1 ? plan.name : `1:${scale}, ${plan.name}`;
  let number = 0;
  for (const { pattern, grid } of cutUp) {
    const { box, name, groups } = pattern;
    const strip = (which: string) => ({
      name: `${name}, ${which}, page ${number} of ${pages}, ${print}`,
      job,
      unit: plan.unit,
    });
    number++;
    yield keyPage(pattern, grid, frameOf(box[2] - box[0] > box[3] - box[1]), strip(`key to ${grid.count}`));
    let place = 0;
    for (const { row, column } of keptPages(grid)) {
      place++;
      number++;
      yield templatePage(groups, grid, row, column, strip(`${pageName(row, column)} (${place} of ${grid.count})`));
    }
  }
}
