import { expect, test } from 'vitest';
import { openLine, type Page } from '../../src/drawing/page.ts';
import { pagesToPdf } from '../../src/drawing/pdf.ts';
import { PENS } from '../../src/drawing/pen.ts';
import { readPdf } from '../help/read-pdf.ts';

const page = (widthMm: number, heightMm: number): Page => ({
  widthMm,
  heightMm,
  title: '',
  description: '',
  groups: [
    {
      id: 'a',
      marks: [
        { pen: PENS.cut, lines: [openLine(12.5, 20, 112.5, 20), openLine(7, 30, 7, 130, 40, 140)] },
        { pen: PENS.placing, lines: [{ points: new Float64Array([50, 50, 61, 52, 55, 70]), closed: true }] },
        { pen: PENS.thin, lines: [] },
      ],
    },
  ],
});

test('pages have their size, and strokes lie where they were drawn, y down', async () => {
  const { pages } = await readPdf(await pagesToPdf('t', 's', [page(210, 297), page(431.8, 279.4)]));
  // 1 in = 72 pt = 25.4 mm: A4 is 595.276 × 841.890 pt; 17 × 11 in are 1224 × 792 pt (computed).
  expect(pages.map(({ widthPt }) => widthPt)[0]).toBeCloseTo(595.276, 3);
  expect(pages[0].heightPt).toBeCloseTo(841.89, 2);
  expect([pages[1].widthPt, pages[1].heightPt]).toEqual([1224, 792]);
  for (const { paths, fonts } of pages) {
    expect(fonts).toBe(0);
    expect(paths.map(({ dashed }) => dashed)).toEqual([false, true]);
    expect(paths[0].widthMm).toBeCloseTo(0.7, 4);
    expect(paths[1].widthMm).toBeCloseTo(0.35, 4);
    const [bar, bent] = paths[0].lines;
    expectNear(bar.points, [12.5, 20, 112.5, 20]);
    expectNear(bent.points, [7, 30, 7, 130, 40, 140]);
    expect(paths[1].lines[0].closed).toBe(true);
  }
});

function expectNear(points: Float64Array, wanted: readonly number[]) {
  expect(points).toHaveLength(wanted.length);
  for (const [i, value] of points.entries()) expect(value).toBeCloseTo(wanted[i], 3);
}

test('the same pages give the same bytes, with no typeface and no day of their own', async () => {
  const make = () => pagesToPdf('Gull ledge', 'templates', [page(297, 420)]);
  const first = await make();
  await new Promise((resolve) => setTimeout(resolve, 1100));
  expect(await make()).toEqual(first);
  const text = new TextDecoder('latin1').decode(first);
  expect(text.startsWith('%PDF-1.7')).toBe(true);
  expect(text).not.toMatch(/\/(Font|FontFile\d?|BaseFont)\b(?! *<<\s*>>)/);
  expect(text).not.toContain('Helvetica');
});

test('a title with marks of a language, surrogates and markup stays a title', async () => {
  const { info, pages } = await readPdf(await pagesToPdf('a"><b> & 🏔 \ud800\u0000 )(\\ é', '', [page(210, 297)]));
  expect(info.Title).toBe('a b 🏔 )(\\ é');
  expect(pages).toHaveLength(1);
});

test('no pages is no error of the writer: the file is whole', async () => {
  const text = new TextDecoder('latin1').decode(await pagesToPdf('t', 's', []));
  expect(text.trimEnd().endsWith('%%EOF')).toBe(true);
});
