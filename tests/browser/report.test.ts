/** The report of the lead sample, opened as a builder opens it: from the disk, on a desk and on a phone. */
import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { type Browser, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Plan } from '../../src/model/plan.ts';
import { run } from '../../src/run.ts';
import { loadSample } from '../help/jobs.ts';

const CHROMIUM = process.env.CHROMIUM ?? '/usr/bin/chromium';
const isThere = existsSync(CHROMIUM);
const ARGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];
const WHY = isThere ? '' : ` (skipped: no browser at ${CHROMIUM}; say where one is with CHROMIUM=…)`;

describe.skipIf(!isThere)(`the report of moor-bank in Chromium${WHY}`, () => {
  let folder: string;
  let browser: Browser;
  let plan: Plan;
  let html: string;
  let url: string;
  beforeAll(async () => {
    const { job, files } = loadSample('moor-bank', [
      { path: 'nest.boards.effort', value: '4000' },
      { path: 'documents', value: '[report]' },
    ]);
    const made = await run(job, files);
    plan = made.plan;
    html = made.files.find(({ path }) => path === 'report.html')?.body as string;
    folder = mkdtempSync(join(tmpdir(), 'lynchet-report-'));
    const file = join(folder, 'report.html');
    writeFileSync(file, html);
    url = pathToFileURL(file).href;
    browser = await chromium.launch({ executablePath: CHROMIUM, args: ARGS });
  });
  afterAll(async () => {
    await browser?.close();
    rmSync(folder, { recursive: true, force: true });
  });

  async function opened(width: number, check: (page: Page, asked: readonly string[]) => Promise<void>) {
    const page = await browser.newPage({ viewport: { width, height: 900 } });
    try {
      const trouble: string[] = [];
      const asked: string[] = [];
      page.on('console', (message) => trouble.push(`${message.type()}: ${message.text()}`));
      page.on('pageerror', (error) => trouble.push(error.message));
      page.on('requestfailed', (request) => trouble.push(`failed: ${request.url().slice(0, 80)}`));
      page.on('request', (request) => asked.push(request.url()));
      await page.goto(url, { waitUntil: 'load' });
      await check(page, asked);
      expect(trouble).toEqual([]);
    } finally {
      await page.close();
    }
  }

  test('weighs little enough to be sent by mail', () => {
    expect(html.length).toBeLessThan(1.5e6);
  });

  test.each([1200, 390])(
    '%i pixels wide: no trouble, nothing fetched, no scrolling sideways, figures with a size',
    async (width) => {
      await opened(width, async (page, asked) => {
        expect(asked.filter((each) => each !== url && !each.startsWith('data:'))).toEqual([]);
        const seen = await page.evaluate(() => ({
          width: document.documentElement.scrollWidth,
          height: document.documentElement.scrollHeight,
          figures: [...document.querySelectorAll('figure > svg, .wide svg')].map((svg) => {
            const { width, height, right } = svg.getBoundingClientRect();
            const isHeld = svg.closest('.wide') !== null;
            return { width, height, right, isHeld };
          }),
          pictures: [...document.querySelectorAll('image')].map((image) => image.getBoundingClientRect().width),
        }));
        expect(seen.width).toBeLessThanOrEqual(width);
        expect(seen.height).toBeGreaterThan(2000);
        // The ground, the stack, two sections, the deviation; each layer; each board.
        expect(seen.figures).toHaveLength(5 + plan.stack.layers.length + plan.boards.length);
        for (const figure of seen.figures) {
          expect(figure.width).toBeGreaterThan(width * 0.4);
          expect(figure.height).toBeGreaterThan(figure.width * 0.15);
          if (!figure.isHeld) expect(figure.right).toBeLessThanOrEqual(width);
        }
        // The ground and the deviation.
        expect(seen.pictures).toHaveLength(2);
        expect(Math.min(...seen.pictures)).toBeGreaterThan(width * 0.4);
      });
    },
  );

  test('on a desk, every name on a figure is as large as can be read', async () => {
    await opened(1200, async (page) => {
      const heights = await page.evaluate(() =>
        [...document.querySelectorAll('svg text.name')].map((text) => {
          const svg = text.closest('svg') as SVGSVGElement;
          const scale = svg.getBoundingClientRect().width / svg.viewBox.baseVal.width;
          return Number(text.getAttribute('font-size')) * scale;
        }),
      );
      // Each piece on its layer and on its board.
      expect(heights).toHaveLength(2 * plan.pieces.length);
      expect(Math.min(...heights)).toBeGreaterThan(10.5);
    });
  });

  test('printed, nothing is wider than the paper', async () => {
    await opened(1200, async (page) => {
      await page.emulateMedia({ media: 'print' });
      // A4 less 12 mm margins, in pixels of 1/96 in.
      const paper = Math.round(((210 - 24) / 25.4) * 96);
      await page.setViewportSize({ width: paper, height: 900 });
      const widest = await page.evaluate(() =>
        Math.max(
          ...[...document.querySelectorAll('body *:not(svg *)')].map((each) => each.getBoundingClientRect().right),
        ),
      );
      expect(widest).toBeLessThanOrEqual(paper);
    });
  });
});
