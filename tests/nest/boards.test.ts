import { describe, expect, test } from 'vitest';
import { CannotMake } from '../../src/findings.ts';
import { stream } from '../../src/geometry/random.ts';
import { boxOf, type Region, rectangle, regionArea, reversed } from '../../src/geometry/ring.ts';
import type { Facts } from '../../src/model/facts.ts';
import type { Layout } from '../../src/model/layout.ts';
import type { Blank } from '../../src/model/piece.ts';
import { boards as plugin } from '../../src/nest/boards.ts';
import { QUIET, walkNow } from '../../src/walk.ts';
import { blank, board, factsOf, lopsidedBlanks, offcut } from '../help/nesting.ts';
import { nest } from '../help/run-nest.ts';
import { expectSound, regionOn } from '../help/sound-layout.ts';

const GAP = 11.5;

describe('any pieces: each once, inside, the gap kept, offcuts clear', () => {
  test.each([1, 2, 3, 4])('free turns, seed %i', async (seed) => {
    const blanks = lopsidedBlanks(seed, 24, 900);
    const facts = factsOf([board([1490, 1180], { trimMm: 7 })], GAP);
    const { layout } = await nest(blanks, facts);
    expectSound(blanks, layout, facts);
  });

  test.each(['quarter', 'half', 'fixed'] as const)('%s turns: no others are used', async (turns) => {
    const blanks = lopsidedBlanks(11, 14, 700);
    const facts = factsOf([board([1300, 1110], { trimMm: 3 })], GAP);
    const { layout } = await nest(blanks, facts, { turns });
    expectSound(blanks, layout, facts);
    const step = { quarter: 90, half: 180, fixed: 360 }[turns];
    for (const { turnDeg } of layout.boards.flatMap(({ placed: standing }) => standing)) expect(turnDeg % step).toBe(0);
  });

  test('on saved offcuts of any outline, with holes, seed 5', async () => {
    const blanks = lopsidedBlanks(5, 16, 600);
    const odd = [
      new Float64Array([0, 0, 1350, 40, 1210, 520, 700, 610, 640, 980, 30, 890]),
      reversed(new Float64Array([300, 200, 420, 230, 380, 330])),
    ];
    const facts = factsOf([board([1490, 1180], { trimMm: 7 })], GAP, [offcut('corner', odd)]);
    const { layout } = await nest(blanks, facts);
    expectSound(blanks, layout, facts);
    expect(layout.boards[0]).toMatchObject({ stock: 'corner', trimMm: 0, sizeMm: [1350, 980], rings: odd });
    expect(layout.boards[0].placed.length).toBeGreaterThan(1);
  });

  test('positions are printed in thousandths of a millimetre, turns in hundredths of a degree, nothing mirrored', async () => {
    const blanks = lopsidedBlanks(6, 12, 800);
    const { layout } = await nest(blanks, factsOf([board([1490, 1180])], GAP));
    for (const { xMm, yMm, turnDeg, mirrored } of layout.boards.flatMap(({ placed: standing }) => standing)) {
      expect(Number(xMm.toFixed(3))).toBe(xMm);
      expect(Number(yMm.toFixed(3))).toBe(yMm);
      expect(Number(turnDeg.toFixed(2))).toBe(turnDeg);
      expect(mirrored).toBe(false);
    }
  });
});

describe('the same layout', () => {
  const facts = factsOf([board([1490, 1180], { trimMm: 7 })], GAP);

  test('from the same seed, in line or in lanes that end in any order; another from another seed', async () => {
    const blanks = lopsidedBlanks(3, 14, 900, 40);
    const { layout } = await nest(blanks, facts, { effort: 60_000 });
    expect((await nest(blanks, facts, { effort: 60_000 })).layout).toEqual(layout);
    let calls = 0;
    const lanes: NonNullable<typeof QUIET.lanes> = async (tasks, work) => {
      calls++;
      const results: unknown[] = new Array(work.length);
      // Backward, and through a copy, as a worker's answer comes.
      for (let i = work.length - 1; i >= 0; i--) {
        results[i] = structuredClone(walkNow(tasks?.[work[i].task](structuredClone(work[i].input))));
      }
      return results;
    };
    expect((await nest(blanks, facts, { effort: 60_000, driver: { ...QUIET, lanes } })).layout).toEqual(layout);
    expect(calls).toBeGreaterThan(1);
    expect((await nest(blanks, facts, { effort: 60_000, seed: 2 })).layout).not.toEqual(layout);
  });

  test('from shuffled input, and but for the names from renamed input', async () => {
    const blanks = lopsidedBlanks(8, 15, 800);
    const { layout } = await nest(blanks, facts);
    const random = stream(8, 'shuffle');
    const shuffled = blanks.map((each) => ({ each, key: random() })).sort((a, b) => a.key - b.key);
    expect(
      (
        await nest(
          shuffled.map(({ each }) => each),
          facts,
        )
      ).layout,
    ).toEqual(layout);
    const renamed = blanks.map(({ pieces: [piece], ...rest }, i) => ({
      ...rest,
      pieces: [{ ...piece, name: `${99 - i}X` }],
    }));
    const places = (of: Layout) =>
      of.boards.map(({ placed: standing }) => standing.map(({ xMm, yMm, turnDeg }) => [xMm, yMm, turnDeg]));
    expect(places((await nest(renamed, facts)).layout)).toEqual(places(layout));
  });

  test('from the effort that was used; a greater effort is never worse, and saves boards', async () => {
    const blanks = lopsidedBlanks(5, 18, 900, 30);
    const { layout: short } = await nest(blanks, facts, { effort: 1 });
    const { layout: long } = await nest(blanks, facts, { effort: 60_000 });
    expectSound(blanks, long, facts);
    expect(long.evaluations).toBeGreaterThan(short.evaluations);
    expect((await nest(blanks, facts, { effort: long.evaluations })).layout).toEqual(long);
    // A case that placing one by one does not solve, and parting overlaps does.
    expect([short.boards.length, long.boards.length]).toEqual([3, 2]);
  });

  test('progress grows from 0 to 1 and no further', async () => {
    const seen: number[] = [];
    await nest(lopsidedBlanks(10, 9, 700), facts, { driver: { ...QUIET, report: (done) => void seen.push(done) } });
    expect(seen.length).toBeGreaterThan(9);
    expect(seen).toEqual([...seen].sort((a, b) => a - b));
    expect(seen[0]).toBeGreaterThanOrEqual(0);
    expect(seen[seen.length - 1]).toBe(1);
  });
});

describe('known cases', () => {
  test('pieces exactly as wide as what is usable fit, two to a board exactly a gap apart', async () => {
    const usable: readonly [number, number] = [1490 - 14, 1180 - 14];
    const half = (usable[1] - GAP) / 2;
    const blanks = [1, 2, 3, 4].map((i) =>
      blank(`${i}A`, [rectangle(310.007 * i, 77, 310.007 * i + usable[0], 77 + half)]),
    );
    const facts = factsOf([board([1490, 1180], { trimMm: 7 })], GAP);
    const { layout } = await nest(blanks, facts);
    expectSound(blanks, layout, facts);
    expect(layout.boards).toHaveLength(2);
    expect(layout.bound.boards).toBe(2);
  });

  // Ten layers of a ramp 2.4 × 3.6 m, 50 mm each (worked example with known areas): layer k is 2400 × 3600 (1 − k/10).
  // A layer of 3600 (1 − k/10) divides into strips of 1200 and a rest of 1080, 720, 360 or 0, wide as the board is long:
  // 3 3 2 2 2 1 1 1 0 0 whole boards = 15, and rests 240 (k = 1: 3240 = 2 × 1200 + 840) … counted below.
  test('the strips of a ramp reach the number that can be counted by hand', async () => {
    const strips = Array.from({ length: 10 }, (_, k) => 3600 - 360 * k).flatMap((depth) => {
      const whole = Math.floor(depth / 1200);
      return [...Array.from({ length: whole }, () => 1200), ...(depth % 1200 > 0 ? [depth % 1200] : [])];
    });
    // Fifteen… whole boards by count; rests 840, 480, 120, 960, 600, 240, 1080, 720, 360 pair to boards of 1200 exactly:
    // 840 + 360, 480 + 720, 120 + 1080, 960 + 240, and 600 alone.
    const rests = strips.filter((strip) => strip < 1200);
    expect([...rests].sort((a, b) => a - b)).toEqual([120, 240, 360, 480, 600, 720, 840, 960, 1080]);
    const known = strips.length - rests.length + 5;
    const blanks = strips.map((strip, i) => blank(`${i + 1}A`, [rectangle(0, 13 * i, 2400, 13 * i + strip)]));
    const facts = factsOf([board([2400, 1200])], 0, [], 0.4);
    const { layout } = await nest(blanks, facts);
    expectSound(blanks, layout, facts);
    expect(layout.bound.boards).toBe(known);
    expect(layout.boards).toHaveLength(known);
  });

  test('a small piece goes into the void of a large one, the gap kept all round', async () => {
    const ring: Region = [rectangle(0, 0, 1180, 870), reversed(rectangle(210, 190, 960, 700))];
    const blanks = [blank('1A', ring), blank('2A', [rectangle(3000, 3000, 3700, 3450)])];
    const facts = factsOf([board([1200, 890], { trimMm: 5 })], GAP);
    const { layout } = await nest(blanks, facts);
    expectSound(blanks, layout, facts);
    expect(layout.boards).toHaveLength(1);
    const [outer, inner] = regionOn(layout, blanks, 0).map((region) => boxOf(region));
    expect(inner[0]).toBeGreaterThan(outer[0] + 210);
    expect(inner[2]).toBeLessThan(outer[2] - 210);
  });

  test('saved offcuts are used before a board is bought, the smallest that does first; the rest are kept', async () => {
    const blanks = [blank('1A', [rectangle(0, 0, 330, 250)])];
    const offcuts = [
      offcut('large', [rectangle(0, 0, 900, 700)]),
      offcut('thick', [rectangle(0, 0, 500, 400)], 75),
      offcut('small', [rectangle(0, 0, 340, 255)]),
    ];
    const facts = factsOf([board([1490, 1180])], GAP, offcuts);
    const { layout } = await nest(blanks, facts);
    expectSound(blanks, layout, facts);
    expect(layout.boards.map(({ stock }) => stock)).toEqual(['small']);
    expect(layout.unusedOffcuts.map(({ name }) => name)).toEqual(['large', 'thick']);
    expect(layout.bound.boards).toBe(0);
  });

  test('money first: two cheap boards rather than one dear one, and the smallest that takes what is on it', async () => {
    const blanks = [blank('1A', [rectangle(0, 0, 700, 480)]), blank('2A', [rectangle(0, 0, 690, 470)])];
    const large = board([1490, 1180], { name: 'large', price: 31 });
    const small = board([720, 500], { name: 'small', price: 12 });
    const stocks = async (boards: readonly ReturnType<typeof board>[]) => {
      const facts = factsOf(boards, GAP);
      const { layout } = await nest(blanks, facts);
      expectSound(blanks, layout, facts);
      return layout.boards.map(({ stock }) => stock);
    };
    expect(await stocks([large, small])).toEqual(['small', 'small']);
    expect(await stocks([{ ...large, price: 23 }, small])).toEqual(['large']);
    // Without a price there is only the number.
    expect(await stocks([large, { ...small, price: null }])).toEqual(['large']);
  });

  test('boards of each thickness carry their own pieces, thin ones first', async () => {
    const blanks = [blank('2A', [rectangle(0, 0, 600, 410)], 75), blank('1A', [rectangle(0, 0, 640, 430)], 50)];
    const facts = factsOf([board([900, 700], { thicknessMm: 75 }), board([910, 690])], GAP);
    const { layout } = await nest(blanks, facts);
    expectSound(blanks, layout, facts);
    expect(layout.boards.map(({ thicknessMm, placed: [{ piece }] }) => [thicknessMm, piece])).toEqual([
      [50, '1A'],
      [75, '2A'],
    ]);
    expect(layout.bound.boards).toBe(2);
  });

  test('the pieces of one blank stay together and share one number', async () => {
    const [left, right] = [rectangle(100, 50, 400, 350), rectangle(400, 50, 760, 350)];
    const two: Blank = { pieces: [...blank('1A', [left]).pieces, ...blank('1C', [right]).pieces], sharedCuts: [] };
    const { layout } = await nest([two, blank('2A', [rectangle(0, 0, 200, 90)])], factsOf([board([900, 700])], GAP));
    const [first, second] = layout.boards[0].placed;
    expect([first.piece, second.piece]).toEqual(['1A', '1C']);
    expect({ ...first, piece: '' }).toEqual({ ...second, piece: '' });
    expect(layout.boards[0].placed[2].blank).toBe(first.blank + 1);
  });

  test.each([
    [1110, 820],
    [1240, 1190],
  ])('a long thin piece that fits %i × %i only askew is placed askew', async (width, height) => {
    const blanks = [blank('1A', [rectangle(0, 0, 1290, 40)])];
    const facts = factsOf([board([width, height])], GAP);
    const { layout } = await nest(blanks, facts);
    expectSound(blanks, layout, facts);
    expect(layout.boards[0].placed[0].turnDeg % 90).not.toBe(0);
  });

  test('nothing to place needs no boards', async () => {
    const { layout } = await nest([], factsOf([board([1110, 820])], GAP));
    expect(layout).toMatchObject({ boards: [], bound: { boards: 0 }, wishes: [], evaluations: 0 });
  });

  test('remainders are named after the board, the largest first, and as large as what is left', async () => {
    const blanks = [blank('1A', [rectangle(0, 0, 500, 690)])];
    const { layout } = await nest(blanks, factsOf([board([1110, 700], { name: 'EPS 70', trimMm: 5 })], GAP), {
      turns: 'fixed',
    });
    const [{ offcuts }] = layout.boards;
    expect(offcuts.map(({ name }) => name)).toEqual(['EPS 70-1-A']);
    const [minX, minY, maxX, maxY] = boxOf(offcuts[0].rings);
    expect([minY, maxX, maxY]).toEqual([5, 1105, 695]);
    expect(minX).toBeGreaterThanOrEqual(507);
    expect(minX).toBeLessThan(508.5);
    expect(regionArea(offcuts[0].rings)).toBeCloseTo((1105 - minX) * 690, 3);
  });
});

describe('impossible jobs say what, where and the way out', () => {
  const refusal = async (blanks: readonly Blank[], facts: Facts) => {
    try {
      await nest(blanks, facts, { effort: 1 });
    } catch (error) {
      if (error instanceof CannotMake) return error.faults;
      throw error;
    }
    return [];
  };

  test('a piece larger than every board: its size, and the board that would do', async () => {
    const facts = factsOf([board([1110, 820], { trimMm: 10 })], GAP);
    const [fault, ...others] = await refusal(
      [blank('3C', [rectangle(0, 0, 1300, 805)]), blank('3A', [rectangle(0, 0, 90, 80)])],
      facts,
    );
    expect(others).toEqual([]);
    expect(fault).toMatchObject({ code: 'nest/too-large', where: { piece: '3C', layer: 3 } });
    expect(fault.message).toContain('1300 mm × 805 mm');
    expect(fault.fix).toContain('1321 mm × 826 mm');
  });

  test('a thickness that is not in the stock', async () => {
    const [fault] = await refusal([blank('3C', [rectangle(0, 0, 130, 85)], 30)], factsOf([board([1110, 820])], GAP));
    expect(fault).toMatchObject({ code: 'nest/no-board-of-thickness', where: { piece: '3C' } });
    expect(fault.message).toContain('30 mm');
    expect(fault.fix).toContain('50 mm');
  });

  test('too few boards: how many more', async () => {
    const blanks = [1, 2, 3, 4, 5].map((i) => blank(`${i}A`, [rectangle(0, 0, 1000 + i, 700)]));
    const [fault] = await refusal(blanks, factsOf([board([1110, 820], { count: 2 })], GAP));
    expect(fault.code).toBe('nest/too-few-boards');
    expect(fault.message).toContain('2 boards of 50 mm can be had; 3 more are needed');
  });

  test('pieces that only an offcut takes, when it is taken', async () => {
    const blanks = [1, 2].map((i) => blank(`${i}A`, [rectangle(0, 0, 1000 + i, 700)]));
    const facts = factsOf([board([900, 600])], GAP, [offcut('kept', [rectangle(0, 0, 1010, 720)])]);
    expect((await refusal(blanks, facts))[0].code).toBe('nest/offcuts-taken');
  });
});

describe('wishes', () => {
  // Three of these fill a board; the fourth, a sliver, needs a second one.
  const bars = [390, 391, 392].map((width, i) => blank(`${i + 1}A`, [rectangle(0, 0, width, 780)]));
  const sliver = blank('4A', [rectangle(0, 0, 760, 30)]);

  test('a piece that has a board nearly to itself is named, once', async () => {
    const facts = factsOf([board([1200, 800])], 4);
    const { layout, findings } = await nest([...bars, sliver], facts);
    expectSound([...bars, sliver], layout, facts);
    expect(layout.boards).toHaveLength(2);
    expect(layout.wishes).toEqual(layout.bound.boards < 2 ? [{ piece: '4A' }] : []);
    expect(findings.map(({ code }) => code)).toEqual(layout.wishes.map(() => 'nest/nearly-empty-board'));
    expect(layout.wishes).toHaveLength(1);
  });

  test('none on boards that hold more', async () => {
    const { layout, findings } = await nest(
      [...bars, blank('4A', [rectangle(0, 0, 760, 300)])],
      factsOf([board([1200, 800])], 4),
    );
    expect(layout.wishes).toEqual([]);
    expect(findings).toEqual([]);
  });
});

test('enough ends the search at the end of a round, with a whole layout', async () => {
  const blanks = lopsidedBlanks(12, 12, 900);
  const facts = factsOf([board([1490, 1180])], GAP);
  const { layout } = await nest(blanks, facts, { effort: 10_000_000, driver: { ...QUIET, ask: () => 'enough' } });
  expectSound(blanks, layout, facts);
  expect(layout.evaluations).toBeLessThan(1_000_000);
});

test('its input stays as it was', async () => {
  const blanks = lopsidedBlanks(13, 6, 700);
  const before = structuredClone(blanks);
  await nest(blanks, factsOf([board([1490, 1180])], GAP));
  expect(blanks).toEqual(before);
  expect(plugin.summary.length).toBeLessThan(100);
});
