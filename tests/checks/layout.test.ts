import { describe, expect, test } from 'vitest';
import { layout as check } from '../../src/checks/layout.ts';
import { type Ring, rectangle, reversed } from '../../src/geometry/ring.ts';
import type { Facts } from '../../src/model/facts.ts';
import type { Layout, LayoutBoard, Placed } from '../../src/model/layout.ts';
import type { Blank } from '../../src/model/piece.ts';
import { blank, board, factsOf, lopsidedBlanks, offcut, planOf } from '../help/nesting.ts';
import { nest } from '../help/run-nest.ts';

const put = (piece: string, number: number, xMm: number, yMm: number, turnDeg = 0): Placed => ({
  piece,
  blank: number,
  turnDeg,
  mirrored: false,
  xMm,
  yMm,
});

const laid = (placed: readonly Placed[], more: Partial<LayoutBoard> = {}): LayoutBoard => ({
  number: 1,
  stock: 'foam 1100',
  sizeMm: [1100, 700],
  thicknessMm: 50,
  densityKgM3: 15,
  trimMm: 5,
  placed,
  offcuts: [],
  ...more,
});

const facts = factsOf([board([1100, 700], { trimMm: 5, count: 2 })], 8);

function codes(blanks: readonly Blank[], boards: readonly LayoutBoard[], of: Facts = facts): string[] {
  const layout: Layout = { boards, bound: { boards: 0, why: '' }, unusedOffcuts: [], evaluations: 0, wishes: [] };
  return check(planOf(blanks, layout, of)).map(({ level, code }) => `${level} ${code}`);
}

const two = [blank('1A', [rectangle(0, 0, 300, 210)]), blank('1C', [rectangle(0, 0, 260, 190)])];

const ringBlank = blank('1A', [rectangle(0, 0, 600, 510), reversed(rectangle(100, 110, 420, 390))]);
const heart = blank('3A', [rectangle(100, 110, 420, 390)]);

describe('what it lets pass', () => {
  test('pieces exactly a gap apart and exactly at the trim', () => {
    expect(codes(two, [laid([put('1A', 1, 5, 5), put('1C', 2, 313, 5)])])).toEqual([]);
    expect(codes(two, [laid([put('1A', 1, 795, 485), put('1C', 2, 787 - 260, 5)])])).toEqual([]);
  });

  test('pieces that touch, where the gap is 0: at edges, at corners, and part of an edge', () => {
    const none = factsOf([board([1100, 700], { trimMm: 5 })], 0);
    for (const [x, y] of [
      [305, 5],
      [305, 215],
      [305, 60],
      [5, 215],
    ]) {
      expect(codes(two, [laid([put('1A', 1, 5, 5), put('1C', 2, x, y)])], none)).toEqual([]);
    }
  });

  test('pieces of one blank that share a cut, turned to an odd angle', () => {
    const shared = { pieces: [...ringBlank.pieces, ...heart.pieces], sharedCuts: [] };
    expect(codes([shared], [laid([put('1A', 1, 200, 10, 17.31), put('3A', 1, 200, 10, 17.31)])])).toEqual([]);
  });

  test('a piece in the void of another', () => {
    const ring = blank('1A', [rectangle(0, 0, 600, 510), reversed(rectangle(100, 110, 420, 390))]);
    expect(codes([ring, two[1]], [laid([put('1A', 1, 5, 5), put('1C', 2, 113, 123)])])).toEqual([]);
  });
});

describe('what it stops', () => {
  test('a gap that is short by a hundredth of a millimetre, with the distance in words', () => {
    const boards = [laid([put('1A', 1, 5, 5), put('1C', 2, 312.99, 5)])];
    expect(codes(two, boards)).toEqual(['stop checks/gap']);
    const layout: Layout = { boards, bound: { boards: 0, why: '' }, unusedOffcuts: [], evaluations: 0, wishes: [] };
    const [{ message, where }] = check(planOf(two, layout, facts));
    expect(message).toBe('Piece 1A and Piece 1C are 7.99 mm apart on board 1; the gap is 8 mm.');
    expect(where).toEqual({ board: 1 });
  });

  test('a corner that comes near an edge between its ends', () => {
    // The corner (0, 0) of 1C, turned by an eighth, points down at the long upper edge of 1A.
    expect(codes(two, [laid([put('1A', 1, 5, 5), put('1C', 2, 190, 222.9, 45)])])).toEqual(['stop checks/gap']);
    expect(codes(two, [laid([put('1A', 1, 5, 5), put('1C', 2, 190, 223, 45)])])).toEqual([]);
  });

  test.each([
    ['crossing', 250, 130],
    ['one inside the other', 15, 12],
    ['one upon the other, corner to corner', 5, 5],
    ['along the same line', 120, 5],
  ])('an overlap, %s', (_, x, y) => {
    for (const gapMm of [8, 0]) {
      const of = factsOf([board([1100, 700], { trimMm: 5 })], gapMm);
      expect(codes(two, [laid([put('1A', 1, 5, 5), put('1C', 2, x, y)])], of)).toEqual(['stop checks/pieces-overlap']);
    }
  });

  test('the same piece outline twice on one spot', () => {
    const twins = [two[0], blank('2A', two[0].pieces[0].region)];
    const of = factsOf([board([1100, 700], { trimMm: 5 })], 0);
    expect(codes(twins, [laid([put('1A', 1, 55, 45), put('2A', 2, 55, 45)])], of)).toEqual([
      'stop checks/pieces-overlap',
    ]);
  });

  test('pieces of one blank that have slipped: over one another, or one upon the other', () => {
    const slipped = { pieces: [...ringBlank.pieces, ...heart.pieces], sharedCuts: [] };
    const boards = (x: number) => [laid([put('1A', 1, 200, 10, 17.31), put('3A', 1, x, 10, 17.31)])];
    expect(codes([slipped], boards(200.01))).toEqual(['stop checks/pieces-overlap']);
    const twins = { pieces: [...heart.pieces, ...blank('5A', [rectangle(100, 110, 420, 390)]).pieces], sharedCuts: [] };
    const upon = [laid([put('3A', 1, 40, 40), put('5A', 1, 40, 40)])];
    expect(codes([twins], upon)).toEqual(['stop checks/pieces-overlap']);
  });

  test.each([
    ['left', 4.99, 5],
    ['below', 5, 4.99],
    ['right', 795.01, 5],
    ['above', 5, 485.01],
  ])('a piece beyond the trim, %s', (_, x, y) => {
    expect(codes([two[0]], [laid([put('1A', 1, x, y)])])).toEqual(['stop checks/outside-board']);
  });

  test('a piece beyond a saved offcut, on its hole, and across its notch', () => {
    const outline = new Float64Array([0, 0, 900, 0, 900, 650, 520, 650, 500, 400, 480, 650, 0, 650]);
    const rings: Ring[] = [outline, reversed(rectangle(600, 90, 640, 120))];
    const of = factsOf([], 8, [offcut('kept', rings)]);
    const on = (x: number, y: number) =>
      codes([two[0]], [laid([put('1A', 1, x, y)], { stock: 'kept', rings, sizeMm: [900, 650], trimMm: 0 })], of);
    expect(on(20, 30)).toEqual([]);
    expect(on(601, 300)).toEqual(['stop checks/outside-board']);
    expect(on(560, 60)).toEqual(['stop checks/outside-board']);
    expect(on(330, 420)).toEqual(['stop checks/outside-board']);
    expect(on(950, 30)).toEqual(['stop checks/outside-board']);
  });

  test('a piece that is missing, twice, or unknown', () => {
    expect(codes(two, [laid([put('1A', 1, 5, 5)])])).toEqual(['stop checks/piece-missing']);
    const boards = [laid([put('1A', 1, 5, 5), put('1C', 2, 400, 5)]), laid([put('1A', 1, 5, 5)], { number: 2 })];
    expect(codes(two, boards)).toEqual(['stop checks/piece-twice']);
    expect(codes([two[0]], [laid([put('1A', 1, 5, 5), put('9Y', 2, 400, 5)])])).toEqual(['stop checks/unknown-piece']);
  });

  test('a board of another thickness, of another name, and one too many', () => {
    const one = [two[0]];
    expect(codes(one, [laid([put('1A', 1, 5, 5)], { thicknessMm: 75 })])).toEqual(['stop checks/board-thickness']);
    expect(codes(one, [laid([put('1A', 1, 5, 5)], { stock: 'cork' })])).toEqual(['stop checks/unknown-board']);
    const few = factsOf([board([1100, 700], { trimMm: 5, count: 1 })], 8);
    const boards = [laid([put('1A', 1, 5, 5)]), laid([put('1C', 1, 5, 5)], { number: 2 })];
    expect(codes(two, boards, few)).toEqual(['stop checks/too-many-boards']);
  });
});

test('a sound layout that is disturbed by two gaps in any direction is stopped, seed 21', async () => {
  const blanks = lopsidedBlanks(21, 12, 700);
  const of = factsOf([board([1100, 900], { trimMm: 5 })], 8);
  const { layout } = await nest(blanks, of, { effort: 1 });
  expect(codes(blanks, layout.boards, of)).toEqual([]);
  const full = layout.boards.reduce((most, each) => (each.placed.length > most.placed.length ? each : most));
  for (const [dx, dy] of [
    [-16, 0],
    [16, 0],
    [0, -16],
    [0, 16],
  ]) {
    const placed = full.placed.map((each, i) => (i === 0 ? { ...each, xMm: each.xMm + dx, yMm: each.yMm + dy } : each));
    const others = layout.boards.map((each) => (each === full ? { ...each, placed } : each));
    // The largest piece was slid to the lower left: it is stopped by the trim or by a neighbour there.
    if (dx < 0 || dy < 0) expect(codes(blanks, others, of).length).toBeGreaterThan(0);
  }
});
