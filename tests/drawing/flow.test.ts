import { describe, expect, test } from 'vitest';
import { setLines } from '../../src/drawing/face.ts';
import type { Block } from '../../src/drawing/flow/block.ts';
import { flowHtml } from '../../src/drawing/flow/flow-html.ts';
import { flowPdf, type Sheet } from '../../src/drawing/flow/flow-pdf.ts';
import { frame } from '../../src/drawing/page.ts';
import { PENS } from '../../src/drawing/pen.ts';
import { readSheets } from '../help/read-sheet.ts';

const sheet = (changes: Partial<Sheet> = {}): Sheet => ({
  title: 'Work list',
  job: 'Gull ledge',
  revision: 'K4R7W3',
  caution: 'Shape only. Local codes and licensed practice go first.',
  widthMm: 210,
  heightMm: 297,
  textPt: 11,
  ...changes,
});

const drawing = {
  widthMm: 400,
  heightMm: 130,
  title: 'a frame',
  description: 'a frame',
  groups: [{ id: 'frame', marks: [{ pen: PENS.cut, lines: [frame(1, 1, 399, 129)] }] }],
};

/** One of everything, with a table of many rows, words longer than a line and a row taller than a page. */
const blocks: readonly Block[] = [
  { kind: 'heading', level: 1, text: 'Layer 3 of 12' },
  { kind: 'text', text: 'Lay the stack dry first. '.repeat(30) },
  { kind: 'text', text: `One word of ${'unbroken'.repeat(40)} letters`, strong: true },
  { kind: 'list', items: ['first of two', 'second '.repeat(50)], ticks: true },
  { kind: 'list', items: ['lay', 'glue'], numbered: true },
  { kind: 'values', rows: [{ label: 'speed', value: '5 mm/s', assumed: true, source: 'common practice' }] },
  { kind: 'figure', drawing, caption: 'A figure wider than the page' },
  { kind: 'caution', text: 'Stop if a piece rocks. '.repeat(12) },
  { kind: 'heading', level: 2, text: 'Pieces' },
  {
    kind: 'table',
    head: ['piece', 'what it says', 'length (mm)'],
    right: [2],
    ticks: true,
    rows: Array.from({ length: 90 }, (_, i) => [`p${i}`, i === 41 ? 'much to say '.repeat(600) : 'short', `${i * 37}`]),
    note: 'All counted.',
  },
  { kind: 'page' },
  { kind: 'heading', level: 3, text: 'Last page' },
];

describe('sheets that flow over pages', () => {
  test.each([
    ['A4', 210, 297, 11],
    ['A4 lying', 297, 210, 11],
    ['Letter', 215.9, 279.4, 14],
    ['A6', 105, 148, 9],
  ])(
    '%s: all words are there in order, within the edges, on numbered pages with job, revision and caution',
    async (_, widthMm, heightMm, textPt) => {
      const { bytes, pages, missing } = await flowPdf(blocks, sheet({ widthMm, heightMm, textPt }));
      const read = await readSheets(bytes);
      expect(missing).toBe(0);
      expect(read.pages).toHaveLength(pages);
      expect(read.title).toBe('Work list: Gull ledge');
      expect(read.language).toBe('en');
      expect(read.bookmarks[0]).toBe('Layer 3 of 12');
      read.pages.forEach((page, i) => {
        expect(page.widthMm).toBeCloseTo(widthMm, 2);
        expect(page.heightMm).toBeCloseTo(heightMm, 2);
        expect(page.words).toContain(`page ${i + 1} of ${pages}`);
        expect(page.words).toContain('revision K4R7W3');
        expect(page.words).toContain('Lynchet');
        expect(page.words).toContain('licensed practice');
        for (const { xMm, yMm, widthMm: wide, sizePt } of page.lines) {
          expect(xMm).toBeGreaterThanOrEqual(18 - 0.01);
          expect(xMm + wide).toBeLessThanOrEqual(widthMm - 11 + 0.01);
          expect(yMm).toBeGreaterThan(11);
          expect(yMm + 0.3 * sizePt * (25.4 / 72)).toBeLessThan(heightMm - 11 + 0.1);
        }
      });
      const all = read.pages.map(({ words }) => words).join(' ');
      expect(all.match(/dry first/g)).toHaveLength(30);
      expect(all.match(/much to say/g)?.length).toBeGreaterThan(550);
      const places = Array.from({ length: 90 }, (_, i) => all.indexOf(` p${i} `));
      expect(places.every((place, i) => place > 0 && (i === 0 || place > places[i - 1]))).toBe(true);
      expect(read.pages[pages - 1].words).toContain('Last page');
    },
  );

  test('lines of text do not lie on one another', async () => {
    const { bytes } = await flowPdf(blocks, sheet());
    for (const { lines } of (await readSheets(bytes)).pages) {
      const boxes = lines.map(({ xMm, yMm, widthMm, sizePt }) => [xMm, yMm - sizePt * 0.23, xMm + widthMm, yMm]);
      for (let i = 0; i < boxes.length; i++) {
        for (let j = 0; j < i; j++) {
          const [a, b] = [boxes[i], boxes[j]];
          const meet = a[0] < b[2] - 0.05 && b[0] < a[2] - 0.05 && a[1] < b[3] - 0.05 && b[1] < a[3] - 0.05;
          expect(meet, `${lines[i].text} on ${lines[j].text}`).toBe(false);
        }
      }
    }
  });

  test('every page of a table has its head', async () => {
    const { bytes } = await flowPdf([blocks[9]], sheet());
    const { pages } = await readSheets(bytes);
    expect(pages.length).toBeGreaterThan(2);
    for (const { words } of pages) expect(words).toContain('what it says');
  });

  test('a number keeps its unit, and inches keep their fraction, on one line', () => {
    const text = 'weighs 0.069 kg and 14 3/8 in, over 2.4 m² of floor';
    for (let widthMm = 24; widthMm < 90; widthMm += 3) {
      const lines = setLines(text, 10, 'regular', widthMm);
      expect(lines.join(' ')).toBe(text);
      for (const bound of ['0.069 kg', '14 3/8 in', '2.4 m²']) {
        expect(
          lines.some((line) => line.includes(bound)),
          `${bound} in ${widthMm} mm`,
        ).toBe(true);
      }
    }
    expect(setLines(text, 10, 'regular', 24).length).toBeGreaterThan(3);
  });

  test('no heading stands alone at the foot of a page', async () => {
    for (let rows = 32; rows < 39; rows++) {
      const table = Array.from({ length: rows }, (_, i) => [`r${i}`]);
      const made = await flowPdf(
        [
          { kind: 'table', head: ['row'], rows: table },
          { kind: 'heading', level: 1, text: 'Headed' },
          { kind: 'text', text: 'What it heads' },
        ],
        sheet(),
      );
      const { pages } = await readSheets(made.bytes);
      const page = pages.find(({ words }) => words.includes('Headed'));
      expect(page?.words).toContain('What it heads');
    }
  });

  test('letters that the face lacks are counted, and each page says what an open box is', async () => {
    const { bytes, missing } = await flowPdf([{ kind: 'text', text: 'Łódź, Ærø, 砂丘 🙂' }], sheet({ job: 'حديقة' }));
    // Two of Japanese, one picture, five of Arabic; Latin letters with marks are all there.
    expect(missing).toBe(8);
    const [{ words }] = (await readSheets(bytes)).pages;
    expect(words.replace(/ /g, '')).toContain('Łódź,Ærø');
    expect(words).toContain('an open box is a letter that this lettering lacks');
  });

  test('the same blocks give the same bytes', async () => {
    const [a, b] = [await flowPdf(blocks.slice(0, 9), sheet()), await flowPdf(blocks.slice(0, 9), sheet())];
    expect(a.bytes).toEqual(b.bytes);
  });

  test('as HTML: markup escaped, heads and boxes named for those who listen', () => {
    const html = flowHtml([...blocks, { kind: 'text', text: '<b> & "c"' }]);
    expect(html).toContain('&lt;b&gt; &amp; &quot;c&quot;');
    expect(html).toContain('<th scope="col" class="n">length (mm)</th>');
    expect(html).toContain('aria-label="to fill in"');
    expect(html).toContain('<svg');
    expect(html).not.toContain('<?xml');
    expect(html.match(/<tr>/g)).toHaveLength(92);
  });
});
