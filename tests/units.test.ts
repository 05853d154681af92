/** Lengths as people write them, and numbers as they are written for people. */
import { describe, expect, test } from 'vitest';
import { lengthText, MM_IN, numberText, toMm, UNITS } from '../src/units.ts';

test('an inch is 25.4 mm, a foot 304.8 mm, to the digit', () => {
  // International yard and pound agreement, 1959: one yard is 0.9144 m exactly.
  expect(36 * MM_IN.in).toBe(914.4);
  expect(MM_IN.ft).toBe(304.8);
  expect(toMm('1 in', 'mm')).toBe(25.4);
  expect(toMm(3, 'ft')).toBe(914.4);
  expect(toMm('8 ft', 'mm')).toBe(2438.4);
});

describe('toMm', () => {
  test('a plain number counts in the job’s unit, a written unit wins', () => {
    expect(UNITS.map((unit) => toMm(7, unit))).toEqual([7, 70, 7000, 177.8, 2133.6]);
    expect(UNITS.map((unit) => toMm('7', unit))).toEqual([7, 70, 7000, 177.8, 2133.6]);
    expect(UNITS.map((unit) => toMm('1.2 m', unit))).toEqual([1200, 1200, 1200, 1200, 1200]);
  });

  test.each([
    ['50mm', 50],
    ['  12.5 cm ', 125],
    ['.5 m', 500],
    ['5. in', 127],
    ['+3', 3],
    ['-40 mm', -40],
    ['1.5e2', 150],
    ['2E-1 m', 200],
  ])('%j is %d mm', (text, mm) => {
    expect(toMm(text, 'mm')).toBe(mm);
  });

  test('a factor leaves no binary noise', () => {
    expect(2.01 * 1000).not.toBe(2010);
    expect(toMm(2.01, 'm')).toBe(2010);
    expect(0.07 * 10).not.toBe(0.7);
    expect(toMm('0.07 cm', 'mm')).toBe(0.7);
    expect(0.35 * 304.8).not.toBe(106.68);
    expect(toMm(0.35, 'ft')).toBe(106.68);
    expect(toMm('0.0003 mm', 'mm')).toBe(0.0003);
  });

  test.each([
    '',
    ' ',
    'mm',
    '5 km',
    '5 MM',
    '1,5 m',
    '1 2',
    '0x10',
    '--3',
    '5 mm 3',
    '1e',
    'Infinity',
    'NaN',
    '٣',
    "8'",
    '2"',
    '1/2 in',
  ])('%j is not a length', (text) => {
    expect(toMm(text, 'mm')).toBeNaN();
  });

  test('a number past all measure stays one, so that limits can refuse it', () => {
    expect(toMm('1e999', 'mm')).toBe(Infinity);
    expect(toMm(1e300, 'm')).toBe(1e303);
    expect(toMm(Number.NaN, 'mm')).toBeNaN();
  });
});

describe('numberText', () => {
  test.each([
    [1200, 3, '1200'],
    [0.5, 3, '0.5'],
    [12.34567, 3, '12.346'],
    [100.1004, 3, '100.1'],
    [-7.25, 1, '-7.3'],
    [19.96, 1, '20'],
    [110, 0, '110'],
    [1000.5, 0, '1001'],
  ])('%d with %i decimals is %s', (value, decimals, text) => {
    expect(numberText(value, decimals)).toBe(text);
  });

  test('never an exponent, never −0', () => {
    for (const value of [-0, -0.0004, 0.0004, 1e-9, -1e-300]) expect(numberText(value)).toBe('0');
    expect(numberText(-0.4, 0)).toBe('0');
    for (const value of [1e20, 1e21, -3e25, 1.7e308]) expect(numberText(value)).toMatch(/^-?\d+$/);
    for (const value of [1e21, -3e25, 1.7e308]) expect(Number(numberText(value))).toBe(value);
  });

  test('what is written is read back to half of the last decimal', () => {
    for (let i = 1; i < 400; i++) {
      const value = (i * 7919.123457) / (1 + (i % 13) * 97) - 3000;
      for (const decimals of [0, 1, 2, 3, 6]) {
        const text = numberText(value, decimals);
        expect(text).toMatch(/^-?(0|[1-9]\d*)(\.\d*[1-9])?$/);
        expect(Math.abs(Number(text) - value)).toBeLessThanOrEqual(0.5 / 10 ** decimals + 1e-11);
      }
    }
  });

  test.each([Number.NaN, Infinity, -Infinity])('%d is refused', (value) => {
    expect(() => numberText(value)).toThrow('not a number');
  });
});

test('lengths for people have their unit and no more decimals than it is worth', () => {
  expect(UNITS.map((unit) => lengthText(1203.3, unit))).toEqual([
    '1203 mm',
    '120.3 cm',
    '1.203 m',
    '47.37 in',
    '3.95 ft',
  ]);
  expect(lengthText(1200, 'in')).toBe('47.24 in');
  expect(lengthText(1203.34, 'mm', 1)).toBe('1203.3 mm');
  expect(lengthText(-0.2, 'mm')).toBe('0 mm');
});
