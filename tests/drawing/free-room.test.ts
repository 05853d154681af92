import { expect, test } from 'vitest';
import { freeRoom } from '../../src/drawing/free-room.ts';
import { openLine } from '../../src/drawing/page.ts';
import { stream } from '../../src/geometry/random.ts';
import { isInRegion, type Ring } from '../../src/geometry/ring.ts';

test('what it finds is free: inside the page, off every region and line, until nothing is left', () => {
  const random = stream(8, 'room');
  const room = freeRoom(613, 407, 4);
  const triangles: Ring[] = Array.from({ length: 9 }, () => {
    const [x, y] = [560 * random(), 350 * random()];
    return new Float64Array([x, y, x + 90 * random(), y + 20, x + 30, y + 80 * random()]);
  });
  for (const triangle of triangles) room.takeRegion([triangle]);
  room.takeLines([openLine(0, 404, 613, 12)]);
  const boxes: number[][] = [];
  for (let at = room.find(43, 27); at; at = room.find(43, 27)) {
    const box = [at[0], at[1], at[0] + 43, at[1] + 27];
    for (const other of boxes) {
      expect(box[0] >= other[2] || other[0] >= box[2] || box[1] >= other[3] || other[1] >= box[3]).toBe(true);
    }
    boxes.push(box);
    room.takeBox([box[0], box[1], box[2], box[3]]);
    expect(boxes.length).toBeLessThan(250);
  }
  expect(boxes.length).toBeGreaterThan(40);
  for (const [left, top, right, bottom] of boxes) {
    expect(left >= 0 && top >= 0 && right <= 613 && bottom <= 407).toBe(true);
    for (let i = 0; i <= 12; i++) {
      for (let k = 0; k <= 12; k++) {
        const [x, y] = [left + ((right - left) * i) / 12, top + ((bottom - top) * k) / 12];
        expect(triangles.some((triangle) => isInRegion(x, y, [triangle]))).toBe(false);
      }
    }
    // All four corners on one side of the line.
    const side = (x: number, y: number) => Math.sign(613 * (y - 404) + 392 * x);
    expect(new Set([side(left, top), side(right, top), side(left, bottom), side(right, bottom)]).size).toBe(1);
  }
});

test('a hole in a region is room; a box larger than the page is never free', () => {
  const room = freeRoom(300, 200, 5);
  room.takeRegion([
    new Float64Array([0, 0, 300, 0, 300, 200, 0, 200]),
    new Float64Array([110, 60, 190, 60, 190, 140, 110, 140]),
  ]);
  const at = room.find(50, 40);
  expect(at).not.toBeNull();
  expect(at?.[0]).toBeGreaterThanOrEqual(110);
  expect(at?.[1]).toBeGreaterThanOrEqual(60);
  expect(room.find(90, 40)).toBeNull();
  expect(freeRoom(300, 200, 5).find(301, 10)).toBeNull();
});
