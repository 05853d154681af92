/** Rings: areas to the last digit, placements, points inside and outside, distances. */
import { describe, expect, test } from 'vitest';
import { stream } from '../../src/geometry/random.ts';
import {
  areaOf,
  boxOf,
  distanceToRings,
  isInRegion,
  isInRing,
  isInside,
  moved,
  placed,
  type Region,
  type Ring,
  rectangle,
  regionArea,
  reversed,
  ringArea,
  ringLength,
  squaredDistanceToSegment,
} from '../../src/geometry/ring.ts';
import { starRing, tangledRing } from '../help/star-rings.ts';

/** Twice the area in square thousandths, in whole numbers without limit: the shoelace formula (A. L. F. Meister, 1769). */
function shoelace(ring: Ring): bigint {
  const at = Array.from(ring, (value) => BigInt(Math.round(value * 1000)));
  let twice = 0n;
  for (let i = 0, j = at.length - 2; i < at.length; j = i, i += 2) twice += at[j] * at[i + 1] - at[i] * at[j + 1];
  return twice;
}

/** How often a ring of whole thousandths winds round a point, exactly (D. Sunday, 2001). */
function winding(px: number, py: number, ring: Ring): number {
  const whole = (value: number) => BigInt(Math.round(value * 1000));
  const [x, y] = [whole(px), whole(py)];
  let turns = 0;
  for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
    const [ax, ay, bx, by] = [whole(ring[j]), whole(ring[j + 1]), whole(ring[i]), whole(ring[i + 1])];
    const left = (bx - ax) * (y - ay) - (x - ax) * (by - ay);
    if (ay <= y && by > y && left > 0n) turns++;
    if (ay > y && by <= y && left < 0n) turns--;
  }
  return turns;
}

const SEEDS = [3, 14, 159, 2653];
const HOOK = Float64Array.from([2, 1, 37, 4, 31, 19, 18, 12, 9, 26, 5, 15]);

describe.each(SEEDS)('a random ring, seed %i', (seed) => {
  const star = starRing(stream(seed, 'star'), 510, -230, 60, 240, 57);
  const tangle = tangledRing(stream(seed, 'tangle'), 430, 170, 19);

  test('has the area that whole numbers give', () => {
    for (const ring of [star, tangle, reversed(star)]) {
      expect(ringArea(ring)).toBeCloseTo(Number(shoelace(ring)) / 2e6, 6);
    }
    expect(ringArea(star)).toBeGreaterThan(0);
    expect(ringArea(reversed(star))).toBeCloseTo(-ringArea(star), 8);
  });

  test('keeps its area far from the origin', () => {
    const far = Float64Array.from(star, (value, i) => Math.round(value * 1000 + (i % 2 === 0 ? 8e9 : -3e9)) / 1000);
    expect(ringArea(far) / (Number(shoelace(far)) / 2e6)).toBeCloseTo(1, 9);
  });

  test('holds the points that it winds round an odd number of times', () => {
    const random = stream(seed, 'points');
    let inside = 0;
    for (let k = 0; k < 400; k++) {
      const x = Math.round(1000 * (430 * random())) / 1000;
      const y = Math.round(1000 * (170 * random())) / 1000;
      const isOdd = winding(x, y, tangle) % 2 !== 0;
      expect(isInRing(x, y, tangle)).toBe(isOdd);
      if (isOdd) inside++;
    }
    expect(inside).toBeGreaterThan(20);
    expect(inside).toBeLessThan(380);
  });
});

describe('placed', () => {
  const at = (turnDeg: number, mirrored = false, xMm = 0, yMm = 0) => ({ turnDeg, mirrored, xMm, yMm });

  test('quarter turns are exact: (x, y) becomes (−y, x)', () => {
    expect([...placed(HOOK, at(90, false, 100, 7))].slice(0, 4)).toEqual([99, 9, 96, 44]);
    expect([...placed(HOOK, at(180, false, 100, 7))].slice(0, 4)).toEqual([98, 6, 63, 3]);
    expect([...placed(HOOK, at(270, false, 100, 7))].slice(0, 4)).toEqual([101, 5, 104, -30]);
    expect([...placed(HOOK, at(-90, false, 100, 7))]).toEqual([...placed(HOOK, at(270, false, 100, 7))]);
    expect([...placed(HOOK, at(450))]).toEqual([...placed(HOOK, at(90))]);
  });

  test.each([90, 180, 270])('a turn of %d° and back is the same ring to the bit', (turnDeg) => {
    expect(placed(placed(HOOK, at(turnDeg)), at(-turnDeg)).every((value, i) => value === HOOK[i])).toBe(true);
  });

  test.each([0, 33.7, 118.25, 251])('turned %d° and mirrored it keeps area, sense and edges', (turnDeg) => {
    for (const mirrored of [false, true]) {
      const lying = placed(HOOK, at(turnDeg, mirrored, -312.5, 88.125));
      expect(ringArea(lying)).toBeCloseTo(ringArea(HOOK), 9);
      expect(ringLength(lying)).toBeCloseTo(ringLength(HOOK), 9);
    }
  });

  test('it mirrors in x first, then turns, then moves', () => {
    const [x, y] = placed(Float64Array.from([5, 2]), at(90, true, 40, 30));
    // (5, 2) → (−5, 2) → (−2, −5) → (38, 25).
    expect([x, y]).toEqual([38, 25]);
  });

  test('a turn of 30° puts (100, 0) at 50 √3 and 50', () => {
    const [x, y] = placed(Float64Array.from([100, 0]), at(30));
    expect(x).toBeCloseTo(50 * Math.sqrt(3), 12);
    expect(y).toBeCloseTo(50, 12);
  });

  test('the ring given is left alone', () => {
    const before = HOOK.slice();
    placed(HOOK, at(33, true, 4, 5));
    moved(HOOK, 3, 4);
    reversed(HOOK);
    expect(HOOK).toEqual(before);
  });
});

test('a hole counts negative, and areas of several regions add', () => {
  const holed: Region = [rectangle(0, 0, 40, 25), reversed(rectangle(6, 5, 15, 18))];
  expect(regionArea(holed)).toBe(1000 - 117);
  expect(areaOf([holed, [HOOK]])).toBe(883 + ringArea(HOOK));
  expect(ringArea(Float64Array.from([1, 2, 30, 4]))).toBe(0);
  expect(ringLength(rectangle(3, 4, 43, 29))).toBe(130);
});

test('a point in a hole is not in the material; one in another region is', () => {
  const holed: Region = [rectangle(0, 0, 40, 25), reversed(rectangle(6, 5, 15, 18))];
  expect(isInRegion(3, 20, holed)).toBe(true);
  expect(isInRegion(9, 11, holed)).toBe(false);
  expect(isInRegion(47, 11, holed)).toBe(false);
  expect(isInside(9, 11, [holed, [rectangle(8, 10, 12, 13)]])).toBe(true);
  expect(isInside(9, 11, [])).toBe(false);
});

test('a point is counted once where neighbours share a corner or an edge', () => {
  // Level with corners: the count must not trip over an edge's end.
  expect(isInRing(20, 4, HOOK)).toBe(winding(20, 4, HOOK) !== 0);
  expect(isInRing(6, 15, HOOK)).toBe(true);
  expect(isInRing(35, 19, HOOK)).toBe(false);
  const west = rectangle(0, 0, 13, 20);
  const east = rectangle(13, 0, 29, 20);
  expect(isInRing(13, 7, west)).not.toBe(isInRing(13, 7, east));
});

test('distances: beside a segment, past its ends, to a segment of no length, to no ring', () => {
  // 3-4-5 and 5-12-13 triangles.
  expect(squaredDistanceToSegment(7, 9, 0, 0, 20, 0)).toBe(81);
  expect(squaredDistanceToSegment(-3, 4, 0, 0, 20, 0)).toBe(25);
  expect(squaredDistanceToSegment(25, -12, 0, 0, 20, 0)).toBe(169);
  expect(squaredDistanceToSegment(7, 7, 4, 3, 4, 3)).toBe(25);
  expect(distanceToRings(45, 17, [rectangle(0, 0, 40, 5), rectangle(100, 0, 130, 90)])).toBe(13);
  expect(distanceToRings(4, 11, [rectangle(0, 0, 40, 25)])).toBe(4);
  expect(distanceToRings(1, 2, [])).toBe(Infinity);
});

test('a box holds all rings, and that of none is inside out', () => {
  expect(boxOf([HOOK, rectangle(-4, 8, 3, 31)])).toEqual([-4, 1, 37, 31]);
  expect(boxOf([])).toEqual([Infinity, Infinity, -Infinity, -Infinity]);
});
