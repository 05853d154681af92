import { expect, test } from 'vitest';
import { bands } from '../../src/geometry/bands.ts';
import { regionsWherePositive, unite } from '../../src/geometry/clip.ts';
import { stream } from '../../src/geometry/random.ts';
import { areaOf, type Region, type Ring, ringArea } from '../../src/geometry/ring.ts';
import { sections } from '../../src/geometry/sections.ts';
import type { Solid } from '../../src/model/landform.ts';
import { walkNow } from '../../src/walk.ts';
import { insideOut, MUSHROOM, mapped, polygonArea, prism, together, turned } from '../help/solids.ts';

const surface = ({ positionsMm, triangles }: Solid) => ({ positions: positionsMm, triangles });
const cutAt = (of: Solid, levels: number[], rule: 'above' | 'at or above') =>
  walkNow(sections(surface(of), levels, rule));
const covered = (of: Solid, levels: number[]) => walkNow(bands(surface(of), levels, 'covered'));
const filled = (of: Solid, levels: number[]) => walkNow(bands(surface(of), levels, 'filled'));
const area = (rings: readonly Ring[]) => rings.reduce((sum, ring) => sum + ringArea(ring), 0);
/** How much of `inner` lies outside `outer`. */
const excess = (inner: readonly Region[], outer: readonly Region[]) =>
  areaOf(unite([...inner, ...outer])) - areaOf(outer);

const LOPSIDED = [
  [3, 1],
  [47, 6],
  [61, 38],
  [31, 51],
  [7, 29],
] as const;
const lopsidedArea = area([Float64Array.from(LOPSIDED.flat())]);

test('an overhang counts in the band where it begins', () => {
  const levels = [0, 20, 40, 60];
  const regions = covered(MUSHROOM, levels).map((rings) => areaOf(unite([rings])));
  // At z = 40 the cap is 31 + 3 × 7 / 14 in radius; its widest is 34, in the band above.
  expect(regions).toEqual([
    expect.closeTo(polygonArea(12, 29), 1),
    expect.closeTo(polygonArea(32.5, 29), 1),
    expect.closeTo(polygonArea(34, 29), 1),
  ]);
  const solidThrough = filled(MUSHROOM, levels).map((rings) => areaOf(regionsWherePositive(rings)));
  // The stem is filled to its waist at 9, and by the band's top no wider; over z = 58 there is nothing.
  expect(solidThrough).toEqual([
    expect.closeTo(polygonArea(12 - (3 * 20) / 26, 29), 1),
    expect.closeTo(polygonArea(9, 29), 1),
    0,
  ]);
});

test('without an overhang the rings are the sections, to the last bit', () => {
  const cone = turned(
    [
      [0, 2],
      [40, 2],
      [13, 32],
      [0, 32],
    ],
    17,
    51,
    44,
  );
  const levels = [2, 9, 20.5, 31];
  expect(covered(cone, levels)).toEqual(cutAt(cone, levels.slice(0, -1), 'above'));
  expect(filled(cone, levels)).toEqual(cutAt(cone, levels.slice(1), 'at or above'));
});

test('what cancels is gone: an undercut block is one ring with the corners of its outline', () => {
  // A block that leans out all round: from 40 × 30 below to 60 × 50 above.
  const block = mapped(
    prism(
      [
        [10, 10],
        [50, 10],
        [50, 40],
        [10, 40],
      ],
      0,
      20,
    ),
    (x, y, z) => (z === 0 ? [x, y, z] : [x === 10 ? 0 : 60, y === 10 ? 0 : 50, z]),
  );
  const [rings] = covered(block, [5, 13]);
  expect(rings.length).toBe(1);
  expect(area(rings)).toBeCloseTo((40 + 13) * (30 + 13), 9);
  const [through] = filled(block, [5, 13]);
  expect(through.length).toBe(1);
  expect(area(through)).toBeCloseTo((40 + 5) * (30 + 5), 9);
});

test('a flat underside exactly on a level counts in no band; inside a band it does', () => {
  const shelf = prism(LOPSIDED, 12, 19);
  expect(covered(shelf, [0, 12, 24]).map(area)).toEqual([0, expect.closeTo(lopsidedArea, 9)]);
  expect(covered(shelf, [0, 11, 24]).map(area)).toEqual([0, expect.closeTo(lopsidedArea, 9)]);
  expect(covered(shelf, [0, 13, 24]).map(area)).toEqual([
    expect.closeTo(lopsidedArea, 9),
    expect.closeTo(lopsidedArea, 9),
  ]);
  // A flat top on a level loses no layer and gains none.
  expect(filled(shelf, [12, 15, 19, 22]).map(area)).toEqual([
    expect.closeTo(lopsidedArea, 9),
    expect.closeTo(lopsidedArea, 9),
    0,
  ]);
  expect(covered(shelf, [12, 19, 22]).map(area)).toEqual([expect.closeTo(lopsidedArea, 9), 0]);
});

test('a cavity within a band is not filled over, and what is over and under it is covered', () => {
  const hollow = together(
    prism(LOPSIDED, 0, 30),
    insideOut(
      turned(
        [
          [0, 11],
          [4, 11],
          [3, 16],
          [0, 16],
        ],
        9,
        34,
        21,
      ),
    ),
  );
  const levels = [0, 10, 20, 30];
  expect(covered(hollow, levels).map((rings) => areaOf(unite([rings])))).toEqual(
    [1, 1, 1].map(() => expect.closeTo(lopsidedArea, 1)),
  );
  expect(filled(hollow, levels).map((rings) => areaOf(regionsWherePositive(rings)))).toEqual([
    expect.closeTo(lopsidedArea, 1),
    expect.closeTo(lopsidedArea - polygonArea(4, 9), 1),
    expect.closeTo(lopsidedArea, 1),
  ]);
});

test('any bumpy tyre: every section of a band lies in what is covered and holds what is filled', () => {
  const random = stream(5, 'bands');
  for (let round = 0; round < 25; round++) {
    const profile = [
      [7, 5],
      [19, 2],
      [26, 14],
      [21, 31],
      [11, 36],
      [5, 20],
    ] as const;
    // Every third time, heights on the levels themselves.
    const bumpy = mapped(turned(profile, 11, 30, 33), (x, y, z) => [
      x + 4 * random(),
      y + 4 * random(),
      round % 3 === 0 ? [8.5, 13, 21.25, 29, 34][Math.floor(5 * random())] : z + 5 * random(),
    ]);
    const levels = [8.5, 13, 21.25, 29];
    const most = covered(bumpy, levels);
    const least = filled(bumpy, levels);
    const below = cutAt(bumpy, levels, 'above');
    const above = cutAt(bumpy, levels, 'at or above');
    for (let k = 0; k + 1 < levels.length; k++) {
      // Covered is the lower section and the faces that look down; filled the upper section without them.
      expect(area(most[k]) + area(least[k])).toBeCloseTo(area(below[k]) + area(above[k + 1]), 8);
      const proud = unite([most[k]]);
      const shy = regionsWherePositive(least[k]);
      const shadows: Region[] = [];
      for (let t = 1; t < 24; t++) {
        const [within] = cutAt(bumpy, [levels[k] + (t / 24) * (levels[k + 1] - levels[k])], 'above');
        const section = regionsWherePositive(within);
        expect(excess(section, proud)).toBeLessThan(0.1);
        if (round % 3 !== 0) expect(excess(shy, unite([within]))).toBeLessThan(0.1);
        shadows.push(...section);
      }
      // And no more is covered than what some section nearly reaches.
      if (round % 3 !== 0) expect(areaOf(proud) - areaOf(unite(shadows))).toBeLessThan(0.02 * areaOf(proud));
    }
  }
});
