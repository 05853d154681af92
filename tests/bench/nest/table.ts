import { readFileSync } from 'node:fs';
import { timed } from './drive.ts';
import { type Instance, instanceOf, prepared } from './instance.ts';
import { runOne } from './run-one.ts';
import { throughput } from './throughput.ts';
import { faultsOf } from './verify.ts';

/** Which rows of the table are wanted, and for how long each instance is packed. */
export interface TableOptions {
  readonly only: string | null;
  readonly seconds: number | null;
  readonly seeds: readonly number[];
  readonly byProcessor: boolean;
  readonly script: URL;
}

/** Means that were published for listed turns: Gardeyn, Vanden Berghe, Wauters 2025, arXiv 2509.13329 (20 minutes, three threads); Sato et al. 2019. */
const STRIPS: Readonly<Record<string, readonly [number, number]>> = {
  swim: [78.26, 74.29],
  albano: [89.47, 87.55],
  trousers: [91.73, 90.48],
  shapes0: [68.6, 68.73],
  fu: [92.24, 91.95],
  jakobs1: [89.09, 89.09],
};
/** Square boards of 1.1, 1.5 and 2 times the longest side of any piece (factors from memory of Martinez-Sykora et al. 2017). */
const SQUARES: Readonly<Record<string, readonly number[]>> = {
  swim: [2132.9, 2908.5, 3878],
  albano: [3337.4, 4551, 6068],
  trousers: [64.9, 88.5, 118],
  shapes0: [15.4, 21, 28],
  fu: [15.4, 21, 28],
  jakobs1: [8.8, 12, 16],
  poly3a: [14.3, 19.5, 26],
  poly5a: [14.3, 19.5, 26],
};
/** Shortest lengths published for free turns: table 3 of Peralta, Andretta, Oliveira 2018. */
const FREE: Readonly<Record<string, number>> = {
  albano: 10032.2,
  swim: 5661.95,
  trousers: 249.35,
  jakobs1: 12.99,
  poly1a: 13.9,
  poly2a: 26.16,
  poly3a: 39.01,
  poly4a: 50.99,
  poly5a: 63.66,
};

const fileOf = (name: string): string => readFileSync(`tests/data/nesting/${name}.json`, 'utf8');

/** Print the table, a line of JSON for each row. */
export async function table(options: TableOptions): Promise<void> {
  const isWanted = (rows: string) => options.only === null || options.only === rows;
  if (isWanted('throughput')) {
    for (const name of ['swim', 'gardeyn0', 'gardeyn4']) {
      const told = throughput(prepared(instanceOf(fileOf(name), null, null), false), 1);
      print({ throughput: name, ...told, ratio: told.perSecond / told.plainPerSecond });
    }
  }
  if (isWanted('strips')) {
    for (const [name, [gardeyn2025, sato2019]] of Object.entries(STRIPS)) {
      const densities: number[] = [];
      for (const seed of options.seeds) {
        densities.push((await run(instanceOf(fileOf(name), null, null), seed, false, 60, options)).density ?? 0);
      }
      const mean = densities.reduce((sum, density) => sum + density, 0) / densities.length;
      print({ strip: name, mean, densities, gardeyn2025, sato2019 });
    }
  }
  if (isWanted('squares')) {
    let total = 0;
    for (const [name, sides] of Object.entries(SQUARES)) {
      for (const side of sides) {
        const { boards = 0, bound } = await run(instanceOf(fileOf(name), null, [side, side]), 1, false, 20, options);
        total += boards;
        print({ square: name, side, boards, bound });
      }
    }
    print({ squares: total });
  }
  if (isWanted('jigsaws')) await jigsaws(options);
  if (isWanted('free')) {
    for (const [name, published] of Object.entries(FREE)) {
      const { length } = await run(instanceOf(fileOf(name), null, null), options.seeds[0], true, 600, options);
      print({ free: name, length, published });
    }
  }
}

async function jigsaws(options: TableOptions): Promise<void> {
  const names = (JSON.parse(fileOf('jigsaws')) as { instances: { name: string }[] }).instances.map(({ name }) => name);
  const above: number[] = [];
  for (const name of names) {
    const instance = instanceOf(fileOf('jigsaws'), name, null);
    const { boards = 0, bound } = await run(instance, 1, false, 20, options);
    above.push(boards - (instance.knownBoards ?? bound));
    print({ jigsaw: name, boards, known: instance.knownBoards, bound });
  }
  const share = (most: number) => above.filter((over) => over <= most).length / above.length;
  print({ jigsaws: above.length, atOptimum: share(0), atMostOneAbove: share(1) });
}

async function run(instance: Instance, seed: number, isFree: boolean, seconds: number, options: TableOptions) {
  const driver = timed(options.seconds ?? seconds, 2, options.script, options.byProcessor);
  const outcome = await runOne(instance, seed, isFree, driver);
  await driver.end();
  const size = instance.stripWidth ?? Math.min(...(instance.board ?? [1]));
  const { faults } = faultsOf(instance, outcome.layout, isFree, 1e-6 * size);
  if (faults.length > 0) throw new Error(`${instance.name}: ${faults[0]}`);
  return outcome;
}

const print = (row: object): void => console.log(JSON.stringify(row));
