/** The nine sheets of the work as they are printed: what stands on each page, what is assumed, what is refused. */
import { describe, expect, test } from 'vitest';
import { WORK_SHEETS } from '../../src/document/sheets/all.ts';
import { BLOCK } from '../../src/document/sheets/block.ts';
import { BUYING } from '../../src/document/sheets/buying.ts';
import { CUTTING } from '../../src/document/sheets/cutting.ts';
import { RISK } from '../../src/document/sheets/risk.ts';
import { sheetPlugin, slotText } from '../../src/document/sheets/sheet.ts';
import { WIRE } from '../../src/document/sheets/wire.ts';
import { flowHtml } from '../../src/drawing/flow/flow-html.ts';
import type { Finding } from '../../src/findings.ts';
import { isWorkday } from '../../src/model/day.ts';
import type { Foam } from '../../src/model/foam.ts';
import type { OutputFile, Plan } from '../../src/model/plan.ts';
import { known, rulesWith } from '../../src/model/rules.ts';
import { type FoamBlock, type Goods, NOTHING_SAID, type Work } from '../../src/model/work.ts';
import { CAUTIONS } from '../../src/workshop/cautions.ts';
import { clockOf, dayOfSlot } from '../../src/workshop/clock.ts';
import { readPdf } from '../help/read-pdf.ts';
import { smallPlan } from '../help/small-plan.ts';
import { MM_IN_PT } from '../help/texts-of.ts';

const goods = (foam: Foam): Goods => ({
  ...{ stock: 'EPS 70', foam: known(foam, foam), densityKgM3: known(15, 15), grade: { name: 'EPS 70', system: null } },
  ...{ hasCertificate: null, face: 'film', edges: 'rebated' },
  terms: {
    supplier: 'Tern & Daughters',
    pack: known(4, 1),
    least: known(1, 1),
    deliveryCost: 30,
    deliveryDays: known(5, 7),
  },
});

function planned(work: Partial<Work> = {}, changes: Partial<Plan['facts']> = {}): Plan {
  const plan = smallPlan();
  const board = {
    name: 'EPS 70',
    sizeMm: [2400, 1200],
    thicknessMm: 50,
    densityKgM3: 15,
    price: 14.1,
    count: 1,
    trimMm: 5,
    faced: true,
  } as const;
  const cover = { material: 'dry sand', depthMm: 20, densityKgM3: null };
  const facts = {
    ...plan.facts,
    ...{ cover, stock: { boards: [board], offcuts: [] }, work: { ...NOTHING_SAID, goods: [goods('EPS')], ...work } },
    ...changes,
  };
  return { ...plan, facts, quantities: { ...plan.quantities, coverVolumeM3: 0.018, coverMassKg: 28 } };
}

const told = (plan: Plan) => WORK_SHEETS.flatMap(({ findings }) => findings?.(plan) ?? []);
const wireText = (plan: Plan) => flowHtml(WIRE.blocks(plan)).replace(/<[^>]*>/g, ' ');
const withWire = (mm: number) => ({ tool: { ...smallPlan().facts.tool, wireMm: mm } });
const flowed = (plan: Plan) => WORK_SHEETS.map(({ blocks }) => flowHtml(blocks(plan))).join('\n');

describe.each(WORK_SHEETS.map((sheet) => [sheet.name, sheet] as const))('%s', (name, sheet) => {
  test('is a PDF with the caution, the job and its pages on each of them, in letters that can be read', async () => {
    const findings: Finding[] = [];
    const context = { tell: (finding: Finding) => void findings.push(finding) } as never;
    const [file] = (await sheetPlugin(sheet).run(planned(), { paper: 'A4' }, context)) as readonly OutputFile[];
    expect([file.path, file.mediaType]).toEqual([`${name}.pdf`, 'application/pdf']);
    expect(findings.filter(({ code }) => code === 'document/letters')).toEqual([]);
    const { pages } = await readPdf(file.body as Uint8Array);
    expect(pages).toHaveLength(file.pages as number);
    for (const [i, { texts }] of pages.entries()) {
      const all = texts.map(({ text }) => text).join(' ');
      expect(all).toContain(CAUTIONS[0].slice(0, 60));
      expect(all).toContain('local codes and licensed practice go first');
      expect(all).toContain(`page ${i + 1} of ${pages.length}`);
      expect(all).toContain('Gull ledge');
      for (const { sizePt } of texts) expect(sizePt * MM_IN_PT).toBeGreaterThan(2.2);
    }
  });
});

describe('what nobody said', () => {
  test('is printed as assumed, with its source or common practice, and as ours once it is said', () => {
    const html = flowed(planned());
    expect(html).toContain('assumed; ours:');
    expect(html).toContain('common practice, no source');
    expect(html).toContain('not worked out');
    const said = flowed(planned({ rules: rulesWith({ bagKg: 20 }) }));
    expect(said).toContain('<td class="n">20</td><td>said in the job</td><td>usual 25</td>');
  });

  test('of the grade and the film is asked for', () => {
    const html = flowed(planned());
    expect(html).toMatch(/may mean 70 kPa \(EN 13163\) or 70 kg\/m³/);
    expect(html).toMatch(/peel it before anything is glued/);
    expect(html).toMatch(/Edges rebated/);
  });
});

describe('the wire', () => {
  test('has settings in air and in foam, and a supply that does it', () => {
    const text = wireText(planned());
    expect(text).toMatch(/in still air, at 300 °C/);
    expect(text).toMatch(/while cutting 5 mm a second/);
    expect(text).toMatch(/lowest common supply that does it: \d+ V DC/);
    expect(text).toMatch(/No wiring is shown here/);
  });

  test('through foam that nobody named is refused: a stop with its place, and no settings', () => {
    const plan = planned({ goods: [goods('unknown')] });
    expect(told(plan)).toContainEqual(
      expect.objectContaining({ level: 'stop', code: 'document/foam-unknown', where: { path: 'stock.boards.0.foam' } }),
    );
    expect(wireText(plan)).toMatch(/Refused/);
    expect(wireText(plan)).not.toMatch(/in still air, at|Amps/);
  });

  test('through a kept offcut of unknown foam is refused, too', () => {
    const offcut = (material: string) => ({
      ...{ name: 'kept K3', material, thicknessMm: 50, densityKgM3: 15, rings: [], from: 'a shed' },
    });
    const kept = (material: string) => {
      const { stock } = planned().facts;
      return told(planned({}, { stock: { ...stock, offcuts: [offcut(material)] } }));
    };
    expect(kept('grey stuff')).toContainEqual(
      expect.objectContaining({ level: 'stop', code: 'document/foam-unknown', where: { path: 'stock.offcuts' } }),
    );
    expect(kept('EPS 70').map(({ code }) => code)).not.toContain('document/foam-unknown');
  });

  test('that wants more than may be touched is refused, with ways out that do it', () => {
    const plan = planned({}, withWire(3000));
    const [stop] = told(plan).filter(({ code }) => code === 'document/wire-volts');
    expect([stop.level, stop.where]).toEqual(['stop', { path: 'tool.wire' }]);
    expect(stop.fix).toMatch(/shorter bow.*thicker wire.*slower feed/);
    expect(wireText(plan)).not.toMatch(/Amps/);
    const shorter = Number(/wire of (\d+) mm/.exec(stop.fix)![1]);
    expect(told(planned({}, withWire(shorter))).map(({ code }) => code)).not.toContain('document/wire-volts');
    expect(told(planned({}, withWire(shorter + 100))).map(({ code }) => code)).toContain('document/wire-volts');
  });

  test('in the damp is refused sooner', () => {
    const damp = { ...NOTHING_SAID.wire, isDamp: known(true, false) };
    expect(told(planned({ wire: damp }, withWire(1600))).map(({ code }) => code)).toContain('document/wire-volts');
    expect(told(planned({}, withWire(1600))).map(({ code }) => code)).not.toContain('document/wire-volts');
  });

  test('of a table that does not reach says so', () => {
    const thick = { ...NOTHING_SAID.wire, diameterMm: known(1, 1) };
    expect(wireText(planned({ wire: thick }))).toMatch(/does not reach this wire/);
    const soft = { ...NOTHING_SAID.wire, alloy: known('stainless 316' as const, 'nichrome 80' as const) };
    expect(wireText(planned({ wire: soft, rules: rulesWith({ wireCelsius: 320 }) }))).toMatch(
      /figures for this wire end at 300 °C/,
    );
  });

  test.each([
    [{ volts: 12, amps: 5, current: 'DC', noLoadVolts: null }, 'document/supply-weak', 'watch'],
    [{ volts: 48, amps: 1, current: 'DC', noLoadVolts: null }, 'document/supply-weak', 'watch'],
    [{ volts: 24, amps: 9, current: 'AC', noLoadVolts: null }, 'document/supply-no-load', 'stop'],
  ] as const)('%o: %s', (supply, code, level) => {
    const found = told(planned({ wire: { ...NOTHING_SAID.wire, supply } }));
    expect(found).toContainEqual(expect.objectContaining({ level, code, where: { path: 'tool.supply' } }));
  });

  test('is not there for a saw', () => {
    const saw = { tool: { ...smallPlan().facts.tool, kind: 'saw' as const } };
    expect(wireText(planned({}, saw))).toMatch(/there is no wire to set up/);
    expect(flowed(planned({}, saw))).not.toMatch(/Hot wire<|eyes protected; fumes/);
  });
});

test('a board of 49.2 mm is written as that in the buying list', () => {
  const [board] = planned().facts.stock.boards;
  const plan = planned({}, { stock: { boards: [{ ...board, thicknessMm: 49.2 }], offcuts: [] } });
  expect(flowHtml(BUYING.blocks(plan))).toContain('<td>2400 × 1200 × 49.2 mm</td>');
});

test('a block is printed with how it is sold, and counted in whole packs', () => {
  const block: FoamBlock = {
    ...{ name: 'a raw block', sizeMm: [2400, 1200], heightMm: 1000, foam: known('EPS', 'EPS'), price: 90, ageDays: 20 },
    ...{
      densityKgM3: known(15, 15),
      hasCertificate: false,
      terms: { ...goods('EPS').terms, deliveryDays: known(12, 7) },
    },
  };
  const html = flowHtml(BLOCK.blocks(planned({ blocks: [block] })));
  expect(html).toMatch(/Fire certificate<\/th><td>none; ask/);
  expect(html).toMatch(/Sold by<\/th><td>Tern &amp; Daughters/);
  expect(html).toMatch(/In packs of<\/th><td>4</);
  expect(html).toMatch(/Delivery costs<\/th><td>30.00/);
  expect(html).toMatch(/Days to delivery<\/th><td>12/);
  expect(html).toContain('<td>blocks wired here</td><td class="n">4</td><td class="n">360.00</td>');
});

test('closed voids are a danger where a piece has an inner outline, however many layers there are', () => {
  const plan = planned();
  const solid = { ...plan, pieces: plan.pieces.filter(({ region }) => region.length === 1) };
  expect(solid.pieces.length).toBeLessThan(plan.pieces.length);
  expect(flowHtml(RISK.blocks(plan))).toContain('the voids are closed');
  expect(flowHtml(RISK.blocks(solid))).not.toContain('the voids are closed');
});

describe('small lengths keep their meaning in every unit', () => {
  const { tool } = smallPlan().facts;
  const wire = { ...NOTHING_SAID.wire, diameterMm: known(0.35, 0.5) };
  const inUnit = (unit: Plan['unit']) => ({
    ...planned({ wire }, { tool: { ...tool, kind: 'hot wire', kerfMm: 2.4 } }),
    unit,
  });
  const textOf = (sheet: (typeof WORK_SHEETS)[number], unit: Plan['unit']) => flowHtml(sheet.blocks(inUnit(unit)));

  // 2.4 mm is 0.00787 ft, 10 mm 0.03281 ft, 5 mm 0.0164 ft. The upper crust falls at 1000 − 10 + 1.2 mm, 3.252 ft.
  test.each([
    ['mm', '2.4 mm', '10 mm', '991.2 mm', '5 mm a second', '0.35 mm'],
    ['cm', '0.24 cm', '1 cm', '99.12 cm', '0.5 cm a second', '0.035 cm'],
    ['m', '0.0024 m', '0.01 m', '0.9912 m', '0.005 m a second', '0.00035 m'],
    ['ft', '0.00787 ft', '0.03281 ft', '3.252 ft', '0.0164 ft a second', '0.00115 ft'],
  ] as const)('in %s', (unit, kerf, crust, rail, feed, thick) => {
    const block = textOf(BLOCK, unit);
    expect(block).toContain(`Kerf ${kerf}, as the tool says; crust off each face ${crust}.`);
    expect(block).toContain(`<td>upper crust</td><td class="n">${rail}</td>`);
    expect(textOf(CUTTING, unit)).toContain(`The plan reckons with ${kerf};`);
    const hot = textOf(WIRE, unit);
    expect(hot).toContain(`while cutting ${feed}`);
    expect(hot).toContain(thick);
  });

  test('where the wire wants too much, the ways out name a wire and a feed', () => {
    const plan = { ...planned({}, withWire(3000)), unit: 'm' as const };
    const [stop] = told(plan).filter(({ code }) => code === 'document/wire-volts');
    const thicker = /thicker wire: ([\d.]+) m;/.exec(stop.fix)![1];
    const slower = /slower feed: ([\d.]+) m a second/.exec(stop.fix)![1];
    const inMm = told(planned({}, withWire(3000))).find(({ code }) => code === 'document/wire-volts')!.fix;
    expect(1000 * Number(thicker)).toBeCloseTo(Number(/thicker wire: ([\d.]+) mm/.exec(inMm)![1]), 2);
    expect(1000 * Number(slower)).toBeCloseTo(Number(/slower feed: ([\d.]+) mm/.exec(inMm)![1]), 2);
  });
});

describe('when to order', () => {
  const due = (opening: number, days: number) => {
    const quick = goods('EPS');
    const terms = { ...quick.terms, deliveryDays: known(days, 7) };
    const plan = planned({ ready: { ...NOTHING_SAID.ready, opening }, goods: [{ ...quick, terms }] });
    return { plan, by: /Order by ([^:]*):/.exec(flowHtml(BUYING.blocks(plan)))![1] };
  };

  test('the one supplier is ordered from when the clock begins, on a working day, whatever day the opening is', () => {
    for (let opening = 10_000; opening < 10_007; opening++) {
      for (const days of [4, 5, 6, 7]) {
        const { plan, by } = due(opening, days);
        const clock = clockOf(plan);
        expect(by).toBe(slotText(clock, clock.steps[0].startSlot));
        expect(isWorkday(dayOfSlot(clock.steps[0].startSlot), 5)).toBe(true);
      }
    }
  });
});

describe('what is told', () => {
  const day = (opening: number, today: number, getIn: number | null = null) => ({
    ...NOTHING_SAID.ready,
    opening,
    today,
    getIn,
  });
  test.each([
    ['a budget below what has a price', planned({ budget: 10 }), 'watch document/over-budget budget'],
    ['no board left to spare', planned(), 'watch document/no-spares stock.boards.0.count'],
    ['an opening too soon', planned({ ready: day(10_004, 10_000) }), 'stop document/late ready.date'],
    ['a get-in too late', planned({ ready: day(10_300, 10_000, 10_299) }), 'stop document/get-in ready.getIn'],
    [
      'a floor that takes little',
      planned({ floor: { kNM2: 0.01, from: null } }),
      'stop document/floor-over floor.load',
    ],
    ['a pallet on a usual floor', planned({ floor: { kNM2: 5, from: null } }), 'watch document/floor-over floor.load'],
    ['a bag heavier than a lift', planned(), 'note document/bag-heavy rules.bagKg'],
  ])('of %s', (_, plan, wanted) => {
    expect(told(plan).map(({ level, code, where }) => `${level} ${code} ${where.path}`)).toContain(wanted);
  });

  test('of a payload below one bag', () => {
    const van = { lengthMm: 3000, widthMm: 1200, heightMm: 1700, payloadKg: 24 };
    const way = { ...smallPlan().facts.way, van };
    expect(told(planned({}, { way }))).toContainEqual(
      expect.objectContaining({ level: 'stop', code: 'document/payload-bag', where: { path: 'van.payload' } }),
    );
  });
});
