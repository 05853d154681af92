import { expect, test } from 'vitest';
import { boardPrices, type StockBoard } from '../../src/model/stock.ts';

const board = (
  thicknessMm: number,
  price: number | null,
  count: number | null,
  sizeMm: readonly [number, number] = [1200, 2400],
) => ({ name: '', sizeMm, thicknessMm, densityKgM3: 20, price, count, trimMm: 100, faced: false }) satisfies StockBoard;

test('of each thickness the least price for a square metre inside the trim, and how much there is', () => {
  // 1 m × 2.2 m and 0.8 m × 0.8 m are left inside the trim.
  const small = [1000, 1000] as const;
  expect(
    boardPrices([
      board(50, 22, 3),
      board(30, null, 2),
      board(50, 9.6, 5, small),
      board(75, 11, 4),
      board(75, 44, null),
    ]),
  ).toEqual([
    { thicknessMm: 30, pricePerM2: null, onHandM2: expect.closeTo(4.4, 9) },
    { thicknessMm: 50, pricePerM2: 10, onHandM2: expect.closeTo(3 * 2.2 + 5 * 0.64, 9) },
    { thicknessMm: 75, pricePerM2: 5, onHandM2: null },
  ]);
  expect(boardPrices([])).toEqual([]);
});
