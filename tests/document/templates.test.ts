/** What goes on paper besides A4 pages of boards, read back by an independent reader. */
import { describe, expect, test } from 'vitest';
import { gridPdf } from '../../src/document/grid-pdf.ts';
import { pagesPdf } from '../../src/document/pages-pdf.ts';
import { pieceSvg } from '../../src/document/piece-svg.ts';
import { rollPdf } from '../../src/document/roll-pdf.ts';
import type { Finding } from '../../src/findings.ts';
import { ringLength } from '../../src/geometry/ring.ts';
import { makeKit } from '../../src/job/kit.ts';
import type { OutputFile, Plan } from '../../src/model/plan.ts';
import { revision } from '../../src/model/revision.ts';
import { walkNow } from '../../src/walk.ts';
import { CAUTIONS } from '../../src/workshop/cautions.ts';
import { type PdfPage, readPdf } from '../help/read-pdf.ts';
import { lineLength, readSvg } from '../help/read-svg.ts';
import { smallPlan } from '../help/small-plan.ts';

const plan = smallPlan();

async function make(plugin: typeof pagesPdf | typeof rollPdf | typeof gridPdf, written = {}, of: Plan = plan) {
  const findings: Finding[] = [];
  const context = { facts: {}, tell: (finding: Finding) => void findings.push(finding), random: () => 0.5 };
  const options = plugin.options(makeKit('mm')).parse(written) as never;
  const [file] = (await plugin.run(of, options, context)) as readonly OutputFile[];
  return { file, findings, pdf: await readPdf(file.body as Uint8Array) };
}

/** Length of all cut lines of a page, which are the wide continuous ones. */
const cutMm = ({ paths }: PdfPage) =>
  paths
    .filter(({ widthMm, dashed }) => Math.abs(widthMm - 0.7) < 1e-3 && !dashed)
    .reduce((sum, { lines }) => sum + lines.reduce((total, line) => total + lineLength(line), 0), 0);

const outlinesMm = plan.pieces.reduce(
  (sum, { region }) => sum + region.reduce((all, ring) => all + ringLength(ring), 0),
  0,
);

describe('pages', () => {
  // ISO 216: A0 841 × 1189, A1 594 × 841, B2 500 × 707, B4 250 × 353. ASME Y14.1, in: ANSI D 22 × 34. From memory, in:
  // ARCH D 24 × 36, ARCH E1 30 × 42, Legal 8.5 × 14. 1 in = 25.4 mm.
  test.each([
    ['A0', 841, 1189],
    ['A1', 594, 841],
    ['A5', 148, 210],
    ['B2', 500, 707],
    ['B4', 250, 353],
    ['Legal', 215.9, 355.6],
    ['ANSI D', 558.8, 863.6],
    ['ARCH D', 609.6, 914.4],
    ['ARCH E1', 762, 1066.8],
    [[330, 483], 330, 483],
  ])('%s is as large as it is said', async (paper, short, long) => {
    const { pdf } = await make(pagesPdf, { paper }, smallPlan({ boards: [plan.boards[1]] }));
    for (const { widthPt, heightPt } of pdf.pages) {
      const sides = [widthPt, heightPt].map((pt) => (pt * 25.4) / 72).sort((a, b) => a - b);
      expect(sides[0]).toBeCloseTo(short, 2);
      expect(sides[1]).toBeCloseTo(long, 2);
    }
  });

  test('carry job, revision, page x of y; boards are bookmarked; text can be found', async () => {
    const { pdf } = await make(pagesPdf);
    const print = revision(plan);
    const count = pdf.pages.length;
    pdf.pages.forEach(({ texts }, i) => {
      const said = texts.map(({ text }) => text).join(' ');
      expect(said).toContain(`page ${i + 1} of ${count}, revision ${print}`);
      expect(said).toContain('Lynchet: Gull ledge');
    });
    expect(pdf.bookmarks.map(({ title }) => title)).toEqual(['board 1 of 2', 'board 2 of 2']);
    expect(pdf.info.Title).toBe('Gull ledge: templates');
    expect(String(pdf.info.Subject)).toContain(print);
  });

  test('a printer whose bars came out 98 and 101 mm long gets them longer and shorter by as much', async () => {
    const { pdf } = await make(pagesPdf, { bars: [98, 101] });
    for (const { widthPt, heightPt, paths } of pdf.pages) {
      expect(Math.min(widthPt, heightPt)).toBeCloseTo(595.276, 2);
      const bars = paths.flatMap(({ lines }) => lines.filter(({ points }) => points.length === 4));
      const sizes = bars.map(({ points: [ax, ay, bx, by] }) => [Math.abs(bx - ax), Math.abs(by - ay)]);
      expect(sizes.some(([w, h]) => Math.abs((w * 98) / 100 - 100) < 0.01 && h < 0.01)).toBe(true);
      expect(sizes.some(([w, h]) => Math.abs((h * 101) / 100 - 100) < 0.01 && w < 0.01)).toBe(true);
    }
  });

  test('pieces turned for fewest take no more pages, and all of each outline is on them', async () => {
    const [plain, turned] = await Promise.all([
      make(pagesPdf, { of: 'pieces' }),
      make(pagesPdf, { of: 'pieces', turn: true }),
    ]);
    expect(turned.pdf.pages.length).toBeLessThanOrEqual(plain.pdf.pages.length);
    for (const { pdf } of [plain, turned]) {
      const drawn = pdf.pages.reduce((sum, page) => sum + cutMm(page), 0);
      // Overlaps are drawn on both pages, and the legend of each key has a line.
      expect(drawn).toBeGreaterThan(outlinesMm);
      expect(drawn).toBeLessThan(1.3 * outlinesMm);
    }
  });
});

test('a piece alone has its outline whole, at true size or smaller, to a hundredth of a millimetre', () => {
  for (const scale of [1, 10]) {
    const context = { facts: {}, tell: () => {}, random: () => 0.5 };
    const files = walkNow(pieceSvg.run(plan, { scale }, context) as Generator<number, readonly OutputFile[], never>);
    expect(files.map(({ path }) => path).sort()).toEqual(plan.pieces.map(({ name }) => `piece-${name}.svg`));
    for (const { path, body } of files) {
      const { root, paths, title } = readSvg(body as string);
      const piece = plan.pieces.find(({ name }) => path === `piece-${name}.svg`) as Plan['pieces'][number];
      const cut = paths.filter(({ group }) => group === 'cut');
      expect(cut.map(({ id }) => id)).toEqual([`cut-${piece.name}`]);
      cut[0].lines.forEach((line, i) => {
        // Corners are rounded to a micrometre each; what that adds up to grows with their number.
        expect(Math.abs(lineLength(line) - ringLength(piece.region[i]) / scale)).toBeLessThan(
          0.01 + 0.001 * line.points.length,
        );
      });
      expect(root.viewBox).toBe(`0 0 ${Number.parseFloat(root.width)} ${Number.parseFloat(root.height)}`);
      expect(title).toContain(piece.name);
      const said = paths.map(({ title }) => title);
      if (scale === 10) expect(said).toContain('SCALE 1:10, for card 5 mm thick');
    }
  }
});

describe('a roll', () => {
  test.each([610, 841, 914, 1067, 720.5])(
    '%d mm wide has pages as wide, none longer than readers hold, and every outline whole',
    async (width) => {
      const { pdf, findings } = await make(rollPdf, { width });
      for (const { widthPt, heightPt } of pdf.pages) {
        expect((widthPt * 25.4) / 72).toBeCloseTo(width, 2);
        // 14,400 points (from memory).
        expect(heightPt).toBeLessThanOrEqual(14_400);
      }
      const drawn = pdf.pages.reduce((sum, page) => sum + cutMm(page), 0);
      expect(drawn).toBeGreaterThan(outlinesMm);
      expect(drawn).toBeLessThan(1.1 * outlinesMm);
      expect(findings.map(({ code }) => code)).toContain('document/roll');
    },
  );

  test('as long as readers hold: pieces that fill a page with wide margins stay on it', async () => {
    const boards = [1, 2, 3, 4, 5, 6, 7, 8].flatMap((k) =>
      plan.boards.map((board) => ({ ...board, number: 2 * k + board.number - 2 })),
    );
    const { pdf } = await make(rollPdf, { width: 1067, longest: 5080, margin: 50 }, smallPlan({ boards }));
    const longs = pdf.pages.map(({ heightPt }) => (heightPt * 25.4) / 72);
    // Fuller than a margin, so that a margin too many would show. 14,400 points (from memory) are 5080 mm.
    expect(Math.max(...longs)).toBeGreaterThan(5080 - 50);
    expect(Math.max(...longs)).toBeLessThanOrEqual(5080);
  });

  test('of strips alone begins with a page of legend, how to plot and cautions, and counts it', async () => {
    const { pdf, file, findings } = await make(rollPdf, { of: 'boards', width: 400 });
    const { pages, bookmarks } = pdf;
    const said = pages.map(({ texts }) => texts.map(({ text }) => text).join(' '));
    expect(said[0]).toContain('cut ON this line');
    expect(said[0]).toContain('page joint');
    expect(said[0]).toContain('Plot at true size on the roll');
    expect(said[0]).toContain(CAUTIONS[0].slice(0, 40));
    expect(bookmarks.map(({ title }) => title)).toEqual(['key', 'board 1 of 2', 'board 2 of 2']);
    expect(file.pages).toBe(pages.length);
    said.forEach((words, i) => {
      expect(words).toContain(`page ${i + 1} of ${pages.length}, revision ${revision(plan)}`);
    });
    expect(findings.find(({ code }) => code === 'document/roll')?.message).toContain(`on ${pages.length} pages`);
    // Nothing of it lies over the paper's edge.
    for (const { yMm } of pages[0].texts) expect(yMm).toBeLessThan((pages[0].heightPt * 25.4) / 72 - 10);
  });

  test('boards that are wider than it come as strips', async () => {
    const { pdf } = await make(rollPdf, { of: 'boards', width: 914 });
    expect(pdf.pages.length).toBeGreaterThan(2);
    expect(pdf.bookmarks.length).toBeGreaterThan(0);
  });
});

test('a squaring-up sheet shows each board under a grid numbered from its lower left corner', async () => {
  const { pdf } = await make(gridPdf, { square: 100 });
  expect(pdf.pages).toHaveLength(3);
  const said = pdf.pages[0].texts.map(({ text }) => text);
  expect(said.filter((text) => text === '24').length).toBeGreaterThanOrEqual(2);
  expect(said.join(' ')).toContain('Squares of 100 mm');
  const lower = pdf.pages[0].texts.filter(({ text }) => text === '0').sort((a, b) => b.yMm - a.yMm);
  expect(lower[0].xMm).toBeLessThan(60);
});

test('words that single strokes lack are told, and nothing fails', async () => {
  for (const name of ['山の丘', 'تل اللعب', '🏔 hill', 'Æbeløğı']) {
    const { findings, pdf } = await make(pagesPdf, {}, smallPlan({ name }));
    expect(findings.some(({ code }) => code === 'document/letters')).toBe(!name.startsWith('Æ'));
    expect(pdf.info.Title).toContain(name.split(' ')[0].slice(0, 2));
  }
});
