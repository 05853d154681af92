/** Boolean operations and offsets: area identities, a second library, and what must be refused. */
import Module from 'manifold-3d';
import { describe, expect, test } from 'vitest';
import {
  intersect,
  linesInside,
  offset,
  regionsFromRings,
  regionsWherePositive,
  subtract,
  unite,
} from '../../src/geometry/clip.ts';
import { stream } from '../../src/geometry/random.ts';
import {
  areaOf,
  distanceToRings,
  isInside,
  moved,
  type Region,
  rectangle,
  regionArea,
  reversed,
  ringArea,
  ringsOf,
} from '../../src/geometry/ring.ts';
import { pairsOf, starRing, tangledRing } from '../help/star-rings.ts';

// Reference: manifold-3d 3.5.4, CrossSection, whose plane geometry is another author's code (Clipper2, in C++).
const wasm = await Module();
wasm.setup();
const { CrossSection } = wasm;
const reference = (regions: readonly Region[]) => new CrossSection(ringsOf(regions).map(pairsOf), 'EvenOdd');

/**
 * Corners that come to lie where two edges cross are rounded to thousandths; on these areas, 600 to 900 round, that moved
 * an area by 0.019 at most (measured).
 */
const ROUNDING = 0.05;

/** Two ragged areas with a hole each, which overlap by about half. */
function twoAreas(seed: number): [Region[], Region[]] {
  const random = stream(seed, 'clip');
  const one = (x: number, y: number, size: number): Region[] => [
    [
      starRing(random, x, y, 0.7 * size, 1.3 * size, 23 + Math.floor(20 * random())),
      reversed(starRing(random, x + 0.1 * size, y, 0.1 * size, 0.5 * size, 7 + Math.floor(9 * random()))),
    ],
  ];
  return [one(61, 43, 40), one(61 + 30 * random(), 43 + 50 * random(), 29)];
}

const SEEDS = Array.from({ length: 12 }, (_, i) => 101 + i);

describe.each(SEEDS)('two ragged areas, seed %i', (seed) => {
  const [a, b] = twoAreas(seed);
  const both = intersect(a, b);
  const any = unite([...a, ...b]);
  const rest = subtract(a, b);

  test('areas add up', () => {
    expect(areaOf(both)).toBeGreaterThan(10);
    expect(Math.abs(areaOf(any) + areaOf(both) - areaOf(a) - areaOf(b))).toBeLessThan(ROUNDING);
    expect(Math.abs(areaOf(rest) + areaOf(both) - areaOf(a))).toBeLessThan(ROUNDING);
    expect(Math.abs(areaOf(any) - areaOf(rest) - areaOf(b))).toBeLessThan(ROUNDING);
  });

  test('a second library finds the same areas', () => {
    const [p, q] = [reference(a), reference(b)];
    expect(Math.abs(areaOf(any) - p.add(q).area())).toBeLessThan(ROUNDING);
    expect(Math.abs(areaOf(both) - p.intersect(q).area())).toBeLessThan(ROUNDING);
    expect(Math.abs(areaOf(rest) - p.subtract(q).area())).toBeLessThan(ROUNDING);
  });

  test('outer rings run counter-clockwise, holes clockwise, and each hole lies in its own outer ring', () => {
    const random = stream(seed, 'tangled');
    for (const regions of [any, both, rest, regionsFromRings([tangledRing(random, 140, 90, 13)])]) {
      for (const [outer, ...holes] of regions) {
        expect(ringArea(outer)).toBeGreaterThan(0);
        for (const hole of holes) {
          expect(ringArea(hole)).toBeLessThan(0);
          expect(Math.abs(areaOf(intersect([[reversed(hole)]], [[outer]])) + ringArea(hole))).toBeLessThan(0.1);
        }
      }
    }
  });

  test('every coordinate is a whole thousandth', () => {
    for (const at of ringsOf([...any, ...both, ...rest]).flatMap((ring) => [...ring])) {
      expect(at).toBe(Math.round(at * 1000) / 1000);
    }
  });

  test('a tangle read by even-odd rule, and where it winds to the left, agree with the second library', () => {
    const ring = tangledRing(stream(seed, 'tangle'), 140, 90, 13);
    expect(
      Math.abs(areaOf(regionsFromRings([ring])) - new CrossSection([pairsOf(ring)], 'EvenOdd').area()),
    ).toBeLessThan(ROUNDING);
    const left = new CrossSection([pairsOf(ring)], 'Positive').area();
    expect(Math.abs(areaOf(regionsWherePositive([ring])) - left)).toBeLessThan(ROUNDING);
  });
});

describe('offset', () => {
  const SAG = 0.05;
  const DISTANCES = [3.7, 0.61, -0.43, -2.2];

  test.each(SEEDS.slice(0, 6))('keeps its distance, never more, and short of 2.25 × sag at worst, seed %i', (seed) => {
    const [a] = twoAreas(seed);
    for (const by of DISTANCES) {
      const grown = offset(a, by, { sag: SAG });
      expect(areaOf(grown)).toBeGreaterThan(0);
      for (const ring of ringsOf(grown)) {
        for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
          for (const t of [0, 0.25, 0.5, 0.75]) {
            const x = ring[j] + t * (ring[i] - ring[j]);
            const y = ring[j + 1] + t * (ring[i + 1] - ring[j + 1]);
            const distance = distanceToRings(x, y, ringsOf(a));
            expect(distance).toBeGreaterThan(Math.abs(by) - 2.25 * SAG);
            expect(distance).toBeLessThan(Math.abs(by) + 0.002); // the grid
            expect(isInside(x, y, a)).toBe(by < 0);
          }
        }
      }
    }
  });

  test('a rectangle grows by its edge times the distance and a circle, and shrinks to a rectangle', () => {
    // Steiner's formula for a convex body: area + perimeter × d + π d² (J. Steiner, 1840).
    const [wide, deep, by, sag] = [41, 23, 5.5, 0.001];
    const area = wide * deep + 2 * (wide + deep) * by + Math.PI * by * by;
    const grown = areaOf(offset([[rectangle(7, -3, 7 + wide, deep - 3)]], by, { sag }));
    expect(grown).toBeLessThan(area + 0.2);
    expect(grown).toBeGreaterThan(area - 2 * Math.PI * by * 2.25 * sag - 0.2);
    expect(areaOf(offset([[rectangle(7, -3, 7 + wide, deep - 3)]], -by))).toBeCloseTo(
      (wide - 2 * by) * (deep - 2 * by),
      2,
    );
  });

  test('mitred corners stay sharp', () => {
    const sharp = offset([[rectangle(2, 3, 43, 26)]], 5.5, { joins: 'miter' });
    expect(sharp).toHaveLength(1);
    expect(regionArea(sharp[0])).toBeCloseTo(52 * 34, 6);
  });

  test('shrinking by more than half the width leaves nothing, and nothing grows to nothing', () => {
    expect(offset([[rectangle(0, 0, 40, 13)]], -6.6)).toEqual([]);
    expect(offset([], 9)).toEqual([]);
  });
});

test('islands within holes within islands are sorted, whatever the order and sense of their rings', () => {
  const nested = [
    rectangle(0, 0, 97, 61),
    rectangle(5, 7, 83, 55),
    rectangle(11, 13, 47, 41),
    rectangle(17, 19, 29, 31),
    rectangle(52, 15, 71, 44),
  ];
  const wanted = [97 * 61 - 78 * 48, 36 * 28 - 12 * 12, 19 * 29].sort((p, q) => p - q);
  const shuffled = [nested[3], reversed(nested[0]), nested[4], reversed(nested[2]), nested[1]];
  for (const rings of [nested, shuffled]) {
    const areas = regionsFromRings(rings).map(regionArea);
    expect(areas.sort((p, q) => p - q)).toEqual(wanted);
  }
});

test('40 metres from the origin the areas are the same', () => {
  const [a, b] = twoAreas(77);
  const far = (regions: readonly Region[]) =>
    regions.map((region) => region.map((ring) => moved(ring, 39_983, -40_117)));
  expect(areaOf(far(a))).toBeCloseTo(areaOf(a), 6);
  expect(areaOf(intersect(far(a), far(b)))).toBeCloseTo(areaOf(intersect(a, b)), 1);
  expect(areaOf(unite(far([...a, ...b])))).toBeCloseTo(areaOf(unite([...a, ...b])), 1);
});

test('lines are cut to what lies inside, hole left out', () => {
  const region: Region = [rectangle(0, 0, 50, 30), reversed(rectangle(20, 10, 34, 22))];
  const inside = linesInside([Float64Array.from([-9, 15, 61, 15])], [region]);
  const spans = inside.map((line) => [Math.min(line[0], line[2]), Math.max(line[0], line[2])]);
  expect(spans.sort((p, q) => p[0] - q[0])).toEqual([
    [0, 20],
    [34, 50],
  ]);
  expect(linesInside([], [region])).toEqual([]);
  expect(linesInside([Float64Array.from([1, 2, 3, 4])], [])).toEqual([]);
});

test.each([Number.NaN, Infinity, -Infinity])('a coordinate of %d is refused, not answered with nothing', (bad) => {
  const spoilt = [[Float64Array.from([0, 0, 40, bad, 17, 23])]];
  const good = [[rectangle(0, 0, 31, 17)]];
  expect(() => unite(spoilt)).toThrow('not a number');
  expect(() => intersect(good, spoilt)).toThrow('not a number');
  expect(() => subtract(spoilt, good)).toThrow('not a number');
  expect(() => offset(spoilt, 2)).toThrow('not a number');
  expect(() => regionsFromRings(spoilt[0])).toThrow('not a number');
});

test('nothing, flat rings and rings of two points give nothing', () => {
  const good: Region[] = [[rectangle(0, 0, 31, 17)]];
  expect(unite([])).toEqual([]);
  expect(intersect(good, [])).toEqual([]);
  expect(subtract([], good)).toEqual([]);
  expect(areaOf(subtract(good, []))).toBe(31 * 17);
  for (const flat of [Float64Array.from([0, 0, 9, 4, 18, 8]), Float64Array.from([1, 2, 8, 5]), new Float64Array(0)]) {
    expect(unite([[flat]])).toEqual([]);
    expect(areaOf(subtract(good, [[flat]]))).toBe(31 * 17);
  }
});

test('inputs are left as they were', () => {
  const [a, b] = twoAreas(5);
  const before = structuredClone([a, b]);
  for (const work of [unite([...a, ...b]), intersect(a, b), subtract(a, b), offset(a, 1)])
    expect(work.length).toBeGreaterThan(0);
  expect([a, b]).toEqual(before);
});
