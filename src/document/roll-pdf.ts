import { fitText, lettered } from '../drawing/lettering.ts';
import { type Mark, shifted, turnedUp } from '../drawing/page.ts';
import { type PrintedPage, pagesToPdf } from '../drawing/pdf.ts';
import type { Finding } from '../findings.ts';
import type { OutputFile, Plan } from '../model/plan.ts';
import { revision } from '../model/revision.ts';
import { definePlugin } from '../plugin.ts';
import { numberText } from '../units.ts';
import { CAUTIONS } from '../workshop/cautions.ts';
import { checkBar, PRINT_TRUE, scaleText } from './board/blocks.ts';
import { toldOfDrawings } from './board/crowded.ts';
import { drawnNow } from './board/drawn-boards.ts';
import { scaleOption } from './board/scale-option.ts';
import { isKept, type PageGrid, pageGrid, pageName, paperFrame } from './pages/grid.ts';
import { legendBlock } from './pages/legend-page.ts';
import { LONGEST_MM } from './pages/papers.ts';
import { OF, type Pattern, patternsOf, strokesOf } from './pages/pattern.ts';
import { templatePage } from './pages/template-page.ts';
import { laidOnRoll, narrowest, type OnRoll } from './roll/laid.ts';

const HEAD_TEXT_MM = 7;
const GUTTER_MM = 10;
const HOW_TO =
  'Plot at true size on the roll, no fit to page, and measure the bars both ways before the rest is plotted. Paper moves with damp: ' +
  'measure again before you trace.';

/**
 * Templates for a plotter: pieces packed on a roll so that little paper is used, or boards whole, on long pages that readers of PDFs still
 * hold. What is wider than the roll is cut into strips that are taped like pages.
 */
export const rollPdf = definePlugin({
  api: 1,
  stage: 'document',
  name: 'roll-pdf',
  summary: 'full-size templates for a plotter, pieces packed on the roll: one PDF',
  options: (kit) => {
    const { z, length } = kit;
    return z.strictObject({
      of: z.enum(OF).default('pieces').describe('each piece alone, packed, or whole boards'),
      width: length({ least: 400, most: 2000 })
        .default(914)
        .describe('of the roll: 610, 841, 914, 1067 mm or any other'),
      margin: length({ least: 3, most: 50 }).default(10).describe('what the plotter leaves white on either side'),
      longest: length({ least: 600, most: LONGEST_MM }).default(5000).describe('page; readers hold 5080 mm'),
      overlap: length({ least: 5, most: 60 }).default(15).describe('of strips of what is wider than the roll'),
      scale: scaleOption(kit),
    });
  },
  async run(plan, { of, width, margin, longest, overlap, scale }, { tell }): Promise<readonly OutputFile[]> {
    if (plan.boards.length === 0) return [];
    const drawings = drawnNow(plan, scale);
    const head = headOf(plan, scale);
    const room = [width - 2 * margin, longest - 2 * margin - head.heightMm] as const;
    const { pages: laid, tooWide } = laidOnRoll(patternsOf(plan, drawings, of), ...room);
    const strips = tooWide.map((pattern) => ({ pattern, grid: inStrips(pattern, width, longest, margin, overlap) }));
    const count = laid.length + strips.reduce((sum, { grid }) => sum + grid.count, 0);
    const pages = [
      ...rollPages(plan, laid, head, { width, margin, count }),
      ...stripPages(plan, strips, laid.length, count),
    ];
    const subject = `Lynchet, revision ${revision(plan)}. ${PRINT_TRUE} ${CAUTIONS[0]}`;
    const body = await pagesToPdf(`${plan.name}: templates for a roll`, subject, pages);
    tell(rollNeeded(pages, strips.length, width));
    toldOfDrawings(plan, drawings).forEach(tell);
    return [{ path: 'roll.pdf', mediaType: 'application/pdf', body, pages: count }];
  },
});

const rollNeeded = (pages: readonly PrintedPage[], taped: number, width: number): Finding => ({
  level: 'note',
  code: 'document/roll',
  message: `roll.pdf takes ${numberText(pages.reduce((sum, { heightMm }) => sum + heightMm, 0) / 1000, 1)} m of a roll ${numberText(width, 1)} mm wide, on ${pages.length} pages${taped > 0 ? `; ${taped} patterns are wider than the roll and are taped from strips` : ''}.`,
  fix: 'Plot the first page and measure its bars before the rest.',
  where: {},
});

/** What stands at the head of each page, without what changes from page to page. */
function headOf(plan: Plan, scale: number): { readonly marks: readonly Mark[]; readonly heightMm: number } {
  const words = legendBlock(
    plan.unit,
    scale === 1 ? HOW_TO : `${scaleText(plan, plan.boards[0], scale)}. ${HOW_TO}`,
    true,
  );
  const bar = checkBar(plan.unit);
  const top = 2 * HEAD_TEXT_MM;
  const right = words.widthMm + GUTTER_MM;
  const marks = [
    ...shifted(words.marks, 0, top),
    ...shifted(bar.marks, right, top),
    ...shifted(turnedUp(bar.marks, bar.widthMm), right, top + bar.heightMm + 4),
  ];
  return { marks, heightMm: top + Math.max(words.heightMm, bar.widthMm + bar.heightMm) + GUTTER_MM };
}

interface Roll {
  readonly width: number;
  readonly margin: number;
  /** Pages of the whole file. */
  readonly count: number;
}

function rollPages(
  plan: Plan,
  laid: readonly (readonly OnRoll[])[],
  head: ReturnType<typeof headOf>,
  { width, margin, count }: Roll,
): PrintedPage[] {
  return laid.map((all, i): PrintedPage => {
    const topMm = margin + head.heightMm;
    const heightMm = Math.ceil(topMm + Math.max(...all.map(({ atMm, sizeMm }) => atMm[1] + sizeMm[1])) + 2 * margin);
    const name = `${plan.name}, page ${i + 1} of ${count}, revision ${revision(plan)}`;
    const title = fitText(name, HEAD_TEXT_MM, width - 2 * margin);
    return {
      widthMm: width,
      heightMm,
      title: name,
      description: name,
      bookmarks: [
        { level: 1, title: `page ${i + 1}: ${all.map(({ pattern }) => pattern.name.split(',')[0]).join(', ')}` },
      ],
      panes: all.map(({ pattern, turnDeg, atMm, fromMm, sizeMm }) => {
        const [left, top] = [margin + atMm[0], topMm + atMm[1]];
        return {
          groups: pattern.groups,
          view: [left - PEN_MM, top - PEN_MM, left + sizeMm[0] + PEN_MM, top + sizeMm[1] + PEN_MM],
          turnDeg,
          xMm: left - fromMm[0],
          yMm: top - fromMm[1],
        };
      }),
      groups: [
        {
          id: 'head',
          marks: [
            lettered(title, { heightMm: HEAD_TEXT_MM, xMm: margin, yMm: margin + HEAD_TEXT_MM }),
            ...shifted(head.marks, margin, margin),
          ],
        },
      ],
    };
  });
}

/** Half the widest pen that a pattern is drawn with. */
const PEN_MM = 2;

/** A pattern cut into strips as wide as the roll, along its narrowest way. */
function inStrips(pattern: Pattern, width: number, longest: number, margin: number, overlap: number): PageGrid {
  const { turnDeg, fromMm, sizeMm } = narrowest(pattern);
  const options = { margin, overlap, barsMm: [100, 100] } as const;
  const whole = paperFrame([width, longest], false, options);
  const spare = whole.viewHeightMm - (sizeMm[1] + 2 * PEN_MM);
  const frame = spare > 0 ? paperFrame([width, longest - Math.floor(spare)], false, options) : whole;
  const box = [
    fromMm[0] - PEN_MM,
    fromMm[1] - PEN_MM,
    fromMm[0] + sizeMm[0] + PEN_MM,
    fromMm[1] + sizeMm[1] + PEN_MM,
  ] as const;
  const strokes = strokesOf(
    pattern.groups.flatMap(({ marks }) => [...marks]),
    turnDeg,
  );
  return pageGrid(frame, box, strokes, turnDeg);
}

function stripPages(
  plan: Plan,
  strips: readonly { readonly pattern: Pattern; readonly grid: PageGrid }[],
  before: number,
  count: number,
): PrintedPage[] {
  let number = before;
  return strips.flatMap(({ pattern: { name, groups }, grid }) => {
    const pages: PrintedPage[] = [];
    for (let row = 0; row < grid.rows; row++) {
      for (let column = 0; column < grid.columns; column++) {
        if (!isKept(grid, row, column)) continue;
        number++;
        const words = `${name}, ${pageName(row, column)} of ${grid.count}, page ${number} of ${count}, revision ${revision(plan)}`;
        const page = templatePage(groups, grid, row, column, { name: words, job: plan.name, unit: plan.unit });
        pages.push(pages.length > 0 ? page : { ...page, bookmarks: [{ level: 1, title: name }] });
      }
    }
    return pages;
  });
}
