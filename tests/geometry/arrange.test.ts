import { describe, expect, test } from 'vitest';
import { arrange } from '../../src/geometry/arrange.ts';
import { regionsFromRings } from '../../src/geometry/clip.ts';
import { contours } from '../../src/geometry/contour.ts';
import { stream } from '../../src/geometry/random.ts';
import { areaOf, type Region, rectangle, reversed, ringArea, ringsOf } from '../../src/geometry/ring.ts';
import { fromWhole, toWhole } from '../../src/geometry/whole.ts';
import { crossingIn } from '../help/random-rings.ts';

const shape = (regions: readonly Region[]) =>
  regions.map((region) => region.map((ring) => Math.round(ringArea(ring)))).sort((a, b) => a[0] - b[0]);

describe('sound rings', () => {
  test('nested four deep, given in any order and sense, come out under one another', () => {
    const rings = [
      rectangle(30, 31, 58, 57),
      reversed(rectangle(1, 2, 90, 83)),
      rectangle(40, 41, 50, 47),
      rectangle(11, 13, 77, 71),
      rectangle(100, 5, 117, 9),
      reversed(rectangle(80, 3, 85, 9)),
    ];
    const regions = arrange(rings);
    expect(shape(regions)).toEqual([[17 * 4], [28 * 26, -10 * 6], [89 * 81, -5 * 6, -66 * 58]]);
    for (const ring of ringsOf(regions)) {
      const found = rings.some((given) => [given, reversed(given)].some((each) => each.join() === ring.join()));
      expect(found, 'rings that need no clipping keep their points').toBe(true);
    }
  });

  test('none in, none out', () => {
    expect(arrange([])).toEqual([]);
  });

  test('interlocking combs, each beside the other', () => {
    const teeth = [0, 0, 49, 0, 49, 30, 40, 30, 40, 10, 29, 10, 29, 30, 20, 30, 20, 10, 9, 10, 9, 30, 0, 30];
    const down = Float64Array.from(teeth, (value, i) => (i % 2 === 0 ? 595 : 440) - 10 * value);
    const up = Float64Array.from(teeth, (value) => 10 * value);
    expect(arrange([up, down, rectangle(294, 150, 301, 220)])).toHaveLength(3);
  });
});

describe('rings that meet', () => {
  test('corner to corner they stay as they are', () => {
    const rings = [rectangle(0, 0, 13, 7), rectangle(13, 7, 22, 31)];
    expect(arrange(rings).map(([ring]) => [...ring])).toEqual(rings.map((ring) => [...ring]));
  });

  test('along an edge they become one', () => {
    expect(shape(arrange([rectangle(0, 0, 13, 7), rectangle(13, 0, 22, 7)]))).toEqual([[22 * 7]]);
  });

  test('a hole that shares an edge with its outline is a bay', () => {
    expect(shape(arrange([rectangle(0, 0, 40, 30), rectangle(25, 10, 40, 21)]))).toEqual([[1200 - 165]]);
  });

  test('crossing ones count where an odd number lies', () => {
    const regions = arrange([rectangle(0, 0, 20, 11), rectangle(15, 4, 37, 19), rectangle(50, 50, 61, 57)]);
    expect(areaOf(regions)).toBe(220 + 330 - 2 * 35 + 77);
    expect(crossingIn(ringsOf(regions))).toBeNull();
  });

  test('a hole that is clipped by itself stays a hole', () => {
    // The bow tie crosses itself; its outline is sound and is not clipped with it.
    const bow = Float64Array.from([10, 10, 30, 22, 30, 10, 10, 22]);
    const regions = arrange([rectangle(0, 0, 60, 40), bow]);
    expect(regions).toHaveLength(1);
    expect(areaOf(regions)).toBe(2400 - 2 * 60);
  });
});

describe('whole numbers', () => {
  test('repeats and spikes go, also across the beginning; rings with nothing left go too', () => {
    const ring = Float64Array.from([5, 0, 9, 0, 9, 4, 9, 4, 9, 7, 9, 4, 2, 4, -3, 4, 2, 4, 2, 0, 1, 0]);
    expect(toWhole([ring]).map((each) => [...each])).toEqual([[5000, 0, 9000, 0, 9000, 4000, 2000, 4000, 2000, 0]]);
    expect(toWhole([Float64Array.from([1, 1, 5, 3, 9, 5, 5, 3])])).toEqual([]);
    expect(toWhole([Float64Array.from([0, 0, 4, 0, 0.0001, 0])])).toEqual([]);
  });

  test('there is no -0, and the way back gives the same bits as clipping', () => {
    const ring = Float64Array.from([-0.0001, 0.0004, 3.3, -0.00049, 1.1, 7.7]);
    const [whole] = toWhole([ring]);
    expect([...whole].some((value) => Object.is(value, -0))).toBe(false);
    expect([...fromWhole([[whole]])[0][0]].sort()).toEqual([...regionsFromRings([ring])[0][0]].sort());
  });
});

test.each(Array.from({ length: 30 }, (_, i) => i + 1))(
  'random ground at coarse heights gives what clipping gives, seed %i',
  (seed) => {
    const next = stream(seed, 'arrange');
    const [columns, rows] = [11, 8];
    const values = Float64Array.from({ length: columns * rows }, () => Math.floor(5 * next()));
    const at = contours({ columns, rows, stepX: 2.7, stepY: 4.1, originX: 0, originY: 0, values });
    for (const rule of ['above', 'at least'] as const) {
      const rings = at(2, rule);
      const regions = arrange(toWhole(rings));
      expect(areaOf(regions) / 1e6).toBeCloseTo(areaOf(regionsFromRings(rings)), 6);
      expect(areaOf(regions)).toBe(toWhole(rings).reduce((sum, ring) => sum + ringArea(ring), 0));
      expect(crossingIn(ringsOf(regions))).toBeNull();
    }
  },
);
