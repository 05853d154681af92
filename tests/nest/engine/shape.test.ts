import { describe, expect, test } from 'vitest';
import { regionsFromRings, subtract } from '../../../src/geometry/clip.ts';
import { stream } from '../../../src/geometry/random.ts';
import { areaOf, distanceToRings, isInRegion, isInside, type Ring, ringArea } from '../../../src/geometry/ring.ts';
import { poseOf, prepareShape } from '../../../src/nest/engine/engine.ts';
import { outward } from '../../../src/nest/engine/outward.ts';
import { lopsided } from '../../help/nesting.ts';
import { LISTED, shapesOf } from './help.ts';

describe('simplifying outward', () => {
  test.each([1, 2, 3, 4])('seed %i: nothing is lost, little is added, holes shrink', (seed) => {
    const random = stream(seed, 'outward');
    for (let i = 0; i < 12; i++) {
      const region = lopsided(random, 800, 60 + Math.floor(200 * random()));
      const fewer = region.map((ring) => outward(ring, { highest: 2, mostShare: Infinity, enough: 0 }));
      expect(fewer.flat().length).toBeLessThan(0.7 * region.flat().length + 8);
      for (const [r, ring] of region.entries()) {
        expect(fewer[r].length).toBeLessThan(ring.length);
        expect(Math.sign(ringArea(fewer[r]))).toBe(Math.sign(ringArea(ring)));
        // A straight edge between two kept vertices may have been cut: every point of the old outline is inside or on the new.
        const solid = regionsFromRings([fewer[r]]);
        const old = regionsFromRings([ring]);
        const lost = r === 0 ? subtract(old, solid) : subtract(solid, old);
        expect(areaOf(lost)).toBeLessThan(0.002 * ring.length);
        for (let k = 0; k < fewer[r].length; k += 2) {
          expect(distanceToRings(fewer[r][k], fewer[r][k + 1], [ring])).toBeLessThan(2 * 8);
        }
      }
    }
  });

  test('it stops at the share of the area and at the vertices that are enough', () => {
    const ring = lopsided(stream(9, 'outward'), 900, 240)[0];
    const coarse = outward(ring, { highest: Infinity, mostShare: 0.001, enough: 0 });
    expect(ringArea(coarse)).toBeGreaterThanOrEqual(ringArea(ring));
    expect(ringArea(coarse)).toBeLessThan(1.001001 * ringArea(ring));
    expect(outward(ring, { highest: Infinity, mostShare: 1, enough: 50 }).length).toBe(100);
    const triangle: Ring = Float64Array.of(0, 0, 30, 0, 0, 20);
    expect(outward(triangle, { highest: 100, mostShare: 1, enough: 0 })).toEqual(triangle);
  });
});

describe('a prepared shape', () => {
  test.each([0, 15])('gap %i: circles lie inside the grown outline, largest first', (gapMm) => {
    const { shapes, regions } = shapesOf(6, 15, gapMm);
    for (const [i, { poles, grown, inradiusMm }] of shapes.entries()) {
      expect(poles.length).toBeGreaterThan(0);
      for (let k = 0; k < poles.length; k += 3) {
        expect(isInRegion(poles[k], poles[k + 1], grown)).toBe(true);
        expect(poles[k + 2]).toBeLessThanOrEqual(distanceToRings(poles[k], poles[k + 1], grown) + 1e-9);
      }
      // The circle inside the finished outline is real.
      const within = isInside(poles[0], poles[1], [regions[i]]);
      if (inradiusMm > 0) expect(within).toBe(true);
      expect(inradiusMm).toBeLessThanOrEqual(distanceToRings(poles[0], poles[1], regions[i]) + 1e-9);
    }
  });

  test.each([8, 25])('gap %i: the grown outline keeps at least half of it all round', (gapMm) => {
    const { shapes, regions } = shapesOf(7, 12, gapMm);
    for (const [i, { grown }] of shapes.entries()) {
      for (const ring of grown) {
        for (let k = 0; k < ring.length; k += 2) {
          const j = (k + 2) % ring.length;
          for (const t of [0, 0.3, 0.7]) {
            const x = ring[k] + t * (ring[j] - ring[k]);
            const y = ring[k + 1] + t * (ring[j + 1] - ring[k + 1]);
            expect(distanceToRings(x, y, regions[i])).toBeGreaterThan(gapMm / 2);
            expect(isInRegion(x, y, regions[i])).toBe(false);
          }
        }
      }
    }
  });

  test('poses at which it looks the same are dropped', () => {
    const shape = (...points: number[]) =>
      prepareShape([[Float64Array.from(points)]], {
        gapMm: 0,
        poses: [...LISTED, poseOf(0, true)],
        turnsFreely: false,
        hasOddContainers: false,
      });
    expect(shape(0, 0, 70, 0, 70, 70, 0, 70).poses).toEqual([0]);
    expect(shape(5, 0, 90, 0, 90, 31, 5, 31).poses).toEqual([0, 9000]);
    expect(shape(0, 0, 90, 0, 30, 31).poses).toEqual([0, 9000, 18000, 27000, 36000]);
  });
});
