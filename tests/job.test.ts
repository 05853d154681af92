import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readJob } from '../src/job.ts';
import { GOOD, LEAST, read } from './help/job-texts.ts';
import { testPlugins } from './help/test-plugins.ts';

describe('a good job', () => {
  const job = read(GOOD);

  test('comes out in millimetres, whatever unit was written', () => {
    expect(job.source.options).toEqual({
      size: [4300, 2438.4],
      spacing: 25,
      rise: 1200,
      features: [{ mound: { at: [1200, 35], height: 50.8 } }],
    });
    expect(job.facts.stock.boards[0]).toEqual({
      name: 'EPS 70 · 5,0 cm',
      sizeMm: [2400, 1200],
      thicknessMm: 50,
      densityKgM3: 15,
      price: 14.5,
      count: 9,
      trimMm: 5,
      faced: true,
    });
    expect(job.facts.tool).toEqual({
      ...{ kind: 'knife', kerfMm: 0.3, throatMm: 1300 },
      ...{ wireMm: null, bladeMm: null, tableMm: null },
    });
    expect(job.facts.cover).toEqual({ material: 'dry sand', depthMm: 20, densityKgM3: null });
    expect(job.facts.carry).toEqual({ sizeMm: [1800, 900], massKg: 12.5 });
    expect(job.facts.zones[0].outline[2]).toEqual([410, 770]);
    expect([job.facts.gapMm, job.unit, job.seed, job.name]).toEqual([11, 'cm', 11, 'Heron ford']);
    expect(job.facts.thicknessesMm).toEqual([30, 50]);
  });

  test('names its steps, where they stand, and its files', () => {
    expect(job.shape.map(({ path, options }) => [path, options])).toEqual([
      ['shape.0.cover', {}],
      ['shape.1.fit', { height: 615, note: '' }],
    ]);
    expect(job.split[0].path).toBe('split.hollow');
    expect(job.offcutFiles).toEqual(['kept/offcuts.json']);
    const files = read(
      LEAST.replace('slope: { size: [4300, 2700] }', 'survey: { file: a.png, mask: b.png, low: 3, high: 70 }'),
    );
    expect(files.sourceFiles).toEqual(['a.png', 'b.png']);
  });

  test('fills in what was not said', () => {
    const least = read(LEAST);
    expect(least.facts).toMatchObject({
      gapMm: 10,
      tool: { kind: 'hot wire', kerfMm: 2, throatMm: null },
      cover: null,
    });
    expect(least.facts.front).toEqual({ side: 'south', word: 'FRONT' });
    expect([least.slice, ...least.split, least.nest].map(({ plugin }) => plugin.name)).toEqual([
      'layers',
      'hollow',
      'boards',
    ]);
    expect(least.documents.map(({ plugin }) => plugin.name)).toEqual(['board-svg']);
    expect([least.seed, least.unit]).toEqual([1, 'mm']);
  });

  test('takes offcuts alone as stock', () => {
    expect(read(LEAST.replace(/boards: .*$/m, 'offcuts: [ a.json ] }')).facts.stock.boards).toEqual([]);
  });

  test.each([
    ['one character', '沙'],
    ['300 emoji', '🏔'.repeat(300)],
    ['quotes, tags and a path', '"><b>&amp; ../..\\\\'.replaceAll('"', '')],
  ])('has a name of %s', (_, name) => {
    expect(read(LEAST.replace('Heron ford', JSON.stringify(name))).name).toBe(name);
  });

  test('may repeat values by alias', () => {
    const text = LEAST.replace('[2400, 1200]', '&big [2400, 1200]').replace(
      '} ] }',
      '}, { name: EPS 100, size: *big, thickness: 30 } ] }',
    );
    expect(read(text).facts.stock.boards[1].sizeMm).toEqual([2400, 1200]);
  });

  test('accepts a byte order mark, CRLF lines and a schema for the editor', () => {
    expect(read(`\ufeff$schema: x.json\r\n${GOOD.replaceAll('\n', '\r\n')}`).written).toEqual(job.written);
  });
});

describe('the written job', () => {
  const again = (job: ReturnType<typeof read>) => readJob(JSON.stringify(job.written), 'plan.json', testPlugins);

  test.each([
    ['rich', GOOD],
    ['bare', LEAST],
  ])('of a %s job reads back as the same job', (_, text) => {
    const job = read(text);
    expect(again(job)).toStrictEqual({ ...job, unit: 'mm' });
  });

  test('reads back for any name, length, unit and rule', () => {
    const written = (min: number, max: number) =>
      fc
        .tuple(fc.double({ min, max, noNaN: true }), fc.constantFrom('mm', 'cm', 'm', 'in', 'ft'))
        .map(([n, u]) => `${n} ${u}`);
    const length = fc.oneof(fc.double({ min: 1e-3, max: 9e4, noNaN: true }), written(0.01, 20));
    fc.assert(
      fc.property(
        fc.string({ unit: 'binary', minLength: 1, maxLength: 40 }).filter((name) => name.trim() !== ''),
        length,
        written(0.11, 19),
        fc.constantFrom('mm', 'cm', 'm', 'in', 'ft'),
        fc.record(
          { bagKg: fc.double({ min: 1, max: 2000, noNaN: true }), coats: fc.integer({ min: 0, max: 20 }) },
          { requiredKeys: [] },
        ),
        (name, rise, thickness, unit, rules) => {
          const source = { slope: { size: [rise, rise], from: [rise, '-3 in'] } };
          const stock = { boards: [{ name, size: ['2 m', '31 in'], thickness }] };
          const job = read(JSON.stringify({ name, unit, source, stock, rules, documents: ['cut-list'] }));
          expect(again(job)).toStrictEqual({ ...job, unit: 'mm' });
        },
      ),
      { numRuns: 60, seed: 5 },
    );
  });
});
