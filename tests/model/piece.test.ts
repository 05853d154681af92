/** Letters of pieces and joints. */
import { expect, test } from 'vitest';
import { LETTERS, letters } from '../../src/model/piece.ts';

test('letters that are misread by hand or in bad light are left out', () => {
  // I and 1, O, Q and 0, S and 5, Z and 2, B and 8: the digits they are taken for (common practice, no source).
  expect([...LETTERS].filter((letter) => 'IOQSZB'.includes(letter))).toEqual([]);
  expect([...LETTERS].sort().join('')).toBe(LETTERS);
  expect(new Set(LETTERS).size).toBe(20);
});

test('they go A, C … Y, then AA, AC …', () => {
  expect([0, 1, 2, 18, 19].map(letters)).toEqual(['A', 'C', 'D', 'X', 'Y']);
  expect([20, 21, 39, 40, 41].map(letters)).toEqual(['AA', 'AC', 'AY', 'CA', 'CC']);
  expect([419, 420, 421].map(letters)).toEqual(['YY', 'AAA', 'AAC']);
});

test('no two numbers have the same letters, and longer ones come later', () => {
  const all = Array.from({ length: 9000 }, (_, n) => letters(n));
  expect(new Set(all).size).toBe(9000);
  for (let n = 1; n < all.length; n++) {
    const [before, after] = [all[n - 1], all[n]];
    expect(before.length < after.length || (before.length === after.length && before < after)).toBe(true);
  }
});
