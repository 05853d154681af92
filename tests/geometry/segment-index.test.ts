import fc from 'fast-check';
import { expect, test } from 'vitest';
import { squaredDistanceToSegment } from '../../src/geometry/ring.ts';
import { SegmentIndex } from '../../src/geometry/segment-index.ts';
import { walkNow } from '../../src/walk.ts';

const line = fc
  .array(fc.integer({ min: -40, max: 70 }), { minLength: 2, maxLength: 12 })
  .map((numbers) => Float64Array.from(numbers.slice(0, numbers.length - (numbers.length % 2))));
const lines = fc.array(line, { maxLength: 9 });

/** Segments of a line, one by one. */
const segments = (of: Float64Array) =>
  Array.from({ length: Math.max(0, of.length / 2 - 1) }, (_, i) => of.subarray(2 * i, 2 * i + 4));

test('near finds what looking at every segment finds', () => {
  fc.assert(
    fc.property(
      lines,
      fc.integer({ min: -50, max: 80 }),
      fc.integer({ min: -50, max: 80 }),
      fc.integer({ min: 1, max: 30 }),
      (all, x, y, reach) => {
        const wanted = all
          .map((each, line) => {
            const squared = segments(each).map(([ax, ay, bx, by]) => squaredDistanceToSegment(x, y, ax, ay, bx, by));
            return { line, distance: Math.sqrt(Math.min(...squared)) };
          })
          .filter(({ distance }) => distance <= reach);
        const index = new SegmentIndex(all);
        expect(index.near(x, y, reach)).toEqual(wanted);
        expect(index.distance(x, y, reach)).toBe(Math.min(Infinity, ...wanted.map(({ distance }) => distance)));
      },
    ),
    { seed: 3, numRuns: 300 },
  );
});

/** Whether two segments with whole coordinates have a point in common: by a walk along both boxes of signs. */
function meet([px, py, qx, qy]: Float64Array, [rx, ry, sx, sy]: Float64Array): boolean {
  const side = (ax: number, ay: number, bx: number, by: number, x: number, y: number) =>
    Math.sign((bx - ax) * (y - ay) - (by - ay) * (x - ax));
  const isOn = (ax: number, ay: number, bx: number, by: number, x: number, y: number) =>
    side(ax, ay, bx, by, x, y) === 0 && (x - ax) * (x - bx) <= 0 && (y - ay) * (y - by) <= 0;
  if (isOn(px, py, qx, qy, rx, ry) || isOn(px, py, qx, qy, sx, sy)) return true;
  if (isOn(rx, ry, sx, sy, px, py) || isOn(rx, ry, sx, sy, qx, qy)) return true;
  return (
    side(px, py, qx, qy, rx, ry) * side(px, py, qx, qy, sx, sy) < 0 &&
    side(rx, ry, sx, sy, px, py) * side(rx, ry, sx, sy, qx, qy) < 0
  );
}

test('meetings finds each pair of lines that meet, once, at a place on both', () => {
  fc.assert(
    fc.property(lines, (all) => {
      const found = walkNow(new SegmentIndex(all).meetings((a, b) => (a + b) % 3 !== 0, 1000));
      const wanted = all.flatMap((_, b) =>
        all
          .slice(0, b)
          .flatMap((_, a) =>
            (a + b) % 3 !== 0 && segments(all[a]).some((p) => segments(all[b]).some((q) => meet(p, q)))
              ? [`${a} ${b}`]
              : [],
          ),
      );
      expect(found.map(({ lines }) => lines.join(' ')).sort()).toEqual(wanted.sort());
      for (const { lines: pair, x, y } of found) {
        const off = pair.map((k) =>
          Math.sqrt(
            Math.min(...segments(all[k]).map(([ax, ay, bx, by]) => squaredDistanceToSegment(x, y, ax, ay, bx, by))),
          ),
        );
        expect(Math.max(...off)).toBeLessThan(1e-9);
      }
    }),
    { seed: 4, numRuns: 300 },
  );
});

test('at most so many are looked for, and none of nothing', () => {
  const star = Array.from({ length: 8 }, (_, k) => Float64Array.of(-9, k, 11, 7 - k));
  expect(walkNow(new SegmentIndex(star).meetings(() => true, 5))).toHaveLength(5);
  expect(walkNow(new SegmentIndex([]).meetings(() => true, 5))).toEqual([]);
  expect(new SegmentIndex([Float64Array.of(3, 4)]).near(3, 4, 9)).toEqual([]);
});
