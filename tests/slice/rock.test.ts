/** Rocks: rough layers and carved lines against closed forms of a ball and of a box; standing and tipping against statics. */
import { describe, expect, test } from 'vitest';
import { areaOf, boxOf, distanceToRings, isInside, ringsOf } from '../../src/geometry/ring.ts';
import type { Solid } from '../../src/model/landform.ts';
import { overSeat } from '../../src/model/rock.ts';
import { beddings } from '../../src/shape/rock/beds.ts';
import { rock as laid } from '../../src/shape/rock.ts';
import { carvedAt, grown } from '../../src/slice/rock/grown.ts';
import { standing } from '../../src/slice/rock/standing.ts';
import { tipping } from '../../src/split/rock/tipping.ts';
import { deepIn, pocket } from '../../src/split/rock/voids.ts';
import { walkNow } from '../../src/walk.ts';
import { mapped, prism, turned } from '../help/solids.ts';

const SIDES = 180;

/** A ball of radius R that touches z = 0, as a polyhedron inside it. */
const ball = (radius: number): Solid =>
  turned(
    Array.from({ length: 91 }, (_, i): [number, number] => [
      i % 90 === 0 ? 0 : radius * Math.sin((Math.PI * i) / 90),
      radius - radius * Math.cos((Math.PI * i) / 90),
    ]),
    SIDES,
    radius,
    radius,
  );

const surfaceOf = ({ positionsMm, triangles }: Solid) => ({ positions: positionsMm, triangles });
const discArea = (squared: number): number => Math.PI * Math.max(0, squared);

describe('what is cut rough, and where it is carved to', () => {
  const R = 160;
  const solid = mapped(ball(R), (x, y, z) => [x, y, z + 20]);
  const levels = Float64Array.from({ length: 11 }, (_, k) => 36 * k);

  test('of a ball the rough layers hold the ball that is larger by the allowance, and little more (solid of revolution)', () => {
    const outlines = walkNow(grown(surfaceOf(solid), levels, 20));
    for (let k = 0; k < 10; k++) {
      const [low, high] = [levels[k], levels[k + 1]];
      const z = Math.min(Math.max(R + 20, low), high) - (R + 20);
      const exact = discArea((R + 20) * (R + 20) - z * z);
      const radius = Math.sqrt(areaOf(outlines[k]) / Math.PI);
      // Discs for the ball and its polyhedron take at most 0.6 mm off; simplifying adds as much.
      expect(Math.abs(radius - Math.sqrt(exact / Math.PI))).toBeLessThan(0.9);
    }
  });

  test('of a ball the carved line is that of the ball less the coat (solid of revolution)', () => {
    const lines = walkNow(carvedAt(surfaceOf(solid), levels, 12));
    for (const [k, level] of levels.entries()) {
      const z = level - (R + 20);
      const squared = (R - 12) * (R - 12) - z * z;
      const radius = Math.sqrt(areaOf(lines[k]) / Math.PI);
      if (squared <= 0) expect(radius).toBe(0);
      else expect(Math.abs(radius - Math.sqrt(squared))).toBeLessThan(0.9);
    }
  });

  test('foam stands over the carved surface by the allowance everywhere', () => {
    const lopsided = mapped(solid, (x, y, z) => [1.7 * x + 0.3 * z, y, 0.8 * z + 5]);
    const outlines = walkNow(grown(surfaceOf(lopsided), levels, 15));
    const lines = walkNow(carvedAt(surfaceOf(lopsided), levels, 5));
    for (const [k, regions] of outlines.entries()) {
      for (const face of [lines[k], lines[k + 1]]) {
        for (const ring of ringsOf(face)) {
          for (let i = 0; i < ring.length; i += 2) {
            expect(isInside(ring[i], ring[i + 1], regions)).toBe(true);
            // 15 and 5, less what the discs leave of a ball (3 %).
            expect(distanceToRings(ring[i], ring[i + 1], ringsOf(regions))).toBeGreaterThan(20 * 0.97 - 0.2);
          }
        }
      }
    }
  });
});

describe('the side a rock lies on', () => {
  test('a tall wedge lies on its flank: seen along the layers there is least surface', () => {
    // 60 wide, 300 deep, 500 high; its top slants, so that lying flat makes lips.
    const wedge = mapped(
      prism(
        [
          [0, 0],
          [60, 0],
          [60, 300],
          [0, 300],
        ],
        0,
        500,
      ),
      (x, y, z) => [x, y, z === 0 ? 0 : z + 0.2 * y],
    );
    const [best] = beddings(wedge);
    // Flank and ends are flat faces of a layer; only the slanting top is stepped. Seen from the west or the south it is least.
    expect(['west side', 'east side', 'south side', 'north side']).toContain(best.bed);
    const bottom = beddings(wedge).find(({ bed }) => bed === 'bottom');
    expect(bottom?.stepsMm2).toBeCloseTo(60 * 300, 6);
    expect(bottom?.lipsMm2).toBeCloseTo(60 * 300, 6);
    expect(best.stepsMm2).toBeLessThan(60 * 300);
  });

  test('laid on a side it keeps its volume, its seat, and room for the allowance beneath', () => {
    const cone = turned(
      [
        [0, 0],
        [90, 0],
        [0, 240],
      ],
      40,
      90,
      90,
    );
    for (const bed of ['west side', 'east side', 'south side', 'north side', 'bottom'] as const) {
      const told: string[] = [];
      const lying = laid.run(
        cone,
        { coat: 6, allowance: 20, bed, buried: 0.25 },
        {
          facts: { cover: null },
          tell: ({ code }) => told.push(code),
          random: () => 0,
          others: {},
        },
      ) as Solid;
      const rules = lying.rock;
      if (!rules) throw new Error('no rock');
      const stands = standing(lying, rules);
      // A cone: a third of base times height; its middle of mass a quarter up (Archimedes).
      const base = (40 / 2) * 90 * 90 * Math.sin((2 * Math.PI) / 40);
      expect(stands.volumeMm3).toBeCloseTo((base * 240) / 3, 3);
      expect(stands.massHeightMm).toBeCloseTo(60, 9);
      expect(stands.heightMm).toBeCloseTo(240, 9);
      // Half way down the buried quarter the radius is 7/8 of the base's; the nearest edge is the middle of a side.
      expect(stands.edgeMm).toBeCloseTo(90 * (7 / 8) * Math.cos(Math.PI / 40), 6);
      expect(told).toContain('shape/rock-bed');
      const lows = lying.positionsMm.filter((_, i) => i % 3 === 2);
      expect(Math.min(...lows)).toBeCloseTo(14, 9);
      // The tip of the cone is 240 over its seat, whichever way it lies.
      const overs = Array.from({ length: lying.positionsMm.length / 3 }, (_, v) =>
        overSeat(stands, lying.positionsMm[3 * v], lying.positionsMm[3 * v + 1], lying.positionsMm[3 * v + 2]),
      );
      expect(Math.max(...overs)).toBeCloseTo(240, 9);
      expect(Math.min(...overs)).toBeCloseTo(0, 9);
    }
  });
});

describe('tipping', () => {
  const stands = {
    coatMm: 0,
    allowanceMm: 20,
    seat: [0, 0, -1] as const,
    buried: 0.25,
    volumeMm3: 0.4e9,
    heightMm: 1000,
    massHeightMm: 500,
    edgeMm: 200,
    seatAtMm: 0,
  };

  test('moments balance: m g b = F h, and the ballast makes up the rest (statics)', () => {
    const tip = tipping(stands, 30, 150);
    expect(tip.foamKg).toBeCloseTo(12, 9);
    expect(tip.tipsAtN * 1).toBeCloseTo(12 * 9.80665 * 0.2, 9);
    expect((tip.foamKg + tip.ballastKg) * 9.80665 * 0.2).toBeCloseTo(150, 9);
    expect(tip.tiltDeg).toBeCloseTo((180 / Math.PI) * Math.atan(200 / 500), 9);
  });

  test('a rock whose middle of mass is past its seat needs more than ballast', () => {
    expect(tipping({ ...stands, edgeMm: -5 }, 30, 150).ballastKg).toBe(Infinity);
    expect(tipping(stands, 30, 0).ballastKg).toBe(0);
  });

  test('a pocket is as low as holds what is wanted, with foam all round', () => {
    const square = [[Float64Array.of(0, 0, 600, 0, 600, 500, 0, 500)]];
    const layers = Array.from({ length: 10 }, (_, k) => ({
      number: k + 1,
      bottomMm: 50 * k,
      thicknessMm: 50,
      regions: square,
      finish: { top: square, underside: square },
    }));
    const inner = (600 - 120) * (500 - 120);
    const flat = pocket(layers, { ...stands, heightMm: 500 }, 2 * inner * 50 - 1);
    // The first layer lies under the wall; two whole layers above are taken.
    expect(flat.voids.map((regions) => Math.round(areaOf(regions)))).toEqual([0, 0, inner, inner, 0, 0, 0, 0, 0, 0]);
    const onSide = pocket(layers, { ...stands, seat: [-1, 0, 0], seatAtMm: 0, heightMm: 600 }, 2e7);
    expect(onSide.volumeMm3).toBeGreaterThanOrEqual(2e7);
    expect(onSide.volumeMm3).toBeLessThan(2.1e7);
    const [minX] = boxOf(ringsOf(onSide.voids.flat()));
    expect(minX).toBeCloseTo(60, 6);
    const tooMuch = pocket(layers, { ...stands, heightMm: 500 }, 1e12);
    expect(tooMuch.volumeMm3).toBeLessThan(1e12);
    expect(deepIn(layers, 60, 1e9).flat()).toEqual([]);
  });
});
