import { expect, test } from 'vitest';
import { boxOfLine, openLine, shifted, toPage, turnedUp } from '../../src/drawing/page.ts';
import { PENS } from '../../src/drawing/pen.ts';

test('the flip turns y and nothing else, and twice is none', () => {
  const points = new Float64Array([3, 1, 17.5, 40.25, -2, 6]);
  expect([...toPage(points, 50)]).toEqual([3, 49, 17.5, 9.75, -2, 44]);
  expect(toPage(toPage(points, 50), 50)).toEqual(points);
});

test('a quarter turn reads upward and stays in its box', () => {
  const marks = [{ pen: PENS.cut, lines: [openLine(0, 0, 102, 8), openLine(20, 3, 90, 3)] }];
  const [{ lines }] = turnedUp(marks, 102);
  expect(boxOfLine(lines[0])).toEqual([0, 0, 8, 102]);
  // What ran to the right now runs up the page.
  expect([...lines[1].points]).toEqual([3, 82, 3, 12]);
});

test('a smaller drawing keeps its pens', () => {
  const [mark] = shifted([{ pen: PENS.cut, lines: [openLine(10, 20, 30, 50)] }], 4, -7, 0.5);
  expect([...mark.lines[0].points]).toEqual([9, 3, 19, 18]);
  expect(mark.pen).toBe(PENS.cut);
});
