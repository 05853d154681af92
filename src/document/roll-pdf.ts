import { fitText, lettered } from '../drawing/lettering.ts';
import { shifted } from '../drawing/page.ts';
import { type PrintedPage, pagesToPdf } from '../drawing/pdf.ts';
import type { Finding } from '../findings.ts';
import type { OutputFile } from '../model/plan.ts';
import { revision } from '../model/revision.ts';
import { definePlugin } from '../plugin.ts';
import { numberText, type Unit } from '../units.ts';
import { CAUTIONS } from '../workshop/cautions.ts';
import { type Block, checkBar, PRINT_TRUE, scaleText, standing } from './board/blocks.ts';
import { toldOfDrawings } from './board/crowded.ts';
import { drawnNow } from './board/drawn-boards.ts';
import { scaleOption } from './board/scale-option.ts';
import { legendBlock } from './pages/legend-page.ts';
import { LONGEST_MM } from './pages/papers.ts';
import { OF, patternsOf } from './pages/pattern.ts';
import type { Strip } from './pages/strips.ts';
import { laidOnRoll, type OnRoll } from './roll/laid.ts';
import { inStrips, keyOfStrips, PEN_MM, stripPages } from './roll/strips.ts';

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
    const howTo = scale === 1 ? HOW_TO : `${scaleText(plan, plan.boards[0], scale)}. ${HOW_TO}`;
    const print = `revision ${revision(plan)}`;
    const head = headOf(plan.unit, howTo);
    const room = [width - 2 * margin, longest - 2 * margin - head.heightMm] as const;
    const { pages: laid, tooWide } = laidOnRoll(patternsOf(plan, drawings, of), ...room);
    const strips = tooWide.map((wide) => ({
      pattern: wide.pattern,
      grid: inStrips(wide, width, longest, margin, overlap),
    }));
    // Strips have no head: where nothing else is plotted, what it says stands on a page of its own before them.
    const keys = laid.length === 0 && strips.length > 0 ? 1 : 0;
    const count = laid.length + keys + strips.reduce((sum, { grid }) => sum + grid.count, 0);
    const strip = (name: string, page: number): Strip => ({
      name: `${name}, page ${page} of ${count}, ${print}`,
      job: plan.name,
      unit: plan.unit,
    });
    const pages = [
      ...rollPages(laid, head, { width, margin, nameOf: (page) => strip(plan.name, page).name }),
      ...(keys > 0 ? [keyOfStrips(strip('key', 1), howTo, width, margin)] : []),
      ...stripPages(strips, laid.length + keys, strip),
    ];
    const subject = `Lynchet, ${print}. ${PRINT_TRUE} ${CAUTIONS[0]}`;
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
function headOf(unit: Unit, howTo: string): Head {
  const words = legendBlock(unit, howTo, true);
  const bar = checkBar(unit);
  const top = 2 * HEAD_TEXT_MM;
  const right = words.widthMm + GUTTER_MM;
  const marks = [
    ...shifted(words.marks, 0, top),
    ...shifted(bar.marks, right, top),
    ...shifted(standing(bar).marks, right, top + bar.heightMm + 4),
  ];
  return { marks, heightMm: top + Math.max(words.heightMm, bar.widthMm + bar.heightMm) + GUTTER_MM };
}

type Head = Pick<Block, 'marks' | 'heightMm'>;

interface Roll {
  readonly width: number;
  readonly margin: number;
  /** What a page is called: which one of the file, of which revision. */
  readonly nameOf: (page: number) => string;
}

function rollPages(laid: readonly (readonly OnRoll[])[], head: Head, { width, margin, nameOf }: Roll): PrintedPage[] {
  return laid.map((all, i): PrintedPage => {
    const topMm = margin + head.heightMm;
    const heightMm = Math.ceil(topMm + Math.max(...all.map(({ atMm, sizeMm }) => atMm[1] + sizeMm[1])) + margin);
    const name = nameOf(i + 1);
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
