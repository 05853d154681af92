/** Ends and lengths of pins: worked by hand on plain ground, then laws on random jobs, against the ground's own heights. */
import { describe, expect, test } from 'vitest';
import { isInside, type Point, type Region, rectangle, regionArea } from '../../src/geometry/ring.ts';
import { CannotMake, run } from '../../src/index.ts';
import { heightOf } from '../../src/model/ground-height.ts';
import { heightfield, type Landform } from '../../src/model/landform.ts';
import type { LayerStack } from '../../src/model/layer.ts';
import type { Piece } from '../../src/model/piece.ts';
import { pinCounts, pinStock, pinsThrough } from '../../src/workshop/pins.ts';
import { randomJob } from '../help/random-job.ts';
import { fieldSolid, prism, together } from '../help/solids.ts';

/** Layers that are rectangles from x = 0 to their width, each with one piece. */
function stacked(thicknessMm: number, widthsMm: readonly number[], pins: readonly (readonly Point[])[]) {
  const regions = widthsMm.map((width): Region => [rectangle(0, 0, width, 500)]);
  const layers = regions.map((region, i) => ({
    number: i + 1,
    bottomMm: i * thicknessMm,
    thicknessMm,
    regions: [region],
  }));
  const stack: LayerStack = { kind: 'flat', layers };
  const pieces = regions.map(
    (region, i): Piece => ({
      name: `${i + 1}A`,
      layer: i + 1,
      bottomMm: i * thicknessMm,
      thicknessMm,
      region,
      areaMm2: regionArea(region),
      joints: [],
      pins: pins[i],
      slits: [],
      placing: [],
    }),
  );
  return { stack, pieces };
}

const flat = (heightMm: number) => heightfield(2, 2, 1000, 500, new Float64Array(4).fill(heightMm));
/** Rises from 0 at x = 0 to 200 at x = 1000. */
const ramp = heightfield(2, 2, 1000, 500, Float64Array.of(0, 200, 0, 200));
const AT: Point = [310, 220];

const square = (from: number, to: number) =>
  [
    [from, 0],
    [to, 0],
    [to, 500],
    [from, 500],
  ] as const;

const onePin = (ground: Landform, thicknessMm: number, widths: number[], layers: number[], at = AT) => {
  const { stack, pieces } = stacked(
    thicknessMm,
    widths,
    widths.map((_, i) => (layers.includes(i + 1) ? [at] : [])),
  );
  return pinsThrough(pieces, stack, ground);
};

describe('by hand', () => {
  test('under two more layers a pin is flush with its highest layer, 10 mm short of the underside of its lowest', () => {
    // 10 … 100, of boards of 50.
    expect(onePin(flat(190), 50, [900, 900, 900, 900], [1, 2])).toEqual([
      { at: AT, fromLayer: 1, toLayer: 2, bottomMm: 10, lengthMm: 90, isPulled: false },
    ]);
    expect(onePin(flat(190), 50, [900, 900, 900, 900], [1, 2, 3])).toMatchObject([{ toLayer: 3, lengthMm: 140 }]);
  });

  test('it ends 20 mm below the ground where that is carved, rounded down to fives', () => {
    // The ground is at 93: from 10 to 73 is 63.
    expect(onePin(flat(93), 50, [900, 900], [1, 2])).toEqual([
      { at: AT, fromLayer: 1, toLayer: 2, bottomMm: 13, lengthMm: 60, isPulled: false },
    ]);
    // Foam that is cut shy of the ground: 20 mm below the foam.
    expect(onePin(flat(140), 50, [900, 900], [1, 2])).toMatchObject([{ bottomMm: 10, lengthMm: 70 }]);
  });

  test('where 15 mm of bite do not stay 20 below the ground it is pulled, and stands out by 20', () => {
    expect(onePin(flat(85), 50, [900, 900], [1, 2])).toMatchObject([{ isPulled: false, lengthMm: 55 }]);
    expect(onePin(flat(84.9), 50, [900, 900], [1, 2])).toEqual([
      { at: AT, fromLayer: 1, toLayer: 2, bottomMm: 10, lengthMm: 110, isPulled: true },
    ]);
    expect(onePin(ramp, 50, [900, 900], [1, 2], [430, 99])).toMatchObject([{ isPulled: false }]);
    expect(onePin(ramp, 50, [900, 900], [1, 2], [420, 99])).toMatchObject([{ isPulled: true }]);
  });

  test('the ground of a solid is its surface over the place: the same pins as in the same ground as posts', () => {
    const solid = fieldSolid(ramp);
    for (const [x, y] of [
      [430, 99],
      [420, 99],
      [611.3, 207.9],
      [853, 411],
    ] as const) {
      expect(onePin(solid, 50, [900, 900, 900], [1, 2], [x, y])).toEqual(
        onePin(ramp, 50, [900, 900, 900], [1, 2], [x, y]),
      );
    }
    expect(onePin(solid, 50, [900, 900], [1, 2], [430, 99])).toMatchObject([{ isPulled: false }]);
    expect(onePin(solid, 50, [900, 900], [1, 2], [420, 99])).toMatchObject([{ isPulled: true }]);
  });

  test('under an overhang the lower end keeps 20 mm above what is carved; where all foam round it is carved off, it is pulled', () => {
    // A slab from 70 to 190 that sticks out to the east of its foot, which ends at x = 300.
    const cap = together(prism(square(0, 900), 70, 190), prism(square(0, 300), 0, 70));
    expect(onePin(cap, 50, [300, 900, 900, 900], [2, 3], [610, 220])).toEqual([
      // From 90 up to 150, the top of the third layer.
      { at: [610, 220], fromLayer: 2, toLayer: 3, bottomMm: 90, lengthMm: 60, isPulled: false },
    ]);
    expect(onePin(cap, 50, [300, 900, 900, 900], [2, 3])).toMatchObject([{ bottomMm: 90, isPulled: false }]);
    expect(onePin(cap, 50, [300, 900, 900, 900], [1, 2], [200, 220])).toMatchObject([
      { bottomMm: 10, isPulled: false },
    ]);
    expect(onePin(cap, 50, [900, 900, 900, 900], [1, 2], [610, 220])).toMatchObject([{ isPulled: true }]);
  });

  test('thin layers have pins of whole millimetres, thick ones none longer than 300', () => {
    expect(onePin(flat(60), 12, [900, 900, 900, 900, 900], [1, 2])).toMatchObject([{ bottomMm: 3, lengthMm: 21 }]);
    const [thick] = onePin(flat(1200), 400, [900, 900, 900], [1, 2]);
    expect(thick).toMatchObject({ bottomMm: 250, lengthMm: 300, isPulled: false });
  });

  test('no ribs, no pieces: no pins', () => {
    const { stack, pieces } = stacked(50, [900, 900], [[AT], [AT]]);
    expect(pinsThrough(pieces, { ...stack, kind: 'upright' }, ramp)).toEqual([]);
    expect(pinsThrough([], stack, ramp)).toEqual([]);
    expect(pinCounts([])).toEqual([]);
  });

  test('counts are by length, those that stay first', () => {
    const pin = { at: AT, fromLayer: 1, toLayer: 2, bottomMm: 10 };
    const pins = [
      { ...pin, lengthMm: 90, isPulled: true },
      { ...pin, lengthMm: 120, isPulled: false },
      { ...pin, lengthMm: 90, isPulled: false },
      { ...pin, lengthMm: 120, isPulled: false },
    ];
    expect(pinCounts(pins)).toEqual([
      { lengthMm: 90, isPulled: false, count: 1 },
      { lengthMm: 120, isPulled: false, count: 2 },
      { lengthMm: 90, isPulled: true, count: 1 },
    ]);
  });

  test('they are cut from the shortest skewers sold that hold them, as many from one as go in', () => {
    const counts = [
      { lengthMm: 45, isPulled: false, count: 7 },
      { lengthMm: 90, isPulled: false, count: 3 },
      { lengthMm: 100, isPulled: true, count: 2 },
      { lengthMm: 140, isPulled: false, count: 5 },
      { lengthMm: 310, isPulled: true, count: 1 },
    ];
    expect(pinStock(counts, [150, 100, 300])).toEqual([
      // Four skewers give seven of 45, three one of 90 each, two are taken whole.
      { soldMm: 100, sticks: 9, pins: 12, pulled: 2, leastMm: 45, mostMm: 100 },
      { soldMm: 150, sticks: 5, pins: 5, pulled: 0, leastMm: 140, mostMm: 140 },
      { soldMm: 310, sticks: 1, pins: 1, pulled: 1, leastMm: 310, mostMm: 310 },
    ]);
    expect(pinStock([], [100])).toEqual([]);
  });
});

describe('on random jobs', () => {
  let staying = 0;
  test.each([3, 5, 8, 13, 21, 34, 55, 89])(
    'seed %i: what stays ends 20 mm below the ground, through all its layers',
    async (seed) => {
      const { job, files } = randomJob(seed);
      const made = await run({ ...job, documents: [] }, files).catch((error) => {
        if (error instanceof CannotMake) return null;
        throw error;
      });
      if (!made) return;
      const { pins, stack, landform, pieces, quantities } = made.plan;
      if (landform.kind !== 'heightfield') throw new Error('a sketch is a heightfield');
      expect(quantities.pins).toBe(pins.length);
      expect(quantities.pinLengths.reduce((sum, { count }) => sum + count, 0)).toBe(pins.length);
      for (const { at, fromLayer, toLayer, bottomMm, lengthMm, isPulled } of pins) {
        const [lowest, highest] = [stack.layers[fromLayer - 1], stack.layers[toLayer - 1]];
        expect(lengthMm).toBeLessThanOrEqual(300);
        expect(bottomMm).toBeGreaterThan(lowest.bottomMm + 1);
        expect(bottomMm).toBeLessThan(lowest.bottomMm + lowest.thicknessMm - 1);
        expect(bottomMm + lengthMm).toBeGreaterThan(highest.bottomMm + 9.9);
        for (let layer = fromLayer; layer <= toLayer; layer++) {
          const holding = pieces.filter((piece) => piece.layer === layer && isInside(at[0], at[1], [piece.region]));
          expect(holding.map(({ pins: own }) => own.some(([x, y]) => x === at[0] && y === at[1]))).toEqual([true]);
        }
        if (isPulled) {
          // It stands open: nothing lies on it.
          expect(isInside(at[0], at[1], stack.layers[toLayer]?.regions ?? [])).toBe(false);
        } else {
          staying++;
          expect(bottomMm + lengthMm).toBeLessThanOrEqual(heightOf(landform, at[0], at[1]) - 20 + 1e-6);
        }
      }
    },
  );
  test('some of them stay', () => expect(staying).toBeGreaterThan(20));
});
