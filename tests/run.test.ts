/** The pipeline: what is remembered, what runs again, what is always written, and the one way back. */
import { expect, test } from 'vitest';
import { builtin } from '../src/builtin.ts';
import { type Memory, QUIET, readJob, registry, run } from '../src/index.ts';
import type { Blank, Wish } from '../src/model/piece.ts';
import type { StageName } from '../src/stages.ts';

const job = (over: object = {}) =>
  readJob(
    JSON.stringify({
      name: 'Dune',
      source: {
        sketch: { size: [640, 410], spacing: 10, features: [{ mound: { at: [250, 190], radius: 230, height: 96 } }] },
      },
      stock: { boards: [{ name: 'EPS 70', size: [500, 310], thickness: 25, price: 4.3 }] },
      nest: { boards: { effort: 2000 } },
      documents: ['cut-list'],
      ...over,
    }),
    'job.yaml',
    builtin,
  );

/** The stages that ran, in order, when a job runs with what was remembered. */
async function ran(memory: Memory, over: object = {}): Promise<StageName[]> {
  const seen: StageName[] = [];
  const progress = (stage: StageName, done: number) => {
    if (done === 0 && seen[seen.length - 1] !== stage) seen.push(stage);
  };
  await run(job(over), NO_FILES, { memory, progress });
  return seen;
}

const NO_FILES = new Map<string, Uint8Array>();

test('a change of price runs nest and documents only; of thickness, from slice on; of nothing, documents only', async () => {
  const memory: Memory = new Map();
  const board = { name: 'EPS 70', size: [500, 310], thickness: 25, price: 4.3 };
  expect(await ran(memory)).toEqual(['source', 'slice', 'split', 'nest', 'document']);
  expect(await ran(memory)).toEqual(['document']);
  expect(await ran(memory, { stock: { boards: [{ ...board, price: 7 }] } })).toEqual(['nest', 'document']);
  expect(await ran(memory, { stock: { boards: [{ ...board, thickness: 20 }] } })).toEqual([
    'slice',
    'split',
    'nest',
    'document',
  ]);
});

test('where the boards of layers are chosen by their prices, a change of price runs from slice on', async () => {
  const memory: Memory = new Map();
  const boards = (price: number) => [
    { name: 'EPS 20', size: [500, 310], thickness: 20, price: 3.9 },
    { name: 'EPS 70', size: [500, 310], thickness: 25, price },
  ];
  const best = { slice: { layers: { thickness: 'best' } } };
  await ran(memory, { ...best, stock: { boards: boards(4.3) } });
  expect((await ran(memory, { ...best, stock: { boards: boards(4.4) } }))[0]).toBe('slice');
  const said = { slice: { layers: { thickness: 25 } } };
  await ran(memory, { ...said, stock: { boards: boards(4.3) } });
  expect((await ran(memory, { ...said, stock: { boards: boards(4.4) } }))[0]).toBe('nest');
});

test('what was told is told again when a stage is remembered', async () => {
  const memory: Memory = new Map();
  const first = await run(job(), NO_FILES, { memory });
  const again = await run(job(), NO_FILES, { memory });
  expect(first.plan.findings.length).toBeGreaterThan(0);
  expect(again.plan.findings).toEqual(first.plan.findings);
});

test('plan.json is always written, once and last, with every finding', async () => {
  for (const documents of [[], ['plan-json', 'cut-list']]) {
    const { files, plan } = await run(job({ documents }), NO_FILES);
    const names = files.map(({ path }) => path);
    expect(names.filter((name) => name === 'plan.json')).toEqual(['plan.json']);
    expect(names.at(-1)).toBe('plan.json');
    const written = JSON.parse(String(files.at(-1)?.body));
    expect(written.findings.map(({ code }: { code: string }) => code)).toEqual(plan.findings.map(({ code }) => code));
  }
});

test('the layout may wish a piece divided otherwise: split is asked again, a set number of times', async () => {
  const asked: (readonly Wish[])[] = [];
  const split = builtin.find('split', 'solid');
  const nest = builtin.find('nest', 'boards');
  const curious = registry(
    builtin.plugins.map((plugin) => {
      if (plugin === split) {
        return {
          ...split,
          run: (input: { wishes: readonly Wish[] }, options: unknown, context: never) => {
            asked.push(input.wishes);
            return split.run({ ...input, wishes: [] }, options, context);
          },
        };
      }
      if (plugin !== nest) return plugin;
      return {
        ...nest,
        *run(blanks: readonly Blank[], options: unknown, context: never) {
          const layout = yield* nest.run(blanks, options, context);
          return { ...layout, wishes: [{ piece: blanks[0].pieces[0].name }] };
        },
      };
    }),
  );
  const text = JSON.stringify({ ...(job().written as object), split: 'solid' });
  const { plan } = await run(readJob(text, 'job.yaml', curious), NO_FILES);
  expect(asked[0]).toEqual([]);
  expect(asked.length).toBeGreaterThan(1);
  expect(asked.length).toBeLessThan(5);
  for (const wishes of asked.slice(1)) expect(wishes).toEqual([{ piece: plan.pieces[0].name }]);
});

test.each([
  [1, 'kept and told', 1],
  [0, 'left and not told', 0],
])('a wish that saves %i boards is %s', async (saved, _, tellings) => {
  const split = builtin.find('split', 'solid');
  const nest = builtin.find('nest', 'boards');
  let isAsked = false;
  const wishful = registry(
    builtin.plugins.map((plugin) => {
      if (plugin === split) {
        return {
          ...split,
          run: (input: { wishes: readonly Wish[] }, options: unknown, context: never) => {
            isAsked = input.wishes.length > 0;
            return split.run({ ...input, wishes: [] }, options, context);
          },
        };
      }
      if (plugin !== nest) return plugin;
      return {
        ...nest,
        *run(blanks: readonly Blank[], options: unknown, context: never) {
          const layout = yield* nest.run(blanks, options, context);
          const bare = { ...layout.boards[0], placed: [], offcuts: [], runIns: [] };
          const more = Array.from({ length: isAsked ? 0 : saved }, (_, i) => ({
            ...bare,
            number: layout.boards.length + 1 + i,
          }));
          return { ...layout, boards: [...layout.boards, ...more], wishes: [{ piece: blanks[0].pieces[0].name }] };
        },
      };
    }),
  );
  const text = JSON.stringify({ ...(job().written as object), split: 'solid' });
  const { plan } = await run(readJob(text, 'job.yaml', wishful), NO_FILES);
  const told = plan.findings.filter(({ code }) => code === 'nest/divided-otherwise');
  expect(told.length).toBe(tellings);
  const { boardsBought } = plan.quantities;
  expect(boardsBought).toBe(plan.boards.length);
  for (const { message, where } of told) {
    expect(message).toContain(plan.pieces[0].name);
    expect(message).toContain(`${boardsBought} boards to buy, before ${boardsBought + saved}`);
    expect(where).toEqual({ layer: plan.pieces[0].layer });
  }
});

test('the same bytes with lanes in line and run elsewhere', async () => {
  const wide = {
    stock: { boards: [{ name: 'EPS 70', size: [420, 260], thickness: 12 }] },
    nest: { boards: { effort: 40_000 } },
  };
  const inLine = await run(job(wide), NO_FILES);
  const { walkNow } = await import('../src/walk.ts');
  const lanes: NonNullable<typeof QUIET.lanes> = async (tasks, list) => {
    // Last first, and through a copy, as workers would.
    const results = [...list].reverse().map(({ task, input }) => walkNow(tasks?.[task]?.(structuredClone(input))));
    return structuredClone(results.reverse());
  };
  const elsewhere = await run(job(wide), NO_FILES, { driver: { ...QUIET, lanes } });
  expect(elsewhere.files).toEqual(inLine.files);
});
