import { describe, expect, test } from 'vitest';
import { stream } from '../../src/geometry/random.ts';
import { packStrips, profileOf } from '../../src/geometry/strip-packing.ts';

const COLUMN = 5;
const AIR = 3;

/** The outline of a lopsided blob from (0, 0) on, as segments. */
function blob(random: () => number): Float64Array {
  const n = 5 + Math.floor(9 * random());
  const wide = 20 + 200 * random();
  const points = Array.from({ length: n }, (_, i) => {
    const turn = (2 * Math.PI * i) / n;
    const far = wide * (0.25 + random());
    return [far * Math.cos(turn), far * Math.sin(turn) * 0.7];
  });
  return Float64Array.from(points.flatMap(([x, y], i) => [x, y, ...points[(i + 1) % n]]));
}

const boxOf = (segments: Float64Array) => {
  const xs = segments.filter((_, i) => i % 2 === 0);
  const ys = segments.filter((_, i) => i % 2 === 1);
  return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
};

describe.each([3, 17, 40])('blobs, seed %d', (seed) => {
  const random = stream(seed, 'strips');
  const blobs = Array.from({ length: 30 }, () => blob(random));
  const columns = 120;
  const length = 900;
  const places = packStrips(
    blobs.map((each) => [profileOf(each, COLUMN, AIR)]),
    columns,
    length,
  );
  const lying = blobs.map((each, i) => {
    const place = places[i];
    if (!place) throw new Error('a blob was not placed');
    const [left, low] = boxOf(each);
    const [dx, dy] = [place.column * COLUMN + AIR - left, place.along + AIR - low];
    return { strip: place.strip, segments: each.map((value, k) => value + (k % 2 === 0 ? dx : dy)) };
  });

  test('each lies on its strip', () => {
    for (const { segments } of lying) {
      const [left, low, right, high] = boxOf(segments);
      expect(Math.min(left, low)).toBeGreaterThanOrEqual(AIR - 1e-9);
      expect(right).toBeLessThanOrEqual(columns * COLUMN);
      expect(high).toBeLessThanOrEqual(length);
    }
  });

  test('no two come nearer than the air round both', () => {
    const points = lying.map(({ segments }) => {
      const some: [number, number][] = [];
      for (let i = 0; i < segments.length; i += 4) {
        for (let t = 0; t < 1; t += 0.02) {
          some.push([
            segments[i] + t * (segments[i + 2] - segments[i]),
            segments[i + 1] + t * (segments[i + 3] - segments[i + 1]),
          ]);
        }
      }
      return some;
    });
    for (let a = 0; a < lying.length; a++) {
      for (let b = 0; b < a; b++) {
        if (lying[a].strip !== lying[b].strip) continue;
        for (const [x, y] of points[a]) {
          for (const [u, v] of points[b]) if (Math.hypot(x - u, y - v) < 2 * AIR - 0.01) expect.fail(`${a} meets ${b}`);
        }
      }
    }
  });

  test('it takes less than boxes one after the other', () => {
    const strips = new Set(lying.map(({ strip }) => strip)).size;
    const total = blobs.reduce((sum, each) => sum + boxOf(each)[3] - boxOf(each)[1], 0);
    expect(strips * length).toBeLessThan(total);
  });
});

test('what fits no strip is said, and nothing else is lost', () => {
  const box = (wide: number, high: number) =>
    profileOf(new Float64Array([0, 0, wide, 0, wide, 0, wide, high, wide, high, 0, high, 0, high, 0, 0]), COLUMN, 0);
  const places = packStrips([[box(90, 20)], [box(20, 300)], [box(300, 20), box(20, 90)], []], 20, 100);
  expect(places.map((place) => place && [place.strip, place.way])).toEqual([[1, 0], null, [0, 1], null]);
});

test('small ones go into the bay of a large one', () => {
  const bay = profileOf(
    new Float64Array([0, 0, 50, 80, 50, 80, 100, 0, 0, 0, 0, 100, 0, 100, 100, 100, 100, 100, 100, 0]),
    5,
    0,
  );
  const arch = { from: bay.from.map((y) => 100 - bay.to[0] + y), to: bay.to };
  const wedge = profileOf(new Float64Array([0, 0, 30, 0, 30, 0, 15, 20, 15, 20, 0, 0]), 5, 0);
  const [large, small] = packStrips([[arch], [wedge]], 20, 500);
  expect(large?.along).toBe(0);
  expect(small?.along).toBeGreaterThan(0);
});
