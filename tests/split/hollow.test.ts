/** Laws of voids on random lopsided hills (the laws of every division are in solid.test.ts). */
import { describe, expect, test } from 'vitest';
import { bearing } from '../../src/checks/bearing.ts';
import { subtract } from '../../src/geometry/clip.ts';
import { areaOf, distanceToRings, isInside, rectangle, regionArea, ringsOf } from '../../src/geometry/ring.ts';
import { supportOf } from '../../src/geometry/support.ts';
import type { LayerStack } from '../../src/model/layer.ts';
import { smallPlan } from '../help/small-plan.ts';
import { type Split, split } from '../help/split-run.ts';
import { randomStack, splitFacts } from '../help/stacks.ts';

const SEEDS = [11, 12, 13, 14, 15, 16];
const LAP = 63;

/** What of a layer is in no piece. */
const voidsOf = (stack: LayerStack, made: Split, i: number) =>
  subtract(
    stack.layers[i].regions,
    made.of(stack.layers[i].number).map(({ region }) => region),
  ).filter((region) => regionArea(region) > 1);

describe.each(SEEDS)('hill %i, hollow', (seed) => {
  const stack = randomStack(seed, { layers: 6 });
  const made = split('hollow', stack, { lap: LAP });

  test('a void lies inside the next outline, a lap from it at least', () => {
    for (let i = 0; i + 1 < stack.layers.length; i++) {
      const next = stack.layers[i + 1].regions;
      for (const ring of ringsOf(voidsOf(stack, made, i))) {
        for (let k = 0; k < ring.length; k += 2) {
          expect(isInside(ring[k], ring[k + 1], next)).toBe(true);
          expect(distanceToRings(ring[k], ring[k + 1], ringsOf(next))).toBeGreaterThanOrEqual(LAP);
        }
      }
    }
  });

  test('every piece of the next layer rests on a tenth of itself or more, and does not tip', () => {
    for (const { layer, region } of made.pieces.filter((piece) => piece.layer > 1)) {
      const under = made.of(layer - 1).map((piece) => piece.region);
      const { share, inside } = supportOf(region, under);
      expect(share).toBeGreaterThanOrEqual(0.1);
      expect(inside).toBeGreaterThanOrEqual(0);
    }
  });

  test('the layer on top is whole, and the hill is lighter', () => {
    const last = stack.layers.length - 1;
    expect(voidsOf(stack, made, last)).toEqual([]);
    expect(areaOf(made.pieces.map(({ region }) => region))).toBeLessThan(
      0.8 * areaOf(stack.layers.flatMap(({ regions }) => regions)),
    );
  });

  test('the check of bearings agrees', () => {
    const job = { split: { hollow: { lap: LAP } } };
    const told = bearing({ ...smallPlan(), stack, pieces: made.pieces, job });
    expect(told.filter(({ level }) => level !== 'note')).toEqual([]);
  });
});

describe('voids', () => {
  /** A wide, flat top of two layers: the upper one is divided, and one of its pieces is no part of the rim. */
  const flatTop: LayerStack = {
    kind: 'flat',
    layers: [1, 2].map((number) => ({
      number,
      bottomMm: (number - 1) * 50,
      thicknessMm: 50,
      regions: [[rectangle(0, 0, 4130, 3070)]],
    })),
  };
  const boardSizes = [{ sizeMm: [1300, 900], thicknessMm: 50, densityKgM3: 15, trimMm: 5 }] as const;

  test('a piece in the middle of a flat rests on foam under its joints', () => {
    const made = split('hollow', flatTop, {
      more: { underFlats: 'hollow' },
      facts: splitFacts({ boardSizes }),
      lap: 57,
    });
    const rim = ringsOf(flatTop.layers[1].regions);
    const inner = made
      .of(2)
      .filter(({ region }) =>
        region[0].every((_, i) => i % 2 === 1 || distanceToRings(region[0][i], region[0][i + 1], rim) > 1),
      );
    expect(inner.length).toBeGreaterThan(0);
    const under = made.of(1).map(({ region }) => region);
    for (const { region } of inner) expect(supportOf(region, under).inside).toBeGreaterThanOrEqual(5);
    expect(areaOf(under)).toBeLessThan(0.6 * 4130 * 3070);
  });

  test('one that is narrower than worth the cut stays foam', () => {
    const all = split('hollow', flatTop, { more: { underFlats: 'hollow' }, leastVoid: 200 });
    const wide = split('hollow', flatTop, { more: { underFlats: 'hollow' }, leastVoid: 1500 });
    expect(areaOf(all.of(1).map(({ region }) => region))).toBeLessThan(4130 * 3070);
    expect(areaOf(wide.of(1).map(({ region }) => region))).toBeCloseTo(4130 * 3070, 1);
  });

  test('no lap said: a layer laps by its height, and by 40 mm at least', () => {
    const least = (thicknessMm: number) => {
      const stack = {
        ...flatTop,
        layers: flatTop.layers.map((layer, i) => ({
          ...layer,
          thicknessMm,
          bottomMm: i * thicknessMm,
          regions: [[rectangle(0, 0, 1130, 770)]],
        })),
      };
      const facts = splitFacts({ boardSizes: [{ sizeMm: [1200, 900], thicknessMm, densityKgM3: 15, trimMm: 5 }] });
      const [hole] = voidsOf(stack, split('hollow', stack, { more: { underFlats: 'hollow' }, facts }), 0);
      return Math.min(...Array.from(hole[0], (value, i) => (i % 2 === 0 ? value : Infinity)));
    };
    expect(least(25)).toBeGreaterThanOrEqual(40);
    expect(least(25)).toBeLessThan(45);
    expect(least(70)).toBeGreaterThanOrEqual(70);
    expect(least(70)).toBeLessThan(75);
  });

  test('one layer alone is whole', () => {
    const made = split('hollow', { ...flatTop, layers: [flatTop.layers[0]] });
    expect(areaOf(made.pieces.map(({ region }) => region))).toBeCloseTo(4130 * 3070, 1);
    expect(made.pieces.flatMap(({ pins }) => pins)).toEqual([]);
  });
});
