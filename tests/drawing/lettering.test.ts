import { describe, expect, test } from 'vitest';
import { GLYPHS } from '../../src/drawing/lettering/strokes.ts';
import { fitText, inkBox, lettered, textWidth, wrapText, writable } from '../../src/drawing/lettering.ts';
import { boxOfLine } from '../../src/drawing/page.ts';

const boxOf = (text: string, heightMm: number, turnDeg = 0) => {
  const boxes = lettered(text, { heightMm, xMm: 37, yMm: 91, turnDeg }).lines.map(boxOfLine);
  return [
    Math.min(...boxes.map((box) => box[0])),
    Math.min(...boxes.map((box) => box[1])),
    Math.max(...boxes.map((box) => box[2])),
    Math.max(...boxes.map((box) => box[3])),
  ];
};

describe('what is written', () => {
  test.each([
    ['7C', '7C'],
    ['Žlutý kůň', 'Zlutý kun'],
    ['Œuvre, Ægir, Łódź', 'OEuvre, AEgir, Lódz'],
    ['a\tb\u00a0c\n d', 'a b c d'],
    ['a\u0000\u0007b\u200d', 'ab'],
    ['hill 🏔️ top', 'hill \ufffd top'],
    ['山', '\ufffd'],
    ['<script>"&\'', '<script>"&\''],
    ['\ud800', '\ufffd'],
  ])('%j is written %j', (text, expected) => {
    expect(writable(text)).toBe(expected);
    // Twice is once: what is written can be written.
    expect(writable(writable(text))).toBe(expected);
  });

  test('every character of the face has finite strokes and an advance', () => {
    expect(Object.keys(GLYPHS)).toHaveLength(187);
    for (const character of Object.keys(GLYPHS)) {
      const { lines } = lettered(character, { heightMm: 5, xMm: 0, yMm: 0 });
      expect(textWidth(character, 5), character).toBeGreaterThan(0);
      for (const { points } of lines) {
        expect(points.length, character).toBeGreaterThanOrEqual(4);
        expect(points.every(Number.isFinite), character).toBe(true);
      }
    }
  });

  test('a character that nobody has is a box as high as a capital, not nothing', () => {
    const [, top, , bottom] = boxOf('山', 14);
    expect(bottom - top).toBeCloseTo(14, 6);
  });
});

describe('sizes', () => {
  // ISO 3098: the nominal height of lettering is the height of its capitals, and the stroke of type B a tenth of it.
  test.each([2.5, 7, 40])('capitals of %d mm lettering are that high, and the stroke a tenth', (heightMm) => {
    for (const capital of ['A', 'H', 'T', 'X']) {
      const [, top, , bottom] = boxOf(capital, heightMm);
      expect((bottom - top) / heightMm, capital).toBeGreaterThan(0.94);
      expect((bottom - top) / heightMm, capital).toBeLessThan(1.02);
    }
    expect(lettered('A', { heightMm, xMm: 0, yMm: 0 }).pen.widthMm).toBeCloseTo(heightMm / 10, 12);
  });

  test('the ink box holds the strokes with their width, and an underline lies under a 6 and a 9', () => {
    const box = inkBox('69j', 20, true);
    const bare = inkBox('69', 20);
    expect(box[3]).toBeGreaterThan(bare[3] + 3);
    for (const line of lettered('69j', { heightMm: 20, xMm: 0, yMm: 0, underlined: true }).lines) {
      const [minX, minY, maxX, maxY] = boxOfLine(line);
      expect(minX - 1).toBeGreaterThanOrEqual(box[0] - 1e-9);
      expect(minY - 1).toBeGreaterThanOrEqual(box[1] - 1e-9);
      expect(maxX + 1).toBeLessThanOrEqual(box[2] + 1e-9);
      expect(maxY + 1).toBeLessThanOrEqual(box[3] + 1e-9);
    }
  });

  test('a quarter turn counter-clockwise reads upward: width and height change places', () => {
    const [left, top, right, bottom] = boxOf('LEFT', 9);
    const turned = boxOf('LEFT', 9, 90);
    expect(turned[2] - turned[0]).toBeCloseTo(bottom - top, 9);
    expect(turned[3] - turned[1]).toBeCloseTo(right - left, 9);
    expect(turned[3]).toBeLessThanOrEqual(91);
    expect(turned[2]).toBeLessThanOrEqual(37 + 1e-9);
  });

  test('middle and right stand where they say', () => {
    const at = (align: 'left' | 'middle' | 'right') =>
      Math.min(...lettered('EPS 70', { heightMm: 5, xMm: 0, yMm: 0, align }).lines.map((line) => boxOfLine(line)[0]));
    const width = textWidth('EPS 70', 5);
    expect(at('left') - at('middle')).toBeCloseTo(width / 2, 9);
    expect(at('left') - at('right')).toBeCloseTo(width, 9);
  });
});

describe('text that is too long', () => {
  const long = `A bank ${'of very long names '.repeat(20)}`;

  test('is cut to its room and shows that it was', () => {
    const cut = fitText(long, 3.5, 61);
    expect(textWidth(cut, 3.5)).toBeLessThanOrEqual(61);
    expect(textWidth(cut, 3.5)).toBeGreaterThan(50);
    expect(cut.endsWith('...')).toBe(true);
    expect(fitText('short', 3.5, 61)).toBe('short');
  });

  test('is broken at spaces, and nothing of it is lost', () => {
    const lines = wrapText(long, 2.5, 47);
    for (const line of lines) expect(textWidth(line, 2.5)).toBeLessThanOrEqual(47);
    expect(lines.join(' ')).toBe(long.trim());
    expect(wrapText('', 2.5, 47)).toEqual([]);
    expect(wrapText('Llanfairpwllgwyngyllgogerychwyrndrobwllllantysiliogogogoch', 5, 20)).toHaveLength(1);
  });
});
