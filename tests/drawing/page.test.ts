import { expect, test } from 'vitest';
import { lettered } from '../../src/drawing/lettering.ts';
import { boxOfLine, boxOfMarks, openLine, shifted, smaller, toPage, turnedUp } from '../../src/drawing/page.ts';
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

test('lettering moves and turns with its strokes', () => {
  const [moved] = shifted([lettered('6', { heightMm: 10, xMm: 3, yMm: 4, turnDeg: 20 })], 5, -1);
  expect(moved.text).toMatchObject({ text: '6', xMm: 8, yMm: 3, turnDeg: 20 });
  const [turned] = turnedUp([moved], 100);
  expect(turned.text).toMatchObject({ xMm: 3, yMm: 92, turnDeg: 110 });
  // Written anew where it says that it stands, it has the same strokes.
  const again = lettered('6', { heightMm: 10, xMm: 3, yMm: 92, turnDeg: 110 });
  for (const [i, { points }] of turned.lines.entries()) {
    for (const [k, value] of points.entries()) expect(value).toBeCloseTo(again.lines[i].points[k], 9);
  }
});

test('what is drawn of marks lies in their box, pens and all', () => {
  expect(boxOfMarks([])).toBeNull();
  const marks = [
    { pen: PENS.cut, lines: [openLine(10, 20, 30, 50)] },
    { pen: PENS.thin, lines: smaller([openLine(10, 20, 30, 70)], 0.5) },
  ];
  expect(boxOfMarks(marks)).toEqual([5 - 0.175, 10 - 0.175, 30.35, 50.35]);
});
