/** Which boards the layers are cut from: one thickness, a list, the best; measured boards; what is refused. */
import { describe, expect, test } from 'vitest';
import { builtin } from '../../src/builtin.ts';
import { type Finding, faultText } from '../../src/findings.ts';
import { stream } from '../../src/geometry/random.ts';
import { areaOf } from '../../src/geometry/ring.ts';
import { readJob, run } from '../../src/index.ts';
import { makeKit } from '../../src/job/kit.ts';
import { groundBetween } from '../../src/model/ground-between.ts';
import { heightfield, type Landform } from '../../src/model/landform.ts';
import type { Layer, LayerStack } from '../../src/model/layer.ts';
import { layers } from '../../src/slice/layers.ts';
import { rock } from '../../src/slice/rock.ts';
import { walkNow } from '../../src/walk.ts';
import { boardFacts } from '../help/board-facts.ts';
import { refusal } from '../help/plugin-run.ts';
import { prism } from '../help/solids.ts';

const RULES = { coatMm: 4, allowanceMm: 20, seat: [0, 0, -1], buried: 0.25 } as const;

function slice(landform: Landform, written: Record<string, unknown>, facts = boardFacts([30, 50, 75])) {
  const findings: Finding[] = [];
  const options = layers.options(makeKit('mm')).parse({ least: 0, ...written });
  const tell = (finding: Finding) => void findings.push(finding);
  const stack = walkNow(layers.run(landform, options, { facts, tell, random: stream(1, 'slice', 0), others: {} }));
  return { layers: (stack as LayerStack).layers, findings, codes: findings.map(({ code }) => code) };
}

/** Lopsided rough ground about 200 mm high at most. */
function rough(seed: number) {
  const next = stream(seed, 'thicknesses');
  return heightfield(
    9,
    7,
    40,
    55,
    Float64Array.from({ length: 63 }, (_, i) => 200 * next() * (1 - Math.abs((i % 9) - 3) / 9) + (i % 5)),
  );
}

const block = (high: number) => heightfield(2, 2, 300, 200, new Float64Array(4).fill(high));

describe('a list from the ground up', () => {
  test('gives each layer its own, and levels that are their sums', () => {
    const { layers: stack, findings } = slice(block(205), { thickness: [50, 50, 75, 30] });
    expect(stack.map(({ thicknessMm, bottomMm }) => [bottomMm, thicknessMm])).toEqual([
      [0, 50],
      [50, 50],
      [100, 75],
      [175, 30],
    ]);
    expect(findings).toEqual([]);
  });

  test('repeats its last where the ground is higher, and says so', () => {
    const { layers: stack, findings } = slice(block(250), { thickness: [50, 75, 30] });
    expect(stack.map(({ thicknessMm }) => thicknessMm)).toEqual([50, 75, 30, 30, 30, 30, 30]);
    expect(findings[0]).toMatchObject({ level: 'note', code: 'slice/repeated-thickness' });
    expect(findings[0].message).toContain('30 mm is used again, for layers 4 to 7');
  });

  test('tells what is left of it where the ground is lower', () => {
    const { layers: stack, findings } = slice(block(100), { thickness: [50, 50, 75, 30] });
    expect(stack).toHaveLength(2);
    expect(findings[0]).toMatchObject({
      level: 'note',
      code: 'slice/unused-thickness',
      where: { path: 'slice.layers.thickness' },
    });
    expect(findings[0].message).toBe('The stack ends with layer 2: 75 mm, 30 mm of the thicknesses said are not used.');
  });

  test('cut shy, a layer that the ground does not fill is none, and does not count as used', () => {
    const { layers: stack, codes } = slice(block(110), { thickness: [50, 50, 75], cut: 'shy' });
    expect(stack).toHaveLength(2);
    expect(codes).toEqual(['slice/unused-thickness', 'slice/stack-height']);
  });
});

describe.each([1, 2, 3, 4])('rough ground, seed %i', (seed) => {
  const ground = rough(seed);

  test.each([[[50, 30, 75, 30]], [[12.7, 19.05, 50]], ['best']])(
    'of %j, volume and levels keep their laws',
    (thickness) => {
      const facts = boardFacts([12.7, 19.05, 30, 50, 75], [2, 2.8, 4, 6, 9]);
      for (const cut of ['proud', 'shy', 'middle']) {
        const { layers: stack } = slice(ground, { thickness, cut, simplify: 0 }, facts);
        let um = 0;
        for (const { bottomMm, thicknessMm, regions } of stack) {
          expect(Math.round(bottomMm * 1000)).toBe(um);
          expect(bottomMm).toBe(um / 1000);
          um += Math.round(thicknessMm * 1000);
          const foam = areaOf(regions) * thicknessMm;
          const own = groundBetween(ground, bottomMm, bottomMm + thicknessMm);
          if (cut === 'proud') expect(foam).toBeGreaterThan(own - 1);
          if (cut === 'shy') expect(foam).toBeLessThan(own + 1);
        }
      }
    },
  );

  test('the best stack keeps its word: what it tells is what it cuts', () => {
    const { layers: stack, findings } = slice(
      ground,
      { thickness: 'best', simplify: 0 },
      boardFacts([30, 50, 75], [4, 6, 8.6]),
    );
    const told = findings.find(({ code }) => code === 'slice/chosen-stack');
    const list = /thickness: \[([\d., ]+)\]/
      .exec(told?.fix ?? '')?.[1]
      .split(', ')
      .map(Number);
    expect(stack.map(({ thicknessMm }) => thicknessMm)).toEqual(list);
    const foam = stack.reduce((sum, { regions, thicknessMm }) => sum + areaOf(regions) * thicknessMm, 0);
    const between = (foam - groundBetween(ground, 0, 1e6)) / 1e9;
    expect(Number(/ground ([\d.]+) m³/.exec(told?.message ?? '')?.[1])).toBeCloseTo(between, 4);
  });
});

test('the best without prices counts deviation alone, and says so', () => {
  const { layers: stack, findings } = slice(rough(5), { thickness: 'best' });
  const free = slice(rough(5), { thickness: 'best', carve: 1, lay: 0 }, boardFacts([30, 50, 75], [0, 0, 0]));
  expect(stack).toEqual(free.layers);
  expect(findings[0].message).toContain('A price is missing, so deviation alone counted.');
  expect(free.findings[0].message).not.toContain('missing');
});

test('carve and lay weigh the best stack', () => {
  const facts = boardFacts([30, 75], [4, 8.6]);
  const of = (more: object) => slice(rough(6), { thickness: 'best', ...more }, facts).layers.length;
  expect(of({ carve: 1e5, lay: 0 })).toBeGreaterThan(of({ carve: 0, lay: 100 }));
});

describe('the best of boards that are few', () => {
  const prices = [4, 6, 8.6];
  const usedM2 = (stack: readonly Layer[], mm: number) =>
    stack.reduce((sum, { thicknessMm, regions }) => sum + (thicknessMm === mm ? areaOf(regions) / 1e6 : 0), 0);

  test.each([1, 2, 3, 4])('takes no more of any than there is, seed %i, and says what it wanted', (seed) => {
    const want = slice(rough(seed), { thickness: 'best', simplify: 0 }, boardFacts([30, 50, 75], prices));
    const most = [30, 50, 75].reduce((a, b) => (usedM2(want.layers, b) > usedM2(want.layers, a) ? b : a));
    // 0.7 of a board becomes layers: here enough for half of what is wanted.
    const onHand = [30, 50, 75].map((each) => (each === most ? usedM2(want.layers, each) / 2 / 0.7 : null));
    const got = slice(rough(seed), { thickness: 'best', simplify: 0 }, boardFacts([30, 50, 75], prices, onHand));
    expect(usedM2(got.layers, most)).toBeLessThanOrEqual(usedM2(want.layers, most) / 2 + 1e-6);
    const told = got.findings.find(({ code }) => code === 'slice/boards-held-back');
    expect(told).toMatchObject({ level: 'note', where: { path: 'stock.boards' } });
    expect(told?.message).toContain(`${most} mm is kept for where it does most`);
    // As many as are wanted: nothing changes, nothing is told.
    const enough = boardFacts(
      [30, 50, 75],
      prices,
      [30, 50, 75].map((each) => usedM2(want.layers, each) / 0.69),
    );
    const again = slice(rough(seed), { thickness: 'best', simplify: 0 }, enough);
    expect(again.layers).toEqual(want.layers);
    expect(again.codes).toEqual(want.codes);
  });

  test('a scarce kind is used as far as it reaches, not left out', () => {
    const whole = slice(block(300), { thickness: 'best' }, boardFacts([25, 75], [3, 7]));
    expect(whole.layers.map(({ thicknessMm }) => thicknessMm)).toEqual([75, 75, 75, 75]);
    const few = boardFacts([25, 75], [3, 7], [null, (2.5 * usedM2(whole.layers, 75)) / 4 / 0.7]);
    const { layers: stack } = slice(block(300), { thickness: 'best' }, few);
    expect(stack.filter(({ thicknessMm }) => thicknessMm === 75)).toHaveLength(2);
    expect(stack.filter(({ thicknessMm }) => thicknessMm === 25)).toHaveLength(6);
  });

  test('too few of all: the best stack all the same, and what is short', () => {
    const { layers: stack, findings } = slice(
      block(300),
      { thickness: 'best' },
      boardFacts([25, 75], [3, 7], [0, 0.01]),
    );
    expect(stack).toHaveLength(4);
    const told = findings.find(({ code }) => code === 'slice/too-few-boards');
    expect(told).toMatchObject({ level: 'watch', where: { path: 'stock.boards' } });
    expect(told?.message).toContain('m² of 75 mm, where the boards on hand make about 0.01 m²');
  });
});

describe('what is refused', () => {
  test.each([
    [{ thickness: 40 }, 'slice/no-board', 'slice.layers.thickness'],
    [{ thickness: [50, 40] }, 'slice/no-board', 'slice.layers.thickness.1'],
    [{}, 'slice/which-board', 'slice.layers.thickness'],
  ])('%j', (written, code, path) => {
    expect(refusal(() => slice(block(90), written))).toMatchObject({ code, where: { path } });
  });

  test.each<[string, object, readonly number[]]>([
    ['slice/which-board', {}, [30, 50]],
    ['slice/which-board', {}, []],
    ['slice/no-board', { thickness: 40 }, [50]],
    ['slice/too-many', {}, [0.001]],
  ])('of a rock: %s', (code, written, offeredMm) => {
    const lump = {
      ...prism(
        [
          [0, 0],
          [70, 10],
          [20, 50],
        ],
        0,
        90,
      ),
      rock: RULES,
    };
    const options = rock.options(makeKit('mm')).parse(written);
    const context = { facts: boardFacts(offeredMm), tell: () => {}, random: stream(1, 'slice', 0), others: {} };
    expect(refusal(() => walkNow(rock.run(lump, options, context)))).toMatchObject({
      code,
      where: { path: 'slice.rock.thickness' },
    });
  });

  test('the best of no boards, and a stack without end', () => {
    expect(refusal(() => slice(block(90), { thickness: 'best' }, boardFacts([]))).code).toBe('slice/which-board');
    const thin = boardFacts([0.5, 50], [1, 2]);
    expect(refusal(() => slice(block(2000), { thickness: 'best' }, thin)).code).toBe('slice/too-many');
    expect(refusal(() => slice(block(2000), { thickness: [50, 0.5] }, thin)).code).toBe('slice/too-many');
  });

  test.each<[string, string, string]>([
    ['[]', 'The list is empty.', 'slice.layers.thickness'],
    ['0', '0 is not above 0.', 'slice.layers.thickness'],
    ['[50, 0]', '0 is not above 0.', 'slice.layers.thickness.1'],
    ['bst', '"bst" has none of the forms that are understood here.', 'slice.layers.thickness'],
    ['[50, thick]', '"thick" is not a length', 'slice.layers.thickness.1'],
  ])('thickness: %s', (thickness, message, path) => {
    const fault = refusal(() => job(`{ layers: { thickness: ${thickness} } }`));
    expect(fault).toMatchObject({ code: 'job/bad-value', where: { path } });
    expect(fault.message).toContain(message);
    expect(faultText(fault).length).toBeGreaterThan(message.length);
  });
});

const job = (sliced: string, boards = '{ name: EPS 50, size: [600, 400], thickness: 50 }') =>
  readJob(
    `{ name: Dune, source: { sketch: { size: [700, 500], spacing: 20, features: [ { mound: { at: [300, 210], radius: 260, height: 140 } } ] } },
       stock: { boards: [ ${boards} ] }, slice: ${sliced}, split: solid, nest: { boards: { effort: 2000 } }, documents: [offcuts] }`,
    'job.yaml',
    builtin,
  );

describe('measured boards', () => {
  const MEASURED = '{ name: EPS 50, size: [600, 400], thickness: 50, measured: 48.6 }';

  test('replace what they are sold as in layers, pieces, boards, offcuts and plan, and the plan reads back', async () => {
    const read = job('{ layers: { thickness: 50 } }', `${MEASURED}, { name: EPS 30, size: [600, 400], thickness: 30 }`);
    expect(read.facts.thicknessesMm).toEqual([30, 48.6]);
    const { plan, files } = await run(read, new Map());
    expect(plan.stack.layers.map(({ bottomMm }) => bottomMm)).toEqual([0, 48.6, 97.2]);
    const all = [...plan.stack.layers, ...plan.pieces, ...plan.boards].map(({ thicknessMm }) => thicknessMm);
    expect(new Set(all)).toEqual(new Set([48.6]));
    const bodies = files.map(({ body }) => String(body));
    expect(bodies.find((body) => body.includes('"offcuts"'))).toContain('"thicknessMm":48.6');
    const again = readJob(JSON.stringify(plan.job), 'plan.json', builtin);
    expect(again.facts).toEqual(read.facts);
    expect(again.written).toEqual(read.written);
  });

  test('of two kinds sold alike must be told apart by what they measure', async () => {
    const two = `${MEASURED}, { name: EPS 50 new, size: [600, 400], thickness: 50, measured: 50.9 }`;
    const made = async (sliced: string) => (await run(job(sliced, two), new Map())).plan;
    await expect(made('{ layers: { thickness: 50 } }')).rejects.toMatchObject({
      faults: [{ code: 'slice/which-board', where: { path: 'slice.layers.thickness' } }],
    });
    expect((await made('{ layers: { thickness: 50.9 } }')).stack.layers[1].bottomMm).toBe(50.9);
    expect((await made('{ layers: { thickness: best } }')).stack.layers.length).toBe(3);
  });

  test('one that is truly as thick as said comes before one that is only sold so', async () => {
    const two = `${MEASURED}, { name: EPS 50 true, size: [600, 400], thickness: 50 }`;
    const { plan } = await run(job('{ layers: { thickness: 50 } }', two), new Map());
    expect(plan.stack.layers[1].bottomMm).toBe(50);
  });

  test('that measure quite another thickness are refused', () => {
    expect(
      refusal(() => job('layers', '{ name: EPS 50, size: [600, 400], thickness: 50, measured: 30 }')),
    ).toMatchObject({
      code: 'job/bad-value',
      where: { path: 'stock.boards.0.measured' },
    });
    expect(
      job('layers', '{ name: EPS 50, size: [600, 400], thickness: 50, measured: 57.5 }').facts.thicknessesMm,
    ).toEqual([57.5]);
  });
});
