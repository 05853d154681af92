import { describe, expect, test } from 'vitest';
import { CannotMake } from '../../src/findings.ts';
import { boxOf, placed, type Region, rectangle, reversed } from '../../src/geometry/ring.ts';
import type { Facts, Held, PieceRule } from '../../src/model/facts.ts';
import type { Blank } from '../../src/model/piece.ts';
import { blank, board, factsOf, lopsidedBlanks, offcut } from '../help/nesting.ts';
import { nest } from '../help/run-nest.ts';
import { expectSound, regionOn } from '../help/sound-layout.ts';

const GAP = 9;
const rule = (piece: string, more: Partial<PieceRule>): PieceRule => ({ piece, turns: null, held: null, ...more });
const held = (number: number, xMm: number, yMm: number, more: Partial<Held> = {}): Held => ({
  board: number,
  stock: null,
  turnDeg: 0,
  mirrored: false,
  xMm,
  yMm,
  ...more,
});

const refusal = async (blanks: readonly Blank[], facts: Facts) => {
  try {
    await nest(blanks, facts, { effort: 1 });
  } catch (error) {
    if (error instanceof CannotMake) return error.faults;
    throw error;
  }
  return [];
};

describe('patches to keep out of', () => {
  test('on a board on sale: nothing lies on them, offcuts leave them out, plan and check know them', async () => {
    const keepOuts = [new Float64Array([300, 200, 520, 260, 430, 470]), rectangle(1000, -20, 1100, 90)];
    const facts = factsOf([board([1300, 800], { trimMm: 6, keepOuts })], GAP);
    const blanks = lopsidedBlanks(21, 9, 420);
    const { layout } = await nest(blanks, facts);
    expectSound(blanks, layout, facts);
    expect(layout.boards[0].keepOuts).toBe(keepOuts);
  });

  test('on a saved offcut: its defects', async () => {
    const kept = { ...offcut('kept', [rectangle(0, 0, 900, 300)]), defects: [rectangle(400, 0, 480, 300)] };
    const facts = factsOf([board([1300, 800])], GAP, [kept]);
    // Only one of them fits beside the defect on either side, whole ones do not.
    const blanks = [390, 391, 410, 470].map((width, i) => blank(`${i + 1}A`, [rectangle(0, 0, width, 290)]));
    const { layout } = await nest(blanks, facts, { turns: 'fixed' });
    expectSound(blanks, layout, facts);
    expect(layout.boards[0]).toMatchObject({ stock: 'kept', keepOuts: kept.defects });
    expect(layout.boards[0].placed.length).toBeGreaterThan(1);
    expect(layout.boards[0].placed.length).toBeLessThan(3);
  });

  test('a board that is all patch takes nothing: another kind does, or the refusal says which would', async () => {
    const spoilt = board([900, 600], { name: 'spoilt', keepOuts: [rectangle(10, 10, 890, 590)] });
    const blanks = [blank('1A', [rectangle(0, 0, 300, 200)])];
    const { layout } = await nest(blanks, factsOf([spoilt, board([1000, 700])], GAP));
    expect(layout.boards.map(({ stock }) => stock)).toEqual(['foam 1000']);
    const [fault] = await refusal(blanks, factsOf([spoilt], GAP));
    expect(fault).toMatchObject({ code: 'nest/no-room', where: { piece: '1A' } });
    expect(fault.fix).toContain('301 mm × 201 mm');
  });
});

describe('single pieces', () => {
  test('are turned as the job says of them, the rest as it says of all', async () => {
    const blanks = lopsidedBlanks(22, 10, 500);
    const names = blanks.map(({ pieces: [{ name }] }) => name);
    const facts: Facts = {
      ...factsOf([board([1500, 1000], { trimMm: 4 })], GAP),
      pieces: [
        rule(names[1], { turns: 'fixed' }),
        rule(names[4], { turns: 'quarter' }),
        rule(names[5], { turns: 'half' }),
      ],
    };
    const { layout, findings } = await nest(blanks, facts);
    expectSound(blanks, layout, facts);
    expect(findings).toEqual([]);
    const turnOf = (name: string) =>
      layout.boards.flatMap((b) => b.placed).find(({ piece }) => piece === name)?.turnDeg;
    expect(turnOf(names[1])).toBe(0);
    expect((turnOf(names[4]) ?? 1) % 90).toBe(0);
    expect((turnOf(names[5]) ?? 1) % 180).toBe(0);
    expect(names.some((name) => (turnOf(name) ?? 0) % 90 !== 0)).toBe(true);
  });

  test('that there are none of are told: of turns to watch, of what is cut as a stop', async () => {
    const facts: Facts = {
      ...factsOf([board([1500, 1000])], GAP),
      pieces: [rule('9X', { turns: 'half' }), rule('9Y', { held: held(1, 3, 4) })],
    };
    const { findings } = await nest([blank('1A', [rectangle(0, 0, 300, 200)])], facts);
    expect(findings.map(({ code, level, where }) => [code, level, where.path])).toEqual([
      ['nest/no-such-piece', 'watch', 'pieces.9X'],
      ['nest/no-such-piece', 'stop', 'pieces.9Y'],
    ]);
  });

  test('are turned over only where no foam has a face', async () => {
    // Left and right hands that fill the board only if one is turned over; the odd notch keeps turns from doing it.
    const hand: Region = [new Float64Array([0, 0, 400, 0, 400, 90, 130, 90, 130, 300, 0, 300])];
    const blanks = [blank('1A', hand), blank('1C', [hand[0].map((v, i) => (i % 2 === 0 ? v + 1000 : v))])];
    const stock = (faced: boolean) => factsOf([board([540 + GAP, 300], { faced })], GAP);
    const count = async (facts: Facts) => {
      const { layout } = await nest(blanks, facts, { turns: 'fixed' });
      expectSound(blanks, layout, facts);
      return [layout.boards.length, layout.boards.flatMap((b) => b.placed).filter(({ mirrored }) => mirrored).length];
    };
    expect((await count(stock(true)))[1]).toBe(0);
    expect((await count(stock(false)))[0]).toBeLessThanOrEqual((await count(stock(true)))[0]);
    const random = lopsidedBlanks(23, 14, 600);
    const faceless = factsOf([board([1200, 900], { faced: false })], GAP);
    const { layout } = await nest(random, faceless);
    expectSound(random, layout, faceless);
    expect(layout.boards.flatMap((b) => b.placed).some(({ mirrored }) => mirrored)).toBe(true);
    const kept = factsOf([board([1200, 900], { faced: false })], GAP, [
      offcut('of unknown foam', [rectangle(0, 0, 500, 400)]),
    ]);
    const { layout: withOffcut } = await nest(random, kept);
    expect(withOffcut.boards.flatMap((b) => b.placed).some(({ mirrored }) => mirrored)).toBe(false);
  });
});

describe('what is cut already', () => {
  test('stays where it is, the rest goes round it, its board keeps its number and counts', async () => {
    const blanks = lopsidedBlanks(24, 12, 500);
    const facts = factsOf([board([1300, 800], { trimMm: 5, count: 4 })], GAP);
    const { layout: first } = await nest(blanks, facts);
    const [on] = first.boards.slice(-1);
    const rules = on.placed
      .slice(0, 2)
      .map(({ piece, blank: _, ...at }) => rule(piece, { held: { ...at, board: on.number, stock: null } }));
    const again: Facts = { ...facts, pieces: rules };
    const { layout } = await nest(blanks, again, { seed: 5 });
    expectSound(blanks, layout, again);
    const same = layout.boards.find(({ number }) => number === on.number);
    for (const { piece, held: at } of rules) {
      expect(same?.placed.find((each) => each.piece === piece)).toMatchObject({
        turnDeg: at?.turnDeg,
        xMm: at?.xMm,
        yMm: at?.yMm,
      });
    }
  });

  test('on a saved offcut, mirrored and askew', async () => {
    const region: Region = [new Float64Array([0, 0, 300, 0, 260, 120, 0, 150])];
    const blanks = [blank('1A', region), blank('1C', [rectangle(0, 0, 240, 100)])];
    const at = held(1, 420.25, 160.5, { turnDeg: 12.34, mirrored: true, stock: 'kept' });
    const facts: Facts = {
      ...factsOf([board([1300, 800], { faced: false, name: 'EPS' })], GAP, [
        { ...offcut('kept', [rectangle(0, 0, 800, 320)]), material: 'EPS' },
      ]),
      pieces: [rule('1A', { held: at })],
    };
    const { layout } = await nest(blanks, facts);
    expectSound(blanks, layout, facts);
    expect(layout.boards.map(({ stock }) => stock)).toEqual(['kept']);
    const [box] = [boxOf(region.map((ring) => placed(ring, at)))];
    expect(
      boxOf(regionOn(layout, blanks, 0)[layout.boards[0].placed.findIndex(({ piece }) => piece === '1A')]),
    ).toEqual(box);
  });

  test.each([
    ['nest/held-outside', [rule('1A', { held: held(1, 1200, 0) })], '1A'],
    ['nest/held-stock', [rule('1A', { held: held(1, 0, 0, { stock: 'gone' }) })], '1A'],
    [
      'nest/held-board',
      [rule('1A', { held: held(1, 0, 0, { stock: 'a' }) }), rule('1C', { held: held(1, 400, 0, { stock: 'b' }) })],
      '1C',
    ],
  ])('%s', async (code, pieces, piece) => {
    const stock =
      code === 'nest/held-outside'
        ? [board([1300, 800])]
        : [board([1300, 800], { name: 'a' }), board([900, 800], { name: 'b' })];
    const blanks = ['1A', '1C'].map((name) => blank(name, [rectangle(0, 0, 300, 200)]));
    const faults = await refusal(blanks, { ...factsOf(stock, GAP), pieces });
    expect(faults.map((fault) => [fault.code, fault.where.piece])).toEqual([[code, piece]]);
  });
});

describe('a bow that does not reach', () => {
  const tooled = (facts: Facts, throatMm: number): Facts => ({ ...facts, tool: { ...facts.tool, throatMm } });

  test('gets the board in strips: straight cuts that no blank crosses, and then it reaches', async () => {
    const blanks = lopsidedBlanks(25, 26, 330);
    const facts = tooled(factsOf([board([1800, 1200], { trimMm: 5 })], GAP), 310);
    const { layout } = await nest(blanks, facts);
    expectSound(blanks, layout, facts);
    const full = layout.boards.filter(({ placed: standing }) => standing.length > 10);
    expect(full.length).toBeGreaterThan(0);
    for (const { breakDowns = [] } of full) {
      expect(breakDowns.length).toBeGreaterThan(0);
      for (const [x0, y0, x1, y1] of breakDowns) expect(x0 === x1 || y0 === y1).toBe(true);
    }
  });

  test('none where it reaches, nor for other tools', async () => {
    const blanks = lopsidedBlanks(25, 12, 330);
    const facts = factsOf([board([1800, 1200], { trimMm: 5 })], GAP);
    for (const one of [
      tooled(facts, 600),
      { ...facts, tool: { ...facts.tool, kind: 'knife' as const, throatMm: 200 } },
    ]) {
      const { layout } = await nest(blanks, one, { effort: 1 });
      for (const { breakDowns } of layout.boards) expect(breakDowns).toBe(undefined);
    }
  });
});

describe('the stock', () => {
  test('an offcut is told with the largest rectangle in it, and only if it holds the least square asked for', async () => {
    const blanks = [blank('1A', [rectangle(0, 0, 500, 690)])];
    const facts = factsOf([board([1110, 700], { trimMm: 5 })], GAP);
    const { layout } = await nest(blanks, facts, { turns: 'fixed' });
    const [{ offcuts }] = layout.boards;
    expect(offcuts[0].rectangle).toEqual(boxOf(offcuts[0].rings));
    const { layout: none } = await nest(blanks, facts, { turns: 'fixed', offcut: 620 });
    expect(none.boards[0].offcuts).toEqual([]);
  });

  test('the least money is proven where every board has a price', async () => {
    const blanks = [1, 2, 3, 4].map((i) => blank(`${i}A`, [rectangle(0, 0, 700 + i, 480)]));
    const facts = factsOf([board([1490, 500], { price: 31 }), board([720, 500], { price: 12, name: 'small' })], GAP);
    const { layout } = await nest(blanks, facts);
    expectSound(blanks, layout, facts);
    expect(layout.bound.price).toBeGreaterThan(36);
    expect(layout.bound.price).toBeLessThanOrEqual(48);
  });

  test('a count of zero is no board', async () => {
    const blanks = [blank('1A', [rectangle(0, 0, 300, 200)])];
    const [fault] = await refusal(blanks, factsOf([board([900, 700], { count: 0 })], GAP));
    expect(fault.code).toBe('nest/too-few-boards');
    expect(fault.message).toContain('No boards of 50 mm can be had; 1 is needed, for 1A.');
  });
});

describe('awkward input gives a layout all the same', () => {
  const facts = factsOf([board([1300, 900], { trimMm: 4 })], GAP);
  test.each([
    ['clockwise', [reversed(rectangle(0, 0, 300, 200))]],
    ['with a vertex twice', [new Float64Array([0, 0, 300, 0, 300, 0, 300, 200, 0, 200, 0, 200])]],
    ['with points on a straight edge', [new Float64Array([0, 0, 100, 0, 200, 0, 300, 0, 300, 200, 0, 200])]],
    [
      'with a needle that has no width',
      [new Float64Array([0, 0, 300, 0, 300, 200, 150, 200, 150, 400, 150, 200, 0, 200])],
    ],
    ['that crosses itself', [new Float64Array([0, 0, 300, 200, 300, 0, 0, 200])]],
    ['with a hole outside it', [rectangle(0, 0, 300, 200), reversed(rectangle(400, 0, 500, 100))]],
    ['touching itself at a point', [new Float64Array([0, 0, 150, 100, 300, 0, 300, 200, 150, 100, 0, 200])]],
  ] as readonly (readonly [string, Region])[])('an outline %s', async (_, region) => {
    const blanks = [blank('1A', region), blank('1C', [rectangle(0, 0, 310, 190)])];
    const { layout } = await nest(blanks, facts, { effort: 1 });
    expect(layout.boards.flatMap((b) => b.placed.map(({ piece }) => piece)).sort()).toEqual(['1A', '1C']);
  });

  test('a piece without area is named', async () => {
    const line = blank('1A', [new Float64Array([0, 0, 300, 0, 150, 0])]);
    const faults = await refusal([line, blank('1C', [rectangle(0, 0, 310, 190)])], facts);
    expect(faults.map(({ code, where }) => [code, where.piece])).toEqual([['nest/no-area', '1A']]);
  });

  test('a gap wider than the board', async () => {
    const wide = { ...facts, gapMm: 2000 };
    const blanks = [1, 2, 3].map((i) => blank(`${i}A`, [rectangle(0, 0, 200, 100 + i)]));
    const { layout: apart } = await nest(blanks, wide, { effort: 1 });
    expect(apart.boards.map(({ placed: on }) => on.length)).toEqual([1, 1, 1]);
  });

  test('a thousand of one piece', async () => {
    const blanks = Array.from({ length: 1000 }, (_, i) => blank(`${i + 1}A`, [rectangle(0, 0, 90, 61)]));
    const { layout } = await nest(blanks, { ...facts, gapMm: 4 }, { effort: 1, turns: 'half' });
    expect(layout.boards.flatMap((b) => b.placed)).toHaveLength(1000);
    expect(layout.boards.length).toBeLessThanOrEqual(7);
    expect(layout.bound.boards).toBeGreaterThanOrEqual(5);
  });
});

test('what is left of the emptiest board is one rectangle, as large as by hand', async () => {
  // Four blocks of 290 × 390: side by side two and two they take 592 of the length, in a row 1196.
  const blanks = [1, 2, 3, 4].map((i) => blank(`${i}A`, [rectangle(0, 0, 290 + i / 8, 390)]));
  const facts = factsOf([board([2000, 800])], GAP);
  const { layout } = await nest(blanks, facts, { turns: 'quarter', effort: 50_000 });
  expectSound(blanks, layout, facts);
  const [{ offcuts }] = layout.boards;
  const [, , right] = offcuts[0].rectangle ?? [0, 0, 0, 0];
  expect(right).toBe(2000);
  expect(2000 - (offcuts[0].rectangle?.[0] ?? 0)).toBeGreaterThan(1390);
});
