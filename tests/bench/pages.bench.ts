/** Twenty boards of many pieces on A4 pages: seconds, bytes a page and the process's largest memory. Names the machine. */
import { cpus } from 'node:os';
import { afterAll, bench } from 'vitest';
import { pagesPdf } from '../../src/document/pages-pdf.ts';
import { makeKit } from '../../src/job/kit.ts';
import type { OutputFile } from '../../src/model/plan.ts';
import { smallPlan } from '../help/small-plan.ts';

const BOARDS = 20;
let told = '';

bench(
  `${BOARDS} boards of 2400 × 1200 mm on A4`,
  async () => {
    const { boards, ...plan } = smallPlan();
    // New boards each time: drawings of boards that were drawn are kept.
    const many = Array.from({ length: BOARDS }, (_, i) => ({ ...boards[0], number: i + 1 }));
    const options = pagesPdf.options(makeKit('mm')).parse({});
    const context = { facts: {}, tell: () => {}, random: () => 0.5 };
    const [file] = (await pagesPdf.run({ ...plan, boards: many }, options, context)) as readonly OutputFile[];
    const pages = file.pages ?? 1;
    told = `${pages} pages, ${(file.body.length / pages).toFixed(0)} bytes a page`;
  },
  { iterations: 3, time: 0, warmupIterations: 1, warmupTime: 0 },
);

afterAll(() => {
  const peakMb = process.resourceUsage().maxRSS / 1024;
  console.log(`${told}, peak ${peakMb.toFixed(0)} MB on ${cpus().length} × ${cpus()[0]?.model ?? 'unknown'}`);
});
