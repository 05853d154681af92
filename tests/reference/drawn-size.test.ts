/**
 * Drawn size, measured in the pixels of other programs: a renderer of SVG (resvg), a browser (Chromium) and a reader of
 * PDF (pdf.js, in the tests of pages-pdf). One inch is 25.4 mm and 96 CSS pixels (CSS Values and Units, absolute lengths).
 */
import { existsSync } from 'node:fs';
import { Resvg } from '@resvg/resvg-js';
import { decode } from 'fast-png';
import { chromium } from 'playwright-core';
import { beforeAll, describe, expect, test } from 'vitest';
import { boardSvg } from '../../src/document/board-svg.ts';
import type { OutputFile } from '../../src/model/plan.ts';
import { walkNow } from '../../src/walk.ts';
import { readSvg } from '../help/read-svg.ts';
import { smallPlan } from '../help/small-plan.ts';

const CHROMIUM = '/usr/bin/chromium';
const PX_IN_MM = 96 / 25.4;

let svg: string;
/** Where the lying check bar starts and ends, millimetres on the board. */
let bar: readonly [ax: number, ay: number, bx: number, by: number];
beforeAll(() => {
  const context = { facts: {}, tell: () => {}, random: () => 0.5 };
  const work = boardSvg.run(smallPlan(), { scale: 1 }, context) as Generator<number, readonly OutputFile[], never>;
  svg = walkNow(work)[1].body as string;
  const [lyingBar] = readSvg(svg).paths.filter(({ title }) => title === 'check bar');
  bar = [...lyingBar.lines[0].points] as unknown as typeof bar;
});

/** First and last dark column of a picture along a row, near a stretch that is expected. */
function darkRun(
  picture: { width: number; channels: number; data: ArrayLike<number> },
  y: number,
  from: number,
  to: number,
) {
  const { width, channels, data } = picture;
  const dark = (x: number) => data[(Math.round(y) * width + x) * channels] < 128;
  let first = Math.round((from + to) / 2);
  let last = first;
  while (dark(first - 1)) first--;
  while (dark(last + 1)) last++;
  return [first, last + 1] as const;
}

describe('a bar of 100 mm', () => {
  test('is drawn 500 pixels long at 5 pixels a millimetre', () => {
    const [ax, ay, bx] = bar;
    const scale = 5;
    const { root } = readSvg(svg);
    const widthMm = Number(root.width.replace('mm', ''));
    const rendered = new Resvg(svg, { background: 'white', fitTo: { mode: 'width', value: widthMm * scale } }).render();
    expect(rendered.width).toBe(widthMm * scale);
    const picture = { width: rendered.width, channels: 4, data: rendered.pixels };
    const [first, last] = darkRun(picture, ay * scale, ax * scale, bx * scale);
    // The ends of the bar are crossed by lines half of 0.35 mm wide.
    expect(last - first).toBeGreaterThan(500);
    expect(last - first).toBeLessThan(500 + 0.35 * scale + 2);
    expect(Math.abs((first + last) / 2 - ((ax + bx) / 2) * scale)).toBeLessThan(1);
  });

  test.skipIf(!existsSync(CHROMIUM))(
    'is drawn true in a browser, which lays the file out in its own millimetres (skipped where /usr/bin/chromium is missing)',
    async () => {
      const browser = await chromium.launch({ executablePath: CHROMIUM, args: ['--no-sandbox'] });
      try {
        const page = await browser.newPage({ viewport: { width: 3400, height: 2500 } });
        await page.setContent(`<body style="margin:0;background:white">${svg.replace(/<\?xml.*\?>/, '')}</body>`);
        const laidOut = await page.evaluate(() => {
          const root = document.querySelector('svg') as SVGSVGElement;
          const box = root.getBoundingClientRect();
          const cut = root.getElementById('cut-2A') as SVGPathElement;
          return { width: box.width, height: box.height, cutLength: cut.getTotalLength() };
        });
        expect(laidOut.width).toBeCloseTo(830 * PX_IN_MM, 1);
        expect(laidOut.height).toBeCloseTo(610 * PX_IN_MM, 1);
        const [cut] = readSvg(svg).paths.filter(({ id }) => id === 'cut-2A');
        expect(cut.lines).toHaveLength(1);
        expect(laidOut.cutLength).toBeCloseTo(perimeter(cut.lines[0].points), 1);
        const picture = decode(await page.screenshot({ type: 'png' }));
        const [ax, ay, bx] = bar.map((mm) => mm * PX_IN_MM);
        const [first, last] = darkRun(picture, ay - 0.5, ax, bx);
        // 100 mm are 377.95 pixels; the crossing lines add 1.3.
        expect(last - first).toBeGreaterThan(100 * PX_IN_MM - 1);
        expect(last - first).toBeLessThan(100 * PX_IN_MM + 3);
      } finally {
        await browser.close();
      }
    },
  );
});

const perimeter = (points: Float64Array): number => {
  let length = 0;
  for (let i = 0, j = points.length - 2; i < points.length; j = i, i += 2) {
    length += Math.hypot(points[i] - points[j], points[i + 1] - points[j + 1]);
  }
  return length;
};
