/** A shaper that takes another ground: how the source within its options is read, written, described, run and remembered. */
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { parse, stringify } from 'yaml';
import { CannotMake, type Fault, faultText, refuse } from '../src/findings.ts';
import { asPlugin, builtin, makeKit, type Override, readJob, run } from '../src/index.ts';
import { jobSchema, optionSchemas } from '../src/job/schema.ts';
import { heightfield } from '../src/model/landform.ts';
import { definePlugin } from '../src/plugin.ts';
import type { Memory } from '../src/steps.ts';
import { testPlugins } from './help/test-plugins.ts';

const pair = definePlugin({
  api: 1,
  stage: 'shape',
  name: 'pair',
  summary: 'takes others',
  options: ({ z, source, length }) =>
    z.strictObject({ with: source(), more: z.array(source()).default([]), gap: length({ above: 0 }).default(1) }),
  run: (landform) => landform,
});
/** A source that wants one too, which none gets. */
const nested = definePlugin({
  api: 1,
  stage: 'source',
  name: 'nested',
  summary: 'wants another',
  options: ({ z, source }) => z.strictObject({ with: source().optional() }),
  run: () => heightfield(2, 2, 9, 9, new Float64Array(4)),
});
const plugins = testPlugins.with(pair, nested);
const jobOf = (shaper: string) => `name: Two fords
unit: cm
source: { slope: { size: [430, 270] } }
shape:
  - ${shaper}
stock: { boards: [ { name: EPS, size: [240, 120], thickness: 5 } ] }
documents: []
`;
const read = (shaper: string, overrides: readonly Override[] = []) =>
  readJob(jobOf(shaper), 'job.yaml', plugins, overrides);
function faults(shaper: string, overrides: readonly Override[] = []): readonly Fault[] {
  try {
    read(shaper, overrides);
  } catch (error) {
    if (error instanceof CannotMake) return error.faults;
    throw error;
  }
  return [];
}

describe('reading', () => {
  const GOOD =
    'pair: { with: { survey: { file: a.png, low: 1, high: 2 m } }, more: [ { slope: { size: [9, 8 mm] } }, nested ] }';

  test('sources within become steps with their places, their files are the job’s, lengths are millimetres', () => {
    const job = read(GOOD);
    const [step] = job.shape;
    expect(step.options).toMatchObject({
      with: { survey: { file: 'a.png', low: 10, high: 2000 } },
      more: [{ slope: { size: [90, 8], spacing: 25, features: [] } }, { nested: {} }],
    });
    expect(Object.entries(step.sources ?? {}).map(([key, { path, stage }]) => [key, path, stage])).toEqual([
      ['with', 'shape.0.pair.with.survey', 'source'],
      ['more.0', 'shape.0.pair.more.0.slope', 'source'],
      ['more.1', 'shape.0.pair.more.1.nested', 'source'],
    ]);
    expect(job.sourceFiles).toEqual(['a.png']);
  });

  test('what is written reads back to the same job', () => {
    const job = read(GOOD);
    expect(readJob(stringify(job.written), 'plan.json', plugins)).toEqual({ ...job, unit: 'mm' });
  });

  test('one value at two places, by an alias, is two sources', () => {
    const { shape } = read('pair: { with: &one { slope: { size: [9, 8] } }, more: [ *one ] }');
    expect(Object.keys(shape[0].sources ?? {})).toEqual(['with', 'more.0']);
  });

  test('flags reach into it', () => {
    const flag = { path: 'shape.0.pair.with.slope.size', value: '[7, 6]' };
    expect(read('pair: { with: { slope: { size: [9, 8] } } }', [flag]).shape[0].options).toMatchObject({
      with: { slope: { size: [70, 60] } },
    });
    const [fault] = faults('pair: { with: { slope: { size: [9, 8] } } }', [{ ...flag, value: 'wide' }]);
    expect(fault.where).toEqual({ path: '--shape.0.pair.with.slope.size' });
  });

  // ▸ stands where the fault is to be told.
  test.each<[what: string, shaper: string, code: string, text: RegExp]>([
    [
      'a bad option far down',
      'pair: { with: { slope: { size: [9, ▸wide] } } }',
      'job/bad-value',
      /with\.slope\.size\.1.*not a length/,
    ],
    [
      'a misspelt option',
      'pair: { with: { slope: { size: [9, 8], ▸spacin: 5 } } }',
      'job/unknown-key',
      /Did you mean spacing/,
    ],
    ['a missing option', 'pair: { with: { ▸slope: {} } }', 'job/missing', /"size" is missing/],
    ['no such source', 'pair: { with: { ▸slop: {} } }', 'job/no-such-plugin', /Did you mean slope/],
    ['no source at all', '▸pair: {}', 'job/missing', /"with" is missing/],
    ['an empty one', 'pair: { ▸with: }', 'job/bad-value', /"with" has no value|not a source/],
    ['a number', 'pair: { with: ▸5 }', 'job/bad-value', /5 is not a source/],
    ['a list', 'pair: { with: ▸[ slope ] }', 'job/bad-value', /a list is not a source/],
    ['two at once', 'pair: { with: ▸{ slope: { size: [9, 8] }, nested: {} } }', 'job/step', /names one plugin/],
    [
      'a source within a source',
      'pair: { with: { nested: { with: ▸{ slope: { size: [9, 8] } } } } }',
      'job/bad-value',
      /Only a shaper/,
    ],
  ])('%s is told with its place', (_, marked, code, text) => {
    const shaper = marked.replace('▸', '');
    const found = faults(shaper);
    expect(found.map((fault) => fault.code)).toEqual([code]);
    expect(faultText(found[0])).toMatch(text);
    expect(found[0].where).toMatchObject({ line: 5, column: 5 + marked.indexOf('▸') });
  });

  test('the shaper’s own faults and those of its sources are told at once', () => {
    expect(
      faults('pair: { gap: -1, with: { slope: { size: 5 } }, more: [ nowhere ] }').map(({ code }) => code),
    ).toEqual(['job/bad-value', 'job/bad-value', 'job/no-such-plugin']);
  });
});

describe('the schema', () => {
  const accepts = new Ajv2020({ allErrors: true }).compile(jobSchema(plugins) as object);
  test.each<[string, boolean]>([
    ['pair: { with: { slope: { size: [9, 8 mm] } } }', true],
    ['pair: { with: nested, more: [ { survey: { file: a, low: 1, high: 2 } } ] }', true],
    ['pair: { with: { slope: {} } }', false],
    ['pair: { with: { slop: { size: [9, 8] } } }', false],
    ['pair: { with: slope }', false],
    ['pair: { with: { nested: { with: { slope: { size: [9, 8] } } } } }', false],
    ['pair: {}', false],
  ])('judges as the reader does: %s', (shaper, isGood) => {
    expect(accepts(parse(jobOf(shaper)))).toBe(isGood);
    expect(faults(shaper).length === 0).toBe(isGood);
  });

  test('tells of the sources in the options of the shaper', () => {
    expect(JSON.stringify(optionSchemas(plugins)['shape/pair'])).toContain('survey');
  });
});

describe('running', () => {
  const flat = definePlugin({
    api: 1,
    stage: 'source',
    name: 'flat',
    summary: 'level ground',
    options: ({ z, length, file }) =>
      z.strictObject({ height: length(), seeded: z.boolean().default(false), file: file().optional() }),
    run(files, { height, seeded, file }, { random, tell }) {
      if (height > 900) refuse('source/high', 'Too high.', 'Lower it.', { path: 'source.flat.height' });
      tell({
        level: 'note',
        code: 'source/flat',
        message: `Level at ${height}.`,
        fix: 'Nothing to do.',
        where: { path: 'source.flat' },
      });
      const grown = file ? (files.get(file)?.length ?? 0) : 0;
      return heightfield(3, 3, 50, 50, new Float64Array(9).fill(height + grown + (seeded ? random() : 0)));
    },
  });
  // As a module of the user's own would bring it.
  const sum = asPlugin(
    () => ({
      api: 1,
      stage: 'shape',
      name: 'sum',
      summary: 'adds others',
      options: ({ z, source }: ReturnType<typeof makeKit>) => z.strictObject({ of: z.array(source()) }),
      run: (
        ground: ReturnType<typeof heightfield>,
        _: unknown,
        { others }: { others: Record<string, ReturnType<typeof heightfield>> },
      ) => ({
        ...ground,
        heightsMm: ground.heightsMm.map((height, i) =>
          Object.values(others).reduce((total, other) => total + other.heightsMm[i], height),
        ),
      }),
    }),
    makeKit('mm'),
    'sum.mjs',
  );
  const registry = builtin.with(flat, sum);
  const job = (of: string, price = 5) =>
    readJob(
      `{ name: s, source: { flat: { height: 10 } }, shape: [ { sum: { of: ${of} } } ], split: solid, documents: [],
         stock: { boards: [ { name: e, size: [400, 300], thickness: 20, price: ${price} } ] } }`,
      'job.yaml',
      registry,
    );
  const NONE = new Map();

  test('others reach the shaper; what they tell names their own place', async () => {
    const { plan } = await run(
      job('[ { flat: { height: 20 } }, { flat: { height: 30, file: a } } ]'),
      new Map([['a', new Uint8Array(7)]]),
    );
    expect('heightsMm' in plan.landform && [...plan.landform.heightsMm]).toEqual(Array(9).fill(67));
    expect(plan.findings.filter(({ code }) => code === 'source/flat').map(({ where }) => where.path)).toEqual([
      'source.flat',
      'shape.0.sum.of.0.flat',
      'shape.0.sum.of.1.flat',
    ]);
  });

  test('what they are refused with too, after what was told before', async () => {
    const refused = await run(job('[ { flat: { height: 20 } }, { flat: { height: 901 } } ]'), NONE).catch(
      (error) => error,
    );
    expect(refused.faults[0].where.path).toBe('shape.0.sum.of.1.flat.height');
    expect(refused.told.map(({ where }: Fault) => where.path)).toEqual(['source.flat', 'shape.0.sum.of.0.flat']);
  });

  test('each draws from a stream of its own, and an added one leaves those before alone', async () => {
    const heightOf = async (of: string) => {
      const { plan } = await run(job(of), NONE);
      return 'heightsMm' in plan.landform ? plan.landform.heightsMm[0] - 10 : 0;
    };
    const seeded = '{ flat: { height: 0, seeded: true } }';
    const one = await heightOf(`[ ${seeded} ]`);
    const second = (await heightOf(`[ ${seeded}, ${seeded} ]`)) - one;
    expect(second).toBeGreaterThan(0);
    expect(second).not.toBeCloseTo(one, 6);
    expect(await heightOf(`[ ${seeded}, { flat: { height: 3 } } ]`)).toBeCloseTo(one + 3, 9);
  });

  test('remembered like other steps: a change of one runs it and what follows; none runs nothing', async () => {
    const memory: Memory = new Map();
    const ran = async (of: string, price?: number) => {
      const stages: string[] = [];
      await run(job(of, price), NONE, { memory, progress: (stage, done) => done === 0 && stages.push(stage) });
      return stages;
    };
    expect(await ran('[ { flat: { height: 20 } }, { flat: { height: 30 } } ]')).toEqual([
      'source',
      'source',
      'source',
      'shape',
      'slice',
      'split',
      'nest',
      'document',
    ]);
    expect(await ran('[ { flat: { height: 20 } }, { flat: { height: 30 } } ]', 6)).toEqual(['nest', 'document']);
    expect(await ran('[ { flat: { height: 20 } }, { flat: { height: 31 } } ]', 6)).toEqual([
      'source',
      'shape',
      'slice',
      'split',
      'nest',
      'document',
    ]);
  });
});
