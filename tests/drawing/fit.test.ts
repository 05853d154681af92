import { describe, expect, test } from 'vitest';
import {
  clearanceAt,
  coarser,
  isClear,
  overlap,
  readableDeg,
  segmentsOf,
  spotsIn,
  type TurnedBox,
} from '../../src/drawing/fit.ts';
import { turn } from '../../src/geometry/exact-math.ts';
import { stream } from '../../src/geometry/random.ts';
import { distanceToRings, isInRegion, type Ring } from '../../src/geometry/ring.ts';

/** Whether a point lies in a box, by the definition of its turn: counter-clockwise as seen, y down. */
function isIn({ x, y, halfWidth, halfHeight, turnDeg }: TurnedBox, px: number, py: number): boolean {
  const { cos, sin } = turn(turnDeg);
  const right = [cos, -sin];
  const down = [sin, cos];
  const u = (px - x) * right[0] + (py - y) * right[1];
  const v = (px - x) * down[0] + (py - y) * down[1];
  return Math.abs(u) <= halfWidth && Math.abs(v) <= halfHeight;
}

const randomBox = (random: () => number): TurnedBox => ({
  x: 60 * random(),
  y: 60 * random(),
  halfWidth: 2 + 14 * random(),
  halfHeight: 1 + 7 * random(),
  turnDeg: Math.floor(360 * random()) - 180,
});

describe('boxes at any angle, against points sampled on them', () => {
  test('a segment touches a box exactly when one of its points is in it', () => {
    const random = stream(11, 'segments');
    let touching = 0;
    for (let i = 0; i < 400; i++) {
      const box = randomBox(random);
      const segment = Array.from({ length: 4 }, () => 60 * random());
      let isTouched = false;
      for (let k = 0; k <= 600 && !isTouched; k++) {
        const t = k / 600;
        isTouched = isIn(box, segment[0] + t * (segment[2] - segment[0]), segment[1] + t * (segment[3] - segment[1]));
      }
      // Sampling may miss a touch of a corner, never make one up.
      if (isTouched) expect(isClear(box, new Float64Array(segment)), `${i}`).toBe(false);
      const slack = { ...box, halfWidth: box.halfWidth - 0.15, halfHeight: box.halfHeight - 0.15 };
      if (!isTouched) expect(isClear(slack, new Float64Array(segment)), `${i}`).toBe(true);
      if (isTouched) touching++;
    }
    expect(touching).toBeGreaterThan(60);
    expect(touching).toBeLessThan(340);
  });

  test('two boxes overlap exactly when a point is in both', () => {
    const random = stream(12, 'boxes');
    let meeting = 0;
    for (let i = 0; i < 400; i++) {
      const [a, b] = [randomBox(random), randomBox(random)];
      const { cos, sin } = turn(a.turnDeg);
      let meets = false;
      for (let u = -40; u <= 40 && !meets; u++) {
        for (let v = -40; v <= 40 && !meets; v++) {
          const [du, dv] = [(a.halfWidth * u) / 40, (a.halfHeight * v) / 40];
          meets = isIn(b, a.x + du * cos + dv * sin, a.y - du * sin + dv * cos);
        }
      }
      if (meets) expect(overlap(a, b), `${i}`).toBe(true);
      const slack = { ...b, halfWidth: b.halfWidth - 0.5, halfHeight: b.halfHeight - 0.5 };
      if (!meets)
        expect(overlap({ ...a, halfWidth: a.halfWidth - 0.5, halfHeight: a.halfHeight - 0.5 }, slack)).toBe(false);
      expect(overlap(a, b)).toBe(overlap(b, a));
      if (meets) meeting++;
    }
    expect(meeting).toBeGreaterThan(60);
    expect(meeting).toBeLessThan(340);
  });
});

describe('spots', () => {
  // A bent band 60 wide with a nick, and a void in its wider end.
  const band: Ring = new Float64Array([0, 0, 640, 30, 900, 310, 846, 350, 690, 330, 610, 92, 0, 61]);
  const hole: Ring = new Float64Array([760, 262, 772, 298, 801, 290]);
  const region = [band, hole];
  const segments = segmentsOf(region);
  const spots = spotsIn(region, segments);

  test('all lie inside, roomiest first, and their clearance is the distance to the outline', () => {
    expect(spots.length).toBeGreaterThan(30);
    for (const [i, { x, y, clearance }] of spots.entries()) {
      expect(isInRegion(x, y, region)).toBe(true);
      expect(clearance).toBeCloseTo(distanceToRings(x, y, region), 9);
      expect(clearanceAt(x, y, segments)).toBe(clearance);
      if (i > 0) expect(clearance).toBeLessThanOrEqual(spots[i - 1].clearance);
    }
  });

  test('in a band they stand in its middle and know its way', () => {
    // The straight leg rises 30 on 640: read along it, 2.7 degrees, down to the right on the page.
    // Not the roomiest point, which has no way, nor what looks along the band from its end.
    const ofRays = spots.filter(({ turnsDeg }) => turnsDeg.length === 3 && turnsDeg[2] !== 90);
    const inLeg = ofRays.filter(({ x, y, clearance }) => x > 100 && x < 500 && y < 95 && clearance > 29);
    expect(inLeg.length).toBeGreaterThan(5);
    for (const { turnsDeg } of inLeg)
      expect(Math.min(...turnsDeg.map((deg) => Math.abs(deg + 2.68)))).toBeLessThan(0.6);
  });

  test('a sliver without an inside breaks nothing', () => {
    const sliver = [new Float64Array([0, 0, 50, 0, 100, 0])];
    expect(spotsIn(sliver, segmentsOf(sliver)).every(({ clearance }) => Number.isFinite(clearance))).toBe(true);
  });
});

test('text is never upside down', () => {
  expect([0, 90, 91, 180, 270, -90, -45, 359].map(readableDeg)).toEqual([0, 90, -89, 0, 90, 90, -45, -1]);
});

test('a coarser ring stays within its tolerance of the old one', () => {
  const random = stream(3, 'coarse');
  const points = Array.from({ length: 300 }, (_, i) => {
    const { cos, sin } = turn((360 * i) / 300);
    const r = 200 + 3 * random();
    return [1.7 * r * cos, r * sin];
  }).flat();
  const ring = new Float64Array(points);
  const coarse = coarser(ring, 2.5);
  expect(coarse.length).toBeLessThan(ring.length / 3);
  for (let i = 0; i < ring.length; i += 2) {
    expect(distanceToRings(ring[i], ring[i + 1], [coarse])).toBeLessThanOrEqual(2.5 + 1e-9);
  }
});
