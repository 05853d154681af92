import { describe, expect, test } from 'vitest';
import { intersect } from '../../src/geometry/clip.ts';
import { flushRectangles } from '../../src/geometry/enclosing.ts';
import { areaOf, type Region, regionArea } from '../../src/geometry/ring.ts';
import { ringHull } from '../../src/geometry/ring-hull.ts';
import type { Way } from '../../src/model/facts.ts';
import { type BoxMm, goesInto, largestOnWay, passesDoor, passesStair } from '../../src/model/way.ts';
import { faultsOf, split } from '../help/split-run.ts';
import { randomStack, splitFacts } from '../help/stacks.ts';

const SEEDS = Array.from({ length: 14 }, (_, i) => 101 + 7 * i);
const LEAST_MM = 100;
const NO_WAY: Way = { door: null, stair: null, lift: null, van: null };

const pointsOf = (line: Float64Array): string[] =>
  Array.from({ length: line.length / 2 }, (_, i) => `${line[2 * i]},${line[2 * i + 1]}`);

/** The boxes of a piece with a side along one of its own: long side, short side. */
function boxesOf(region: Region): (readonly [number, number])[] {
  const flush = flushRectangles(ringHull(region[0]));
  return Array.from({ length: flush.length / 2 }, (_, i) => {
    const [a, b] = [flush[2 * i], flush[2 * i + 1]];
    return [Math.max(a, b), Math.min(a, b)] as const;
  });
}

/** Narrowest strip, or mean width along the long side of the smallest rectangle. */
function widthMm(region: Region): number {
  const boxes = boxesOf(region);
  const [long] = boxes.reduce((best, box) => (box[0] * box[1] < best[0] * best[1] ? box : best));
  return Math.min(...boxes.map(([, short]) => short), regionArea(region) / long);
}

describe.each(SEEDS)('hill of seed %i', (seed) => {
  const stack = randomStack(seed);
  const { pieces, of } = split('solid', stack);

  test('pieces add up to their layers', () => {
    for (const { number, regions } of stack.layers) {
      const sum = of(number).reduce((total, { areaMm2 }) => total + areaMm2, 0);
      // Ends of seams are put on edges to the thousandth.
      expect(Math.abs(sum - areaOf(regions))).toBeLessThan(0.01 * of(number).length);
    }
  });

  test('both sides of every joint have the very same points', () => {
    const sides = new Map<string, string[]>();
    for (const { joints } of pieces) {
      for (const { label, line } of joints) sides.set(label, [...(sides.get(label) ?? []), `${[...line]}`]);
    }
    for (const lines of sides.values()) {
      expect(lines).toHaveLength(2);
      expect(lines[0]).toBe(lines[1]);
    }
    for (const { joints, region } of pieces) {
      const corners = region.flatMap(pointsOf);
      for (const { line } of joints) expect(corners).toEqual(expect.arrayContaining(pointsOf(line)));
    }
  });

  test('no piece that a seam touches is narrower than two thicknesses', () => {
    const narrow = pieces.filter(({ region, joints }) => joints.length > 0 && widthMm(region) < LEAST_MM);
    expect(narrow.map(({ name }) => name)).toEqual([]);
  });

  test('every piece passes a door, a stair and a van, and is no heavier than a lift takes', () => {
    const way: Way = {
      door: { widthMm: 760, heightMm: 1040 },
      stair: { widthMm: 800, heightMm: 1900, turns: true },
      lift: { lengthMm: 2600, widthMm: 1100, heightMm: 2000, payloadKg: 1.2 },
      van: { lengthMm: 1900, widthMm: 1150, heightMm: 1200, payloadKg: null },
    };
    const made = split('solid', stack, { facts: splitFacts({ way }) });
    for (const { region, thicknessMm, areaMm2 } of made.pieces) {
      const boxes = boxesOf(region).map(([long, short]): BoxMm => [long, short, thicknessMm]);
      const passes = (test: (box: BoxMm) => boolean) => expect(boxes.some(test)).toBe(true);
      passes((box) => passesDoor(box, way.door as NonNullable<Way['door']>));
      passes((box) => passesStair(box, way.stair as NonNullable<Way['stair']>));
      passes((box) => goesInto(box, way.lift as NonNullable<Way['lift']>));
      passes((box) => goesInto(box, way.van as NonNullable<Way['van']>));
      expect(areaMm2 * thicknessMm * 1e-9 * 15).toBeLessThanOrEqual(1.2);
    }
  });
});

test.each([
  [{ ...NO_WAY, door: { widthMm: 700, heightMm: 1950 } }],
  [{ ...NO_WAY, door: { widthMm: 40, heightMm: 90 } }],
  [{ ...NO_WAY, stair: { widthMm: 850, heightMm: null, turns: true } }],
  [{ ...NO_WAY, stair: { widthMm: 850, heightMm: 1230, turns: false } }],
  [{ ...NO_WAY, van: { lengthMm: 1100, widthMm: 1700, heightMm: 900, payloadKg: null } }],
] as [Way][])('the largest that passes %o passes, and nothing larger', (way) => {
  const thick = 50;
  const [long, short] = largestOnWay(way, thick);
  const passes = (box: BoxMm) =>
    (way.door === null || passesDoor(box, way.door)) &&
    (way.stair === null || passesStair(box, way.stair)) &&
    (way.van === null || goesInto(box, way.van));
  for (let a = 60; a < 2600; a += 37) {
    for (let b = 60; b <= a; b += 29) expect(passes([a, b, thick])).toBe(a <= long && b <= short);
  }
});

test('a way that no piece passes is refused with its place', () => {
  const facts = splitFacts({ way: { ...NO_WAY, door: { widthMm: 30, heightMm: 40 } } });
  const [fault] = faultsOf(() => split('solid', randomStack(3), { facts }));
  expect(fault).toMatchObject({ code: 'split/way-too-narrow', where: { path: 'doors', layer: 1 } });
});

test('wishes for pieces of a hollow hill divide those very pieces, though voids and names beneath change', () => {
  const stack = randomStack(8, { widthMm: 5200, depthMm: 3300 });
  const before = split('hollow', stack);
  const wished = [1, 2, 3].map((layer) => before.of(layer).reduce((a, b) => (b.areaMm2 > a.areaMm2 ? b : a)));
  const after = split('hollow', stack, { wishes: wished.map(({ name }) => ({ piece: name })) });
  for (const { layer, region, areaMm2 } of wished) {
    const largest = Math.max(...after.of(layer).map((piece) => areaOf(intersect([piece.region], [region]))));
    expect(largest).toBeLessThan(0.75 * areaMm2);
  }
});
