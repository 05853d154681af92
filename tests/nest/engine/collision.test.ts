import { describe, expect, test } from 'vitest';
import { intersect, offset } from '../../../src/geometry/clip.ts';
import { areaOf, placed, type Region, type Ring, reversed } from '../../../src/geometry/ring.ts';
import { circlesMeet, nearbyFor, outlinesMeet } from '../../../src/nest/engine/collision.ts';
import { isMirrored, poseOf, prepareShape, turnDegOf } from '../../../src/nest/engine/engine.ts';
import { blankPosture, keptPosture, turnTo } from '../../../src/nest/engine/posture.ts';
import { severity } from '../../../src/nest/engine/severity.ts';
import { LISTED, shapesOf } from './help.ts';

const nearby = nearbyFor(500);

const turned = (region: Region, pose: number, xMm: number, yMm: number): Region =>
  region.map((ring) => placed(ring, { turnDeg: turnDegOf(pose), mirrored: isMirrored(pose), xMm, yMm }));

describe('collision, against clipper-lib', () => {
  test.each([
    [1, 0],
    [2, 12],
    [3, 30],
  ])('seed %i, gap %i: what is free keeps the gap, what is not is nearly too near', (seed, gapMm) => {
    const { random, regions, shapes } = shapesOf(seed, 12, gapMm);
    let free = 0;
    for (let i = 0; i < 300; i++) {
      const a = Math.floor(random() * shapes.length);
      const b = Math.floor(random() * shapes.length);
      const [poseA, poseB] = [0, 0].map(() => Math.floor(random() * 72000));
      const p = turnTo(blankPosture(shapes[a]), poseA);
      const q = turnTo(blankPosture(shapes[b]), poseB);
      const reach = (shapes[a].diameterMm + shapes[b].diameterMm) / 2;
      const [dx, dy] = [(random() - 0.5) * 2 * reach, (random() - 0.5) * 2 * reach];
      const isHit = circlesMeet(p, q, dx, dy);
      const meets = isHit || outlinesMeet(p, q, dx, dy, nearby);
      if (isHit) expect(outlinesMeet(p, q, dx, dy, nearby)).toBe(true);
      const one = turned(regions[a], poseA, 0, 0);
      const other = turned(regions[b], poseB, dx, dy);
      const near = (by: number) => areaOf(intersect(by === 0 ? [one] : offset([one], by), [other]));
      if (!meets) {
        free++;
        // Clipper rounds to a thousandth: areas thinner than that are its own.
        expect(near(Math.max(0, gapMm - 0.06))).toBeLessThan(0.01 * reach);
      } else expect(near(gapMm + 2 * Math.max(shapes[a].slackMm, shapes[b].slackMm) + 0.5)).toBeGreaterThan(0);
      if (meets) expect(severity(p, q, dx, dy, Infinity)).toBeGreaterThan(0);
    }
    expect(free).toBeGreaterThan(25);
  });

  test('a shape in a hole is free, on the rim it is not, and around a smaller ring it is not by its material', () => {
    const square = (side: number, at = 0): Ring =>
      Float64Array.of(at, at, at + side, at, at + side, at + side, at, at + side);
    const options = { gapMm: 0, poses: LISTED, turnsFreely: false, hasOddContainers: false };
    const ring = prepareShape([[square(100), reversed(square(60, 20))]], options);
    const heart = prepareShape([[square(50)]], options);
    const [p, q] = [keptPosture(ring, 0), keptPosture(heart, 0)];
    const meet = (dx: number, dy: number) => circlesMeet(p, q, dx, dy) || outlinesMeet(p, q, dx, dy, nearby);
    expect(meet(25, 25)).toBe(false);
    expect(meet(20, 20)).toBe(false);
    expect(meet(19.9, 25)).toBe(true);
    expect(meet(-40, 25)).toBe(true);
    expect(meet(100, 0)).toBe(false);
    expect(meet(99.99, 0)).toBe(true);
  });

  test('the same outline on itself meets itself', () => {
    for (const shape of shapesOf(4, 10, 0).shapes) {
      const p = keptPosture(shape, 0);
      expect(outlinesMeet(p, p, 0, 0, nearby)).toBe(true);
    }
  });
});

describe('severity', () => {
  test('it falls as two shapes part, never reaches 0, and with a limit gives the same or Infinity', () => {
    const { shapes } = shapesOf(5, 8, 0);
    for (const a of shapes) {
      for (const b of shapes) {
        const [p, q] = [keptPosture(a, poseOf(0)), keptPosture(b, poseOf(90))];
        const middle = (b.diameterMm + a.diameterMm) / 2;
        let last = Infinity;
        for (let k = 0; k <= 10; k++) {
          const now = severity(p, q, (1 + 0.2 * k) * middle * 2, 0, Infinity);
          expect(now).toBeGreaterThan(0);
          expect(now).toBeLessThan(last);
          expect(severity(p, q, (1 + 0.2 * k) * middle * 2, 0, now * 1.01)).toBe(now);
          expect(severity(p, q, (1 + 0.2 * k) * middle * 2, 0, now * 0.99)).toBe(Infinity);
          last = now;
        }
      }
    }
  });
});
