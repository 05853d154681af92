/**
 * npm run bench:nest -- FILE [--seconds S, 60 when not said] [--seed N] [--board WxH] [--turns listed|free] [--out layout.json]
 *   [--instance NAME] [--workers 0|1|2] [--processor]
 * --processor counts seconds of processor time, halved for two workers, in place of the clock's.
 * Packs one instance in a file of the form of tests/data/nesting, prints one line of JSON, and judges the layout by code that
 * shares nothing with the engine. Without a file: the table (table.ts), or
 * with --only strips, squares, jigsaws, free or throughput a part of it; --seconds then holds for each row, --seeds 1,2,3.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import process from 'node:process';
import { parseArgs } from 'node:util';
import { timed } from './drive.ts';
import { instanceOf } from './instance.ts';
import { runOne } from './run-one.ts';
import { table } from './table.ts';
import { faultsOf } from './verify.ts';

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    seconds: { type: 'string' },
    only: { type: 'string' },
    seeds: { type: 'string', default: '1,2,3' },
    seed: { type: 'string', default: '1' },
    board: { type: 'string' },
    turns: { type: 'string', default: 'listed' },
    out: { type: 'string' },
    instance: { type: 'string' },
    processor: { type: 'boolean', default: false },
    workers: { type: 'string', default: '2' },
  },
});
const script = new URL('./worker.js', import.meta.url);
const [file] = positionals;
const seed = Number(values.seed);
const areTurnsFree = values.turns === 'free';

if (file === undefined) {
  await table({
    only: values.only ?? null,
    seconds: values.seconds === undefined ? null : Number(values.seconds),
    seeds: values.seeds.split(',').map(Number),
    byProcessor: values.processor,
    script,
  });
} else {
  const [width, height] = (values.board ?? '').split('x').map(Number);
  const board = values.board === undefined ? null : ([width, height] as const);
  if (board !== null && !(width > 0 && height > 0)) throw new Error('--board is to be said as 1200x800');
  const instance = instanceOf(readFileSync(file, 'utf8'), values.instance ?? null, board);
  const driver = timed(
    Number(values.seconds ?? '60'),
    Number(values.workers),
    values.workers === '0' ? null : script,
    values.processor,
  );
  const { layout, ...told } = await runOne(instance, seed, areTurnsFree, driver);
  await driver.end();
  const size = instance.stripWidth ?? Math.min(...(instance.board ?? [1]));
  const { faults } = faultsOf(instance, layout, areTurnsFree, 1e-6 * size);
  if (values.out !== undefined) writeFileSync(values.out, JSON.stringify(layout));
  console.log(JSON.stringify({ ...told, seed }));
  if (faults.length > 0) {
    console.error(faults.slice(0, 10).join('\n'));
    process.exitCode = 1;
  }
}
