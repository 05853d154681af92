import { describe, expect, test } from 'vitest';
import { offset, unite } from '../../src/geometry/clip.ts';
import { turn } from '../../src/geometry/exact-math.ts';
import { stream } from '../../src/geometry/random.ts';
import {
  distanceToRings,
  isInside,
  placed,
  type Region,
  type Ring,
  rectangle,
  reversed,
  ringsOf,
} from '../../src/geometry/ring.ts';
import { thinPlaces } from '../../src/geometry/thin-places.ts';
import { starRing } from '../help/star-rings.ts';

const LEAST = 20;
const ring = (...values: number[]): Ring => new Float64Array(values);
const disc = (x: number, y: number, radius: number, points = 90): Ring =>
  Float64Array.from({ length: 2 * points }, (_, i) => {
    const { cos, sin } = turn((360 * Math.floor(i / 2)) / points);
    return i % 2 === 0 ? x + radius * cos : y + radius * sin;
  });
const turned = (regions: readonly Region[], deg: number): Region[] =>
  regions.map((region) => region.map((each) => placed(each, { turnDeg: deg, mirrored: false, xMm: 431, yMm: 77 })));
const moved = (x: number, y: number, deg: number) => {
  const { cos, sin } = turn(deg);
  return [x * cos - y * sin + 431, x * sin + y * cos + 77];
};

describe.each([0, 23, 90, 141.7])('turned by %d°', (deg) => {
  const find = (regions: readonly Region[]) => thinPlaces(turned(regions, deg), LEAST);
  const expectAt = (at: readonly number[] | undefined, x: number, y: number, within: number) => {
    const [wantX, wantY] = moved(x, y, deg);
    expect(Math.abs((at?.[0] ?? NaN) - wantX)).toBeLessThan(within);
    expect(Math.abs((at?.[1] ?? NaN) - wantY)).toBeLessThan(within);
  };

  test('what is nowhere thin is not told: squares, discs, blunt corners, a slot of air', () => {
    expect(find([[rectangle(0, 0, 90, 41)]])).toEqual([]);
    expect(find([[disc(0, 0, 20.1)]])).toEqual([]);
    expect(find([[ring(0, 0, 80, 0, 40, 50)]])).toEqual([]);
    expect(find([[rectangle(0, 0, 60, 60)], [rectangle(63, 0, 123, 60)]])).toEqual([]);
    expect(find([[rectangle(0, 0, 100, 100), reversed(rectangle(30, 48, 70, 52))]])).toEqual([]);
  });

  test('a bar as wide as asked for is not thin, one a little narrower is', () => {
    expect(find([[rectangle(0, 0, 300, 20)]])).toEqual([]);
    const [place, ...more] = find([[rectangle(0, 0, 300, 19.9)]]);
    expect(more).toEqual([]);
    expect(place.width).toBeCloseTo(19.9, 6);
    expectAt(place.at, 150, 9.95, 10);
    expect(place.length).toBeGreaterThan(275);
  });

  test('a wedge that ends 8 mm wide: the end, to the millimetre', () => {
    const [place, ...more] = find([[ring(0, 0, 60, 0, 60, 25, 260, 36, 260, 44, 60, 55, 60, 80, 0, 80)]]);
    expect(more).toEqual([]);
    expect(Math.abs(place.width - 8)).toBeLessThan(1);
    expectAt(place.at, 260, 40, 2);
    // It is under 20 mm from there on for 109 mm.
    expect(Math.abs(place.length - 109)).toBeLessThan(12);
  });

  test('a wedge that runs out to a point', () => {
    const [place, ...more] = find([[ring(0, 0, 300, 40, 0, 80)]]);
    expect(more).toEqual([]);
    expect(place.width).toBe(0);
    expectAt(place.at, 300, 40, 1);
    expect(Math.abs(place.length - 75)).toBeLessThan(12);
  });

  test('two discs that meet in a throat without length', () => {
    // Centres 2 × 59.5 apart: the chord where they cross is 2 × sqrt(60² − 59.5²) = 15.46 mm.
    const [place, ...more] = find(unite([[disc(0, 0, 60, 180)], [disc(119, 0, 60, 180)]]));
    expect(more).toEqual([]);
    expect(Math.abs(place.width - 15.46)).toBeLessThan(0.5);
    expectAt(place.at, 59.5, 0, 0.5);
  });

  test('two areas joined by a neck', () => {
    const [place, ...more] = find(
      unite([[disc(0, 0, 60)], [rectangle(40, -6, 160, 7)], [rectangle(150, -50, 220, 61)]]),
    );
    expect(more).toEqual([]);
    expect(place.width).toBeCloseTo(13, 2);
    expectAt(place.at, 104, 0.5, 8);
  });

  test('a wall between a hole and the edge', () => {
    const [place, ...more] = find([[rectangle(0, 0, 200, 150), reversed(disc(60, 52, 40, 120))]]);
    expect(more).toEqual([]);
    expect(Math.abs(place.width - 12)).toBeLessThan(0.2);
    expectAt(place.at, 60, 6, 1);
  });

  test('an island that is thin all over, and a chip that is not worth a word', () => {
    const [speck, ...more] = find([[disc(30, 40, 7.5)]]);
    expect(more).toEqual([]);
    expect(Math.abs(speck.width - 15)).toBeLessThan(0.1);
    // A point of 30° that stands out by 9 mm.
    expect(find([[ring(0, 0, 100, 0, 100, 50, 109, 52.5, 100, 55, 100, 90, 0, 90)]])).toEqual([]);
  });
});

test('half the width told is as far as the outline is from its place, save where walls lean, on ragged outlines', () => {
  let told = 0;
  for (let seed = 1; seed <= 70; seed++) {
    const next = stream(seed, 'thin');
    const regions = unite([[starRing(next, 0, 0, 12, 110, 11)], [starRing(next, 95, 35, 10, 90, 10)]]);
    for (const { width, at } of thinPlaces(regions, LEAST)) {
      // At a point two walls run together.
      if (width === 0) continue;
      told++;
      const away = distanceToRings(at[0], at[1], ringsOf(regions));
      expect(isInside(at[0], at[1], regions)).toBe(true);
      expect(away).toBeLessThan(width / 2 + 1e-6);
      // The middle of a width square to one of two walls that lean by 60°.
      expect(away).toBeGreaterThan((width / 2) * 0.49);
    }
  }
  expect(told).toBeGreaterThan(10);
});

test('nothing that shrinking by half the least width makes vanish or part is missed', () => {
  let met = 0;
  for (let seed = 1; seed <= 40; seed++) {
    const next = stream(seed, 'parts');
    const regions = unite([[starRing(next, 0, 0, 40, 110, 9)], [starRing(next, 140, 35, 30, 90, 8)]]);
    if (offset(regions, -LEAST / 2).length === regions.length) continue;
    met++;
    expect(thinPlaces(regions, LEAST).length, `seed ${seed}`).toBeGreaterThan(0);
  }
  expect(met).toBeGreaterThan(5);
});
