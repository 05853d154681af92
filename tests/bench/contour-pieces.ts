/**
 * Our own set of landform jobs (tests/help/contour-jobs.ts): boards against the bound, preview against search, and the
 * evaluations after which the first board or money was saved. Processor time, one core. Run so:
 *   npx esbuild tests/bench/contour-pieces.ts --bundle --platform=node --format=esm --banner:js="import{createRequire}from'node:module';const require=createRequire(import.meta.url)" --outfile=dist/contour-pieces.mjs && node dist/contour-pieces.mjs [effort] [seed]
 */
import { layout as check } from '../../src/checks/layout.ts';
import { stream } from '../../src/geometry/random.ts';
import type { Layout } from '../../src/model/layout.ts';
import { boards } from '../../src/nest/boards.ts';
import type { Improved } from '../../src/nest/engine/engine.ts';
import type { Reply, Walk } from '../../src/plugin.ts';
import { walkNow } from '../../src/walk.ts';
import { contourJobs } from '../help/contour-jobs.ts';
import { planOf } from '../help/nesting.ts';

const [effort = 2_000_000, seed = 1] = process.argv.slice(2).map(Number);
const seconds = () => process.cpuUsage().user / 1e6;

for (const { name, blanks, facts } of contourJobs()) {
  const context = { facts, tell: () => {}, random: stream(seed, 'nest', 0) };
  const work = boards.run(blanks, { turns: 'free', effort, offcut: 150 }, context) as Walk<Layout>;
  const began = seconds();
  let previewS = 0;
  let looked = 0;
  let first: readonly number[] | null = null;
  let savedAfter: number | null = null;
  let reply: Reply = { say: 'go', results: [] };
  let step = work.next(reply);
  for (; !step.done; step = work.next(reply)) {
    reply = { say: 'go', results: [] };
    if (typeof step.value === 'number') continue;
    const results = step.value.lanes.map(({ task, input }) => walkNow(boards.tasks?.[task](input)) as Improved);
    reply = { say: 'go', results };
    looked += results.reduce((sum, { evaluations }) => sum + evaluations, 0);
    const [best] = results.map(({ packing }) => packing.rank).sort((a, b) => a[1] - b[1] || a[2] - b[2]);
    if (first === null) [first, previewS] = [best, seconds() - began];
    else if (savedAfter === null && best[1] < first[1]) savedAfter = looked;
  }
  const layout = step.value;
  const bought = layout.boards.filter(({ rings }) => !rings);
  const price = (of: readonly { stock: string }[]) =>
    of.reduce((sum, { stock }) => sum + (facts.stock.boards.find((each) => each.name === stock)?.price ?? 0), 0);
  console.log(
    JSON.stringify({
      name,
      pieces: blanks.length,
      previewBoards: first?.[2],
      previewPrice: first?.[1],
      boards: bought.length,
      price: Number(price(bought).toFixed(2)),
      least: layout.bound.boards,
      leastPrice: layout.bound.price,
      offcutsUsed: layout.boards.length - bought.length,
      previewS: Number(previewS.toFixed(2)),
      seconds: Number((seconds() - began).toFixed(1)),
      evaluations: layout.evaluations,
      savedAfter,
      stops: check(planOf(blanks, layout, facts)).length,
    }),
  );
}
