import { describe, expect, test } from 'vitest';
import type { Line } from '../../src/drawing/page.ts';
import { clipSegment } from '../../src/drawing/seen.ts';
import { stream } from '../../src/geometry/random.ts';
import { clipLine } from '../help/clip-line.ts';
import { lineLength } from '../help/read-svg.ts';

/** A random walk that leaves and enters boxes often; some of its points lie exactly on their edges. */
function wander(seed: number, closed: boolean): Line {
  const random = stream(seed, 'seen');
  const points = Array.from({ length: 120 }, () => (random() < 0.2 ? 100 * Math.floor(4 * random()) : 370 * random()));
  return { points: new Float64Array(points), closed };
}

describe.each([1, 2, 3, 4, 5, 6])('a wandering line, seed %d', (seed) => {
  const line = wander(seed, seed % 2 === 0);

  test('boxes side by side show all of it, each stretch once', () => {
    let shown = 0;
    for (let column = 0; column < 4; column++) {
      for (let row = 0; row < 4; row++) {
        const box = [column * 100, row * 100, column * 100 + 100, row * 100 + 100] as const;
        for (const run of clipLine(line, box)) {
          shown += lineLength(run);
          for (let i = 0; i < run.points.length; i += 2) {
            expect(run.points[i]).toBeGreaterThanOrEqual(box[0] - 1e-9);
            expect(run.points[i]).toBeLessThanOrEqual(box[2] + 1e-9);
            expect(run.points[i + 1]).toBeGreaterThanOrEqual(box[1] - 1e-9);
            expect(run.points[i + 1]).toBeLessThanOrEqual(box[3] + 1e-9);
          }
        }
      }
    }
    // What runs along a shared edge is shown by both its boxes.
    expect(shown).toBeCloseTo(lineLength(line) + alongEdges(line), 6);
  });
});

/** Length of a line that runs along the inner edges of the boxes. */
function alongEdges({ points, closed }: Line): number {
  let length = 0;
  const count = points.length / 2;
  for (let i = 0; i < (closed ? count : count - 1); i++) {
    const next = ((i + 1) % count) * 2;
    const [ax, ay, bx, by] = [points[2 * i], points[2 * i + 1], points[next], points[next + 1]];
    if (ax === bx && ax % 100 === 0 && ax > 0) length += Math.abs(by - ay);
    if (ay === by && ay % 100 === 0 && ay > 0) length += Math.abs(bx - ax);
  }
  return length;
}

test('what is wholly inside comes back as it is, and what is wholly outside not at all', () => {
  const line = { points: new Float64Array([10, 10, 20, 11, 14, 30]), closed: true };
  expect(clipLine(line, [0, 0, 40, 40])).toEqual([line]);
  expect(clipLine(line, [50, 0, 90, 40])).toEqual([]);
});

test('a segment that passes a corner of the box is not in it', () => {
  expect(clipSegment(-3, 8, 4, 15, [0, 0, 10, 10])).toBeNull();
  expect(clipSegment(-5, 5, 15, 5, [0, 0, 10, 10])).toEqual([0.25, 0.75]);
  expect(clipSegment(0, 2, 0, 7, [0, 0, 10, 10])).toEqual([0, 1]);
});
