import type { Page } from '../drawing/page.ts';
import { pagesToPdf } from '../drawing/pdf.ts';
import type { Finding } from '../findings.ts';
import type { OutputFile, Plan } from '../model/plan.ts';
import { definePlugin } from '../plugin.ts';
import { MINUTES_A_PAGE, timeText } from '../workshop/taping.ts';
import { PRINT_TRUE } from './board/blocks.ts';
import { crowdedNote } from './board/crowded.ts';
import { type BoardDrawing, drawBoard } from './board/draw-board.ts';
import { isKept, PAPERS, type PageGrid, type Paper, pageGrid, pageName, paperFrame } from './pages/grid.ts';
import { keyPage } from './pages/key-page.ts';
import { templatePage } from './pages/template-page.ts';

const WAYS = ['auto', 'portrait', 'landscape'] as const;

interface PaperChoice {
  readonly paper: Paper;
  readonly margin: number;
  readonly overlap: number;
  readonly way: (typeof WAYS)[number];
}

/** A page is left out when nothing of these is on it: the edge of the board alone is nothing to trace. */
const TRACED = ['cut', 'slit', 'mark', 'label'];

/**
 * The boards at true size, cut up on pages of ordinary paper that are taped together: one PDF, for each board a key page
 * and then its pages row by row. Says how many pages that is and how long taping takes.
 */
export const pagesPdf = definePlugin({
  api: 1,
  stage: 'document',
  name: 'pages-pdf',
  summary: 'full-size templates on ordinary paper, to tape together: one PDF',
  options: ({ z, length }) =>
    z.strictObject({
      paper: z
        .enum(Object.keys(PAPERS) as [Paper, ...Paper[]])
        .default('A4')
        .describe('size of the paper'),
      margin: length({ least: 5, most: 30 }).default(10).describe('what the printer leaves white at each edge'),
      overlap: length({ least: 5, most: 40 }).default(10).describe('how far neighbouring pages show the same'),
      way: z.enum(WAYS).default('auto').describe('how the paper lies; auto takes the way with fewer pages'),
    }),
  async run(plan, options, { tell }): Promise<readonly OutputFile[]> {
    if (plan.boards.length === 0) return [];
    const drawn = plan.boards.map((board) => {
      const drawing = drawBoard(plan, board, { blocks: false });
      return { board, drawing, grid: fewestPages(drawing, options) };
    });
    function* pages(): Generator<Page> {
      for (const { board, drawing, grid } of drawn) {
        const name = `board ${board.number} of ${plan.boards.length}`;
        yield* boardPages(name, plan, drawing, grid, options);
      }
    }
    const body = await pagesToPdf(`${plan.name}: templates`, PRINT_TRUE, pages());
    const templates = drawn.reduce((sum, { grid }) => sum + grid.count, 0);
    const blank = drawn.reduce((sum, { grid }) => sum + grid.columns * grid.rows, 0) - templates;
    tell(paperNeeded(templates, drawn.length, blank, options.paper));
    const crowd = crowdedNote(drawn.map(({ drawing }) => drawing));
    if (crowd) tell(crowd);
    const tapingMinutes = templates * MINUTES_A_PAGE;
    return [{ path: 'pages.pdf', mediaType: 'application/pdf', body, pages: templates + drawn.length, tapingMinutes }];
  },
});

const paperNeeded = (templates: number, keys: number, blank: number, paper: Paper): Finding => ({
  level: 'note',
  code: 'document/pages',
  message: `pages.pdf prints on ${templates + keys} pages of ${paper}: ${templates} of templates and ${keys} of keys; ${blank} blank ones are left out. Trimming and taping take about ${timeText(templates * MINUTES_A_PAGE)} at ${MINUTES_A_PAGE} minutes a page.`,
  fix: 'Print one page and measure its bars first. A print shop can plot the boards from board-svg whole.',
  where: {},
});

/** The key of a board, then its pages, row by row. */
function* boardPages(
  board: string,
  { name, unit }: Plan,
  drawing: BoardDrawing,
  grid: PageGrid,
  { paper, margin, overlap }: PaperChoice,
): Generator<Page> {
  const isLying = drawing.page.widthMm > drawing.page.heightMm;
  const keyFrame = paperFrame(paper, isLying, margin, overlap);
  yield keyPage(drawing, grid, keyFrame, `${board}, key to ${grid.count} pages: ${name}`, unit);
  let place = 0;
  for (let row = 0; row < grid.rows; row++) {
    for (let column = 0; column < grid.columns; column++) {
      if (!isKept(grid, row, column)) continue;
      place++;
      const words = `${board}, page ${pageName(row, column)} (${place} of ${grid.count}): ${name}`;
      yield templatePage(drawing.page.groups, grid, row, column, words, unit);
    }
  }
}

/** The grid on paper that lies the way with fewer pages; standing when both need as many. */
function fewestPages({ page }: BoardDrawing, { paper, margin, overlap, way }: PaperChoice): PageGrid {
  const marks = page.groups.filter(({ id }) => TRACED.includes(id)).flatMap(({ marks }) => marks);
  const [first, ...others] = (way === 'auto' ? ['portrait', 'landscape'] : [way]).map((way) =>
    pageGrid(paperFrame(paper, way === 'landscape', margin, overlap), page.widthMm, page.heightMm, marks),
  );
  return others.reduce((best, grid) => (grid.count < best.count ? grid : best), first);
}
