/** Set-up sheets, measuring off, labels, tracing up and the printed cut list, read back by another reader. */
import { describe, expect, test } from 'vitest';
import { heightsOff } from '../../src/document/assembly/heights-off.ts';
import { settingOrder } from '../../src/document/assembly/order.ts';
import { settingOut } from '../../src/document/assembly/setting-out.ts';
import { assemblyPdf } from '../../src/document/assembly-pdf.ts';
import { cutListPdf } from '../../src/document/cut-list-pdf.ts';
import { labelsPdf } from '../../src/document/labels-pdf.ts';
import { measureOffPdf } from '../../src/document/measure-off-pdf.ts';
import { inchText } from '../../src/document/sheets/measures.ts';
import { seamsToDraw, tracedPieces } from '../../src/document/trace-up/traced.ts';
import { traceUp } from '../../src/document/trace-up.ts';
import type { Finding } from '../../src/findings.ts';
import { makeKit } from '../../src/index.ts';
import type { Front } from '../../src/model/facts.ts';
import type { OutputFile, Plan } from '../../src/model/plan.ts';
import { revision } from '../../src/model/revision.ts';
import { expectWithin } from '../help/measured-tables.ts';
import { readSheets } from '../help/read-sheet.ts';
import { smallPlan } from '../help/small-plan.ts';

type Sheets = typeof assemblyPdf | typeof measureOffPdf | typeof labelsPdf | typeof traceUp | typeof cutListPdf;

async function made(plugin: Sheets, plan: Plan, options: object = {}) {
  const told: Finding[] = [];
  const context = { facts: {}, tell: (finding: Finding) => void told.push(finding), random: () => 0.5 };
  const parsed = plugin.options(makeKit('mm')).parse(options);
  const files = (await plugin.run(plan, parsed as never, context as never)) as readonly OutputFile[];
  return { file: files[0], told, read: await readSheets(files[0].body as Uint8Array) };
}

const ALL: readonly (readonly [string, Sheets])[] = [
  ['assembly', assemblyPdf],
  ['measure-off', measureOffPdf],
  ['labels', labelsPdf],
  ['trace-up', traceUp],
  ['cut-list', cutListPdf],
];

describe.each(ALL)('%s', (_, plugin) => {
  test('every page says job, revision, its number and a caution; pages are as many as told', async () => {
    const plan = smallPlan();
    const { file, read } = await made(plugin, plan);
    expect(read.pages).toHaveLength(file.pages ?? 0);
    expect(read.bookmarks.length).toBeGreaterThan(0);
    read.pages.forEach(({ words }, i) => {
      expect(words).toContain('Gull ledge');
      expect(words).toContain(`revision ${revision(plan)}`);
      expect(words).toContain(`page ${i + 1} of ${read.pages.length}`);
      expect(words).toContain('Lynchet');
      expect(words.toLowerCase()).toContain('local codes');
    });
  });

  test('names in other scripts or without an end are told and drawn, never a fault', async () => {
    const facts = { ...smallPlan().facts, front: { side: 'north', word: '観客 🙂' } as Front };
    const name = `تل الرمل 🙂 砂丘 ${'a name without an end '.repeat(40)}`;
    const { told, read } = await made(plugin, smallPlan({ name, facts }));
    expect(told.map(({ code }) => code)).toContain('document/letters');
    expect(read.pages.length).toBeGreaterThan(0);
    for (const page of read.pages) {
      for (const { xMm, widthMm } of page.lines) expect(xMm + widthMm).toBeLessThan(page.widthMm - 5);
    }
  });
});

describe('measuring off', () => {
  test.each([
    ['mm', 3],
    ['mm', 6],
    ['inches', 3],
  ] as const)(
    'the printed tables in %s, joined by their numbers, lie within %d mm of every piece',
    async (measures, tolerance) => {
      const plan = smallPlan();
      const { read } = await made(measureOffPdf, plan, { measures, tolerance });
      expectWithin(plan, read.pages, measures, tolerance);
    },
  );

  test('inches are written in sixteenths in lowest terms', () => {
    // 25.4 mm exactly (international yard and pound agreement, 1959); the rest by hand.
    expect([0, 25.4, 12.7, 365.125, 360.3625, 1.5875, -63.5, 0.7].map(inchText)).toEqual([
      '0',
      '1',
      '1/2',
      '14 3/8',
      '14 3/16',
      '1/16',
      '-2 1/2',
      '0',
    ]);
  });

  test('a tolerance that rounding alone would break is refused', () => {
    expect(() => measureOffPdf.options(makeKit('mm')).parse({ tolerance: 1 })).toThrow();
  });
});

describe('setting up', () => {
  test('heights may be off by what the standard lets boards be off by, measured ones by a millimetre; the paper says which', () => {
    const plan = smallPlan();
    const foam = { value: 'EPS', isAssumed: false };
    const goods = [
      { stock: 'EPS 70', foam },
      { stock: 'kept K3', foam },
    ] as unknown as Plan['facts']['work']['goods'];
    const facts = { ...plan.facts, work: { ...plan.facts.work, goods } };
    const known = heightsOff({ ...plan, facts });
    // EN 13163, T(2): 2 mm each; two such boards and 1 mm of reading are 1 + √8, which is 3.8.
    expect([known.topMm(1), known.topMm(2)]).toEqual([3, 4]);
    expect(known.note).toContain('EPS 70 ±2 mm (not measured; EN 13163, T(2))');
    const job = { stock: { boards: [{ name: 'EPS 70', measured: 50 }, { name: 'kept K3' }] } };
    const measured = heightsOff({ ...plan, facts, job });
    // Layer 1 is of the measured board, layer 2 of both: 1 + √5.
    expect([measured.topMm(1), measured.topMm(2)]).toEqual([2, 4]);
    expect(measured.note).toContain('EPS 70 ±1 mm (measured');
    expect(measured.note).toContain('kept K3 ±2 mm (not measured');
    const unknown = heightsOff(plan);
    expect([unknown.topMm(1), unknown.topMm(2)]).toEqual([2, 3]);
    expect(unknown.note).toContain('EPS 70 ±1 mm (no standard known: measure it');
  });

  test('a page for each layer, with its order, what is ready, its height, and when to stop; 14 points at least', async () => {
    const { read } = await made(assemblyPdf, smallPlan());
    const page = read.pages.filter(({ words }) => words.includes('Layer 2 of 2'));
    expect(page).toHaveLength(1);
    for (const words of ['Glue: NO', '4 pins 60 mm', 'Top on the story stick: 100 ± 3 mm', 'Stop if', '2/A to 2C']) {
      expect(page[0].words).toContain(words);
    }
    const told = page[0].lines.filter(({ text }) => /Glue|story stick|Stop if/.test(text));
    for (const { sizePt } of told) expect(sizePt).toBeGreaterThanOrEqual(14);
  });

  test.each([
    ['south', 960, 640],
    ['east', 640, 960],
  ] as const)('from the %s: the base, its diagonals and its 3 : 4 : 5', (side, wide, deep) => {
    const plan = smallPlan();
    const facts = { ...plan.facts, front: { side, word: 'ROOM' } };
    const ring = new Float64Array([100, 50, 1060, 50, 1060, 690, 400, 690, 100, 300]);
    const out = settingOut({ ...plan, facts }, [{ ...plan.pieces[0], region: [ring] }], 100);
    expect([out.wideMm, out.deepMm]).toEqual([wide, deep]);
    // Pythagoras, by hand: 960² + 640² = 1153.776…².
    expect(out.diagonalMm).toBeCloseTo(1153.776, 3);
    const [along, away, across] = out.triangleMm;
    expect(along * along + away * away).toBeCloseTo(across * across, 6);
    expect([along, away]).toEqual(side === 'south' ? [800, 600] : [600, 800]);
    const [{ nearest }] = out.points;
    expect(nearest[1]).toBe(0);
  });

  test('each piece goes down beside one that lies, from the back', () => {
    const { pieces, facts } = smallPlan();
    const layer = pieces.filter((piece) => piece.layer === 1);
    const names = settingOrder(layer, facts.front).map(({ name }) => name);
    expect([...names].sort()).toEqual(['1A', '1C', '1D']);
    expect(Math.abs(names.indexOf('1A') - names.indexOf('1C'))).toBe(1);
  });
});

describe('labels', () => {
  test('one for each piece with its place, neighbours and bundle; used ones skipped', async () => {
    const { read } = await made(labelsPdf, smallPlan(), { rows: 3, columns: 2, skip: 4 });
    expect(read.pages).toHaveLength(2);
    const words = read.pages.map((page) => page.words).join(' ');
    for (const piece of ['1A', '1C', '1D', '2A', '2C', '2D']) expect(words).toContain(piece);
    expect(words).toContain('layer 1 of 2, 2 of 3, top at 50 mm');
    expect(words).toContain('beside 1A');
    expect(words).toContain('bundle 2, board 2');
    expect(words.match(/AUDIENCE/g)).toHaveLength(6);
  });

  test('a page of which more labels are used up than it has is refused, one label left is not', async () => {
    await expect(made(labelsPdf, smallPlan(), { rows: 3, columns: 2, skip: 6 })).rejects.toMatchObject({
      faults: [{ code: 'document/labels-used', fix: expect.stringContaining('at most 5') }],
    });
    const { read } = await made(labelsPdf, smallPlan(), { rows: 3, columns: 2, skip: 5 });
    expect(read.pages).toHaveLength(2);
  });

  test('a grid with no room for a name is refused with its place', async () => {
    await expect(made(labelsPdf, smallPlan(), { rows: 30 })).rejects.toMatchObject({
      faults: [{ code: 'document/labels' }],
    });
  });
});

describe('tracing up', () => {
  test('only pieces whose whole outline lies on pieces with templates', () => {
    const plan = smallPlan();
    const traced = tracedPieces(plan);
    // 2C hangs over the hole of 1C; the chip 2D stands out of the spit by 2 mm (at y = 250 its edge is at x = 1584.9).
    expect(traced.map(({ piece, from }) => [piece.name, from.map(({ name }) => name)])).toEqual([['2A', ['1A', '1C']]]);
    // 1C lies unturned, moved by 20: the seam x = 812.5 is at 832.5 along the edge of its board.
    const seams = seamsToDraw(traced, plan);
    expect(seams.map(({ label, on, board }) => [label, on, board])).toEqual([['2/A', '1C', 1]]);
    expect([seams[0].lineMm[0], seams[0].lineMm[2]]).toEqual([832.5, 832.5]);
  });

  test('a seam over one piece is given in that piece’s board coordinates', () => {
    const plan = smallPlan();
    const under = { ...plan.pieces[0], region: [new Float64Array([0, 0, 1600, 0, 1600, 1000, 0, 1000])] };
    const over = plan.pieces.filter(({ layer }) => layer === 2);
    const changed = { ...plan, pieces: [under, ...over] };
    const traced = tracedPieces(changed).filter(({ piece }) => piece.name !== '2D');
    expect(traced.map(({ piece }) => piece.name)).toEqual(['2A', '2C']);
    const [seam, ...others] = seamsToDraw(traced, changed);
    expect(others).toEqual([]);
    expect([seam.label, seam.on, seam.board]).toEqual(['2/A', '1A', 1]);
    // 1A lies unturned, moved by (−78.5, −25): the seam x = 812.5 is at 734 along the edge.
    expect([seam.lineMm[0], seam.lineMm[2]]).toEqual([734, 734]);
  });
});

describe('the revision', () => {
  test('is the same for the same plan and another for a moved corner, a turned piece or another name', () => {
    const plan = smallPlan();
    const said = revision(plan);
    expect(said).toMatch(/^([ACDEFGHJKLMNPRTUVWXY]\d){3}$/);
    expect(revision(smallPlan())).toBe(said);
    const [first, ...others] = plan.pieces;
    const ring = first.region[0].slice();
    ring[4] += 0.001;
    expect(revision({ ...plan, pieces: [{ ...first, region: [ring, ...first.region.slice(1)] }, ...others] })).not.toBe(
      said,
    );
    expect(revision({ ...plan, name: 'Gull ledges' })).not.toBe(said);
    expect(revision({ ...plan, boards: plan.boards.slice(1) })).not.toBe(said);
  });
});
