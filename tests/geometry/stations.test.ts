import { describe, expect, test } from 'vitest';
import { arrange } from '../../src/geometry/arrange.ts';
import { offset } from '../../src/geometry/clip.ts';
import { paceOf, stretchesOf } from '../../src/geometry/paces.ts';
import { stream } from '../../src/geometry/random.ts';
import { areaOf, type Region, type Ring, rectangle, reversed, ringArea, ringsOf } from '../../src/geometry/ring.ts';
import { ringAt, ruledVolume } from '../../src/geometry/ruled.ts';
import { leanAt, match, type Round, settled, uprightAlong, WHY, withinReach } from '../../src/geometry/stations.ts';
import { toWhole } from '../../src/geometry/whole.ts';
import { nestedRegions } from '../help/random-rings.ts';
import { starRing } from '../help/star-rings.ts';
import { crossingOf, goesOnceRound, linesOf } from '../help/wire-laws.ts';

const whole = (regions: readonly Region[]): Region[] => arrange(toWhole(ringsOf(regions)));
const ring = (...points: number[]): Ring => Float64Array.from(points);
const spiral = (turns: number, wide: number): Ring => {
  const side = (off: number) =>
    Array.from({ length: 20 * turns }, (_, i) => {
      const angle = (i * Math.PI) / 10;
      const radius = 30 + 9 * angle + off;
      return [100 + radius * Math.cos(angle), 110 + radius * Math.sin(angle)];
    });
  return Float64Array.from([...side(wide), ...side(-wide).reverse()].flat());
};

/** Undersides with tops in them, millimetres. */
const SHAPES: Readonly<Record<string, readonly [Region[], Region[]]>> = {
  'a pyramid’s squares': [[[rectangle(0, 0, 90, 90)]], [[rectangle(20, 20, 70, 70)]]],
  'a horseshoe in a horseshoe': [
    [[ring(0, 0, 120, 0, 120, 100, 80, 100, 80, 37, 41, 37, 41, 100, 0, 100)]],
    [[ring(9, 8, 109, 8, 109, 93, 92, 93, 92, 26, 31, 26, 31, 88, 9, 88)]],
  ],
  'a top in one leg of a horseshoe': [
    [[ring(0, 0, 120, 0, 120, 100, 80, 100, 80, 37, 41, 37, 41, 100, 0, 100)]],
    [[ring(7, 50, 33, 50, 33, 91, 7, 91)]],
  ],
  'a spiral': [offset([[spiral(4, 9)]], 6), [[spiral(4, 9)]]],
  'a star in a star': [
    [[starRing(stream(4, 'star'), 0, 0, 70, 160, 23)]],
    [[starRing(stream(5, 'star'), 3, 2, 20, 60, 17)]],
  ],
  'a ring round a hole': [
    [[rectangle(0, 0, 130, 110), reversed(rectangle(50, 45, 70, 60))]],
    [[rectangle(12, 15, 118, 104), reversed(rectangle(38, 37, 85, 71))]],
  ],
  'an island that splits in two': [
    [[ring(0, 0, 70, 22, 150, 0, 160, 70, 80, 52, 5, 75)]],
    [[rectangle(15, 20, 46, 55)], [rectangle(105, 18, 142, 50)]],
  ],
  'a hole that opens to the outside': [
    [[rectangle(0, 0, 130, 110), reversed(rectangle(50, 45, 70, 60))]],
    [[ring(12, 15, 118, 15, 118, 104, 85, 104, 85, 37, 38, 37, 38, 104, 12, 104)]],
  ],
  'a pit in the top': [[[rectangle(0, 0, 95, 85)]], [[rectangle(11, 9, 80, 70), reversed(rectangle(30, 31, 47, 45))]]],
  'a summit': [[[ring(0, 0, 70, 12, 55, 61, 9, 40)]], []],
  'edges shared with the top': [[[rectangle(0, 0, 95, 85)]], [[ring(0, 0, 60, 0, 41, 50, 0, 66)]]],
  'a corner of the top on an edge': [[[rectangle(0, 0, 95, 85)]], [[ring(40, 0, 77, 30, 30, 66)]]],
  'the same twice': [[[rectangle(0, 0, 95, 85)]], [[rectangle(0, 0, 95, 85)]]],
};

const nested = Array.from({ length: 8 }, (_, i) => i + 1).flatMap((seed) => {
  const regions = nestedRegions(seed, [20, 45, 70, 95]);
  return regions.slice(1).map((top, k) => [`rough ground ${seed}, layer ${k + 1}`, regions[k], top] as const);
});
const CASES: readonly (readonly [string, readonly Region[], readonly Region[]])[] = [
  ...Object.entries(SHAPES).map(([name, [underside, top]]) => [name, whole(underside), whole(top)] as const),
  ...nested.filter(([, underside]) => underside.length > 0),
];

const topsOf = ({ stations }: Round) => linesOf(stations).map(([, , x, y]) => [x, y] as const);
const feetOf = ({ stations }: Round) => linesOf(stations).map(([x, y]) => [x, y] as const);
const corners = (of: Ring) => Array.from({ length: of.length / 2 }, (_, i) => `${of[2 * i]},${of[2 * i + 1]}`);

describe.each(CASES)('%s', (_, underside, top) => {
  const { rounds, bridges, pits } = match(underside, top, 6000);
  const sound = rounds.map(settled);

  test('no line crosses another, nor an edge of either outline', () => {
    expect(crossingOf(sound.map(({ stations }) => stations))).toBeNull();
  });

  test('nothing had to be set upright because of rounding', () => {
    for (const { why } of sound) expect(why.includes(WHY.crossing)).toBe(false);
  });

  test('feet go once round each ring of the underside, and have all its corners', () => {
    const rings = ringsOf(underside);
    expect(sound.length).toBe(rings.length);
    for (const [i, round] of sound.entries()) {
      expect(goesOnceRound(feetOf(round), rings[i], 2)).toBe(true);
      const feet = new Set(feetOf(round).map(String));
      for (const corner of corners(rings[i])) expect(feet).toContain(corner);
    }
  });

  test('tops have every corner of the top outline, save where it is told that they go straight across', () => {
    const ends = new Set(sound.flatMap(topsOf).map(String));
    const missing = ringsOf(top)
      .flatMap(corners)
      .filter((corner) => !ends.has(corner));
    if (bridges.length === 0 && pits.length === 0) expect(missing).toEqual([]);
  });

  test('what the tops go round holds the top outline and lies in the underside', () => {
    const cut = areaOf(underside) - sound.reduce((sum, { stations }) => sum + ringArea(ringAt(stations, 1)), 0);
    expect(cut).toBeGreaterThanOrEqual(-1e4);
    expect(cut).toBeLessThanOrEqual(areaOf(underside) - areaOf(top) + 1e6);
  });

  test('held to a reach, hurried or set upright, lines still do not cross', () => {
    for (const most of [0, 2000, 9000]) {
      const held = rounds.map((round) => withinReach(round, most));
      for (const round of held) {
        for (let k = 0; k < round.why.length; k++) expect(leanAt(round, k)).toBeLessThanOrEqual(most + 1e-6);
      }
      const stood = held.map((round) => {
        const fast = stretchesOf(round, 10_000).filter((stretch) => paceOf(stretch) > 2);
        const apart = fast.filter(({ from }, i) => i === 0 || fast[i - 1].to < from);
        return settled(
          uprightAlong(
            round,
            apart.map(({ from, to }) => [from, to] as const),
          ),
        );
      });
      expect(crossingOf(stood.map(({ stations }) => stations))).toBeNull();
    }
  });
});

describe('what outlines do', () => {
  const of = (name: string) => match(whole(SHAPES[name][0]), whole(SHAPES[name][1]), 6000);

  test('a square in a square: corners go to corners, and no end waits', () => {
    const { rounds } = of('a pyramid’s squares');
    const lines = linesOf(settled(rounds[0]).stations).map(String);
    for (const corner of ['0,0,20000,20000', '90000,0,70000,20000', '90000,90000,70000,70000', '0,90000,20000,70000']) {
      expect(lines).toContain(corner);
    }
    for (const stretch of stretchesOf(rounds[0], 15_000)) expect(paceOf(stretch)).toBeLessThanOrEqual(2.2);
  });

  test('identical outlines: upright all round, each station a point', () => {
    const { rounds } = of('the same twice');
    expect([...rounds[0].why].every((why) => why === WHY.coincides)).toBe(true);
    for (let k = 0; k < rounds[0].why.length; k++) expect(leanAt(rounds[0], k)).toBe(0);
  });

  test('a summit stands upright all round', () => {
    expect([...of('a summit').rounds[0].why].every((why) => why === WHY.noTop)).toBe(true);
  });

  test('an island that splits: the top goes straight across between its two tops, twice', () => {
    const { bridges } = of('an island that splits in two');
    expect(bridges.length).toBe(2);
    for (const { x } of bridges) {
      expect(x).toBeGreaterThan(46_000);
      expect(x).toBeLessThan(105_000);
    }
  });

  test('a top in one leg: the other stands upright', () => {
    const { stations, why } = of('a top in one leg of a horseshoe').rounds[0];
    const upright = linesOf(stations).filter((_, k) => why[k] === WHY.noTop);
    expect(upright.some(([x, y]) => x > 80_000 && y > 90_000)).toBe(true);
    expect(upright.every(([x, y]) => x > 41_000 || y < 50_000)).toBe(true);
  });

  test('a pit is told with its place', () => {
    const { pits, rounds } = of('a pit in the top');
    expect(pits.length).toBe(1);
    expect(pits[0][0]).toBeGreaterThanOrEqual(30_000);
    expect(rounds.length).toBe(1);
  });

  test('along a wall the wire is upright, and leans only in the wall where it begins', () => {
    const underside = whole([[rectangle(0, 0, 95, 85)]]);
    const top = whole([[ring(0, 30, 95, 41, 95, 85, 0, 85)]]);
    const walls = toWhole([rectangle(0, 0, 95, 85)]);
    const sides = [ring(0, 0, 0, 85_000), ring(95_000, 0, 95_000, 85_000)];
    const [round] = match(underside, top, 6000, { rings: sides, stands: () => true }).rounds;
    for (const [x, y, tx] of linesOf(settled(round).stations))
      if ((x === 0 || x === 95_000) && y > 0) expect(tx).toBe(x);
    expect(crossingOf([settled(round).stations])).toBeNull();
    // A wall on every side leaves nothing to lean.
    expect(
      [...match(underside, top, 6000, { rings: walls, stands: () => true }).rounds[0].why].includes(WHY.leans),
    ).toBe(false);
    // Nor is there one where the ground goes down to its foot.
    expect([...match(underside, top, 6000, { rings: walls, stands: () => false }).rounds[0].why]).toContain(WHY.leans);
  });
});

describe('volume within the wire’s way', () => {
  test('a frustum of a pyramid: h/3 (A + B + √(A B))', () => {
    const { rounds } = match(whole([[rectangle(0, 0, 90, 90)]]), whole([[rectangle(20, 20, 70, 70)]]), 6000);
    const [big, small] = [90_000 ** 2, 50_000 ** 2];
    const exact = (7 / 3) * (big + small + Math.sqrt(big * small));
    expect(ruledVolume([settled(rounds[0]).stations], 7) / exact).toBeCloseTo(1, 6);
  });

  test('a twisted patch is the integral of its sections', () => {
    const stations = Float64Array.of(0, 0, 10, 9, 80, 5, 61, 20, 71, 60, 55, 50, 4, 70, 20, 41);
    const steps = 2000;
    let sum = 0;
    for (let i = 0; i < steps; i++) sum += ringArea(ringAt(stations, (i + 0.5) / steps)) * (13 / steps);
    expect(ruledVolume([stations], 13) / sum).toBeCloseTo(1, 6);
  });

  test('prismoid between road sections of 1504, 1860 and 2240 ft², 100 ft apart: 6904 yd³ (published)', () => {
    // Handbook of civil engineering calculations (Hicks), https://issuhub.com/view/index/4963?pageIndex=412; recomputed 6903.70.
    // A rectangle whose sides both grow straight has such a middle: 1504 r² − 2 (2 · 1860 − 1504/2 − 2240/2) r + 2240 = 0.
    const half = 2 * 1860 - 1504 / 2 - 2240 / 2;
    const grows = (half + Math.sqrt(half * half - 1504 * 2240)) / 1504;
    const [w, d] = [40, 1504 / 40];
    const [tw, td] = [w * grows, 2240 / (w * grows)];
    const stations = Float64Array.of(0, 0, 0, 0, w, 0, tw, 0, w, d, tw, td, 0, d, 0, td);
    expect(ringArea(ringAt(stations, 0.5))).toBeCloseTo(1860, 6);
    expect(ruledVolume([stations], 100) / 27).toBeCloseTo(6903.7, 1);
  });
});
