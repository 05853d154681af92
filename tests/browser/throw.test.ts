/** The page for a projector in Chromium: crosses that are dragged and measurements that are typed make the throw true. */
import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { type Browser, chromium } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { throwPage } from '../../src/document/throw-page.ts';
import type { OutputFile } from '../../src/model/plan.ts';
import { walkNow } from '../../src/walk.ts';
import { smallPlan } from '../help/small-plan.ts';

const CHROMIUM = process.env.CHROMIUM ?? '/usr/bin/chromium';
const isThere = existsSync(CHROMIUM);
const WHY = isThere ? '' : ` (skipped: no browser at ${CHROMIUM}; say where one is with CHROMIUM=…)`;

describe.skipIf(!isThere)(`the throw page in Chromium${WHY}`, () => {
  let folder: string;
  let browser: Browser;
  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'lynchet-throw-'));
    const context = { facts: {}, tell: () => {}, random: () => 0.5 };
    const work = throwPage.run(smallPlan(), { scale: 1 }, context) as Generator<number, readonly OutputFile[], never>;
    writeFileSync(join(folder, 'throw.html'), walkNow(work)[0].body as string);
    browser = await chromium.launch({
      executablePath: CHROMIUM,
      args: ['--no-sandbox', '--disable-gpu', '--disable-quic'],
    });
  });
  afterAll(async () => {
    await browser?.close();
    rmSync(folder, { recursive: true, force: true });
  });

  test('a slanting throw is put right by four crosses and six measurements', async () => {
    const page = await browser.newPage({ viewport: { width: 1280, height: 720 } });
    const trouble: string[] = [];
    page.on('console', (message) => trouble.push(message.text()));
    page.on('pageerror', (error) => trouble.push(error.message));
    await page.goto(pathToFileURL(join(folder, 'throw.html')).href);
    expect(await page.textContent('#name')).toBe('board 1 of 2');
    expect(Number(await page.getAttribute('#told', 'data-residual'))).toBeLessThan(0.1);
    await page.click('#hide');

    // The projector stands aside: what is at (x, y) mm on the board is thrown from here on the screen.
    const seen = (x: number, y: number): [number, number] => {
      const w = 1 + 0.0001 * x - 0.00005 * y;
      return [(60 + 0.46 * x + 0.03 * y) / w, (650 - 0.42 * y - 0.02 * x) / w];
    };
    const taped = [
      [150, 120],
      [2260, 105],
      [2301, 1090],
      [122, 1063],
    ] as const;
    const crosses = await page.evaluate(() =>
      (globalThis as unknown as { eval(text: string): number[][] }).eval('crosses'),
    );
    for (const [i, [x, y]] of taped.entries()) {
      await page.mouse.move(crosses[i][0], crosses[i][1]);
      await page.mouse.down();
      const [u, v] = seen(x, y);
      await page.mouse.move(u, v, { steps: 3 });
      await page.mouse.up();
    }
    await page.click('#hide');
    const far = (p: number, q: number) => Math.hypot(taped[p][0] - taped[q][0], taped[p][1] - taped[q][1]).toFixed(1);
    const values = {
      AB: far(0, 1),
      BC: far(1, 2),
      CD: far(2, 3),
      DA: far(3, 0),
      AC: far(0, 2),
      BD: far(1, 3),
      ax: '150',
      ay: '120',
      by: '105',
    };
    for (const [id, value] of Object.entries(values)) await page.fill(`#${id}`, value);
    expect(Number(await page.getAttribute('#told', 'data-residual'))).toBeLessThan(0.2);

    // Where the page now throws points of the board is where the projector needs them: 0.6 px is about 1.5 mm here.
    for (const [x, y] of [
      [0, 0],
      [2400, 0],
      [2400, 1200],
      [0, 1200],
      [777, 431],
      [1620, 880],
    ]) {
      const [u, v] = await page.evaluate(
        ([x, y]) => (globalThis as unknown as { thrownAt(x: number, y: number): [number, number] }).thrownAt(x, y),
        [x, y],
      );
      const [p, q] = seen(x, y);
      expect(Math.hypot(u - p, v - q), `${x}, ${y}`).toBeLessThan(1.5);
    }
    // A misread measurement is told.
    await page.fill('#AC', String(Number(values.AC) + 25));
    expect(await page.textContent('#told')).toContain('Measure again');
    await page.selectOption('#board', '1');
    expect(await page.textContent('#name')).toBe('board 2 of 2');
    expect(trouble).toEqual([]);
    await page.close();
  });
});
