/** Wide voids: a lid is never far from foam beneath it, and there is foam where somebody may step. */
import { describe, expect, test } from 'vitest';
import { intersect, subtract, unite } from '../../src/geometry/clip.ts';
import {
  areaOf,
  distanceToRings,
  isInside,
  type Region,
  rectangle,
  regionArea,
  ringsOf,
} from '../../src/geometry/ring.ts';
import type { LayerStack } from '../../src/model/layer.ts';
import { unreachedMm2 } from '../help/reach.ts';
import { faultsOf, type Split, split } from '../help/split-run.ts';
import { randomStack, splitFacts } from '../help/stacks.ts';

const foamOf = (made: Split, number: number) => made.of(number).map(({ region }) => region);
const voidsOf = (stack: LayerStack, made: Split, i: number) =>
  subtract(stack.layers[i].regions, foamOf(made, i + 1)).filter((region) => regionArea(region) > 1);

/** Layers of a wide flat, all alike but for the last. */
const flatStack = (count: number, thicknessMm: number, regions: readonly Region[]): LayerStack => ({
  kind: 'flat',
  layers: Array.from({ length: count }, (_, i) => ({
    number: i + 1,
    bottomMm: i * thicknessMm,
    thicknessMm,
    regions,
  })),
});
const wide = flatStack(4, 50, [[rectangle(0, 0, 4130, 3070)]]);
const lopsided = randomStack(21, { layers: 6, widthMm: 5200, depthMm: 4100 });
const HOLLOW = { underFlats: 'hollow' };

const unreached = (stack: LayerStack, made: Split, i: number, reachMm: number): number =>
  unreachedMm2(unite(foamOf(made, i + 2)), unite(foamOf(made, i + 1)), voidsOf(stack, made, i), reachMm);

describe.each([
  ['a wide flat, props left to the boards', wide, { ...HOLLOW }, 300],
  ['a wide flat, props as the job says', wide, { ...HOLLOW, spacing: 910, prop: 170 }, (910 - 170) / Math.SQRT2],
  ['a lopsided hill', lopsided, { ...HOLLOW }, 300],
  [
    'a lopsided hill on props close together',
    lopsided,
    { ...HOLLOW, spacing: 430, prop: 90, leastVoid: 120 },
    340 / Math.SQRT2,
  ],
  ['the same with solid flats', lopsided, { flat: 410 }, 300],
])('%s', (_, stack, more, reachMm) => {
  const made = split('hollow', stack, { lap: 60, more });

  test('no point of a layer above a void is farther from foam than half of what a lid spans', () => {
    for (let i = 0; i + 1 < stack.layers.length; i++) expect(unreached(stack, made, i, reachMm + 0.5)).toBeLessThan(1);
  });

  test('there are voids, and what is seen is none', () => {
    let left = 0;
    for (let i = 0; i + 1 < stack.layers.length; i++) {
      const voids = voidsOf(stack, made, i);
      left += areaOf(voids);
      expect(areaOf(subtract(voids, stack.layers[i + 1].regions))).toBeLessThan(1);
    }
    expect(left).toBeGreaterThan(1e6);
    expect(voidsOf(stack, made, stack.layers.length - 1)).toEqual([]);
  });

  test('what props a layer stands on foam down to the floor', () => {
    for (const { layer, region } of made.pieces.filter(({ layer }) => layer > 1)) {
      const under = intersect([region], unite(foamOf(made, layer - 1)));
      expect(areaOf(under)).toBeGreaterThan(0.1 * regionArea(region));
    }
  });
});

describe('props', () => {
  test('stand in line, as far apart as the job says, no more of them than lids need', () => {
    const facts = splitFacts({ boardSizes: [{ ...splitFacts().boardSizes[0], sizeMm: [4200, 3100] }] });
    const made = split('hollow', wide, { facts, lap: 60, more: { ...HOLLOW, spacing: 910, prop: 170 } });
    const islands = (number: number) => made.of(number).filter(({ areaMm2 }) => areaMm2 < 200 * 200);
    expect(islands(3).length).toBeGreaterThan(3);
    const middle = ({ region }: { region: Region }) => {
      const xs = region[0].filter((_, i) => i % 2 === 0);
      const ys = region[0].filter((_, i) => i % 2 === 1);
      return [Math.min(...xs) + Math.max(...xs), Math.min(...ys) + Math.max(...ys)].map((twice) => twice / 2);
    };
    for (const prop of islands(3)) {
      for (const at of middle(prop)) expect(Math.abs(at / 910 - Math.round(at / 910)) * 910).toBeLessThan(6);
      const [x, y] = middle(prop);
      for (const number of [1, 2]) expect(isInside(x, y, foamOf(made, number))).toBe(true);
    }
    expect(islands(3).length).toBeLessThan((4130 / 910) * (3070 / 910) + 1);
  });

  test('are not needed where a lid spans the void', () => {
    const narrow = flatStack(3, 50, [[rectangle(0, 0, 2370, 700)]]);
    const made = split('hollow', narrow, { lap: 60, more: HOLLOW });
    expect(made.of(1)).toHaveLength(1);
    expect(voidsOf(narrow, made, 0)).toHaveLength(1);
  });

  test('that leave no void between them are refused', () => {
    const [fault] = faultsOf(() => split('hollow', wide, { more: { spacing: 170, prop: 160 } }));
    expect(fault).toMatchObject({ code: 'split/props-too-close', where: { path: 'split.hollow.spacing' } });
    expect(fault.fix).toContain('180 mm');
  });
});

describe('flats', () => {
  /** A terrace 700 wide in front of a block; both on two layers. */
  const ground = [[rectangle(0, 0, 2390, 1900)]];
  const block = [[rectangle(0, 700, 2390, 1900)]];
  const stack: LayerStack = {
    kind: 'flat',
    layers: [ground, ground, ground, block, block].map((regions, i) => ({
      number: i + 1,
      bottomMm: 50 * i,
      thicknessMm: 50,
      regions,
    })),
  };
  const terrace = [[rectangle(5, 5, 2385, 695)]];

  test('are solid to the floor, unless the job says otherwise; then they say DO NOT STEP', () => {
    const solid = split('hollow', stack, { lap: 60, more: { flat: 600 } });
    const hollow = split('hollow', stack, { lap: 60, more: HOLLOW });
    for (const i of [0, 1]) {
      expect(areaOf(intersect(voidsOf(stack, solid, i), terrace))).toBeLessThan(1);
      expect(areaOf(intersect(voidsOf(stack, hollow, i), terrace))).toBeGreaterThan(1e5);
    }
    const marked = (made: Split) => made.pieces.filter(({ doNotStep }) => doNotStep).map(({ layer }) => layer);
    expect(new Set(marked(hollow))).toEqual(new Set([3, 5]));
    expect(marked(solid)).toEqual([]);
  });

  test('narrower than the job says are steps, over which pieces are marked', () => {
    const made = split('hollow', stack, { lap: 60, more: { flat: 900 } });
    expect(areaOf(intersect(voidsOf(stack, made, 0), terrace))).toBeGreaterThan(1e5);
    expect(made.of(3).some(({ doNotStep }) => doNotStep)).toBe(true);
  });

  test('the top of all is marked only where it is thin', () => {
    const made = split('hollow', flatStack(2, 50, [[rectangle(0, 0, 1700, 1100)]]), { lap: 60, more: HOLLOW });
    expect(made.of(2).every(({ doNotStep }) => doNotStep)).toBe(true);
    expect(made.of(1).some(({ doNotStep }) => doNotStep)).toBe(false);
    const thick = flatStack(2, 200, [[rectangle(0, 0, 1700, 1100)]]);
    const facts = splitFacts({ boardSizes: [{ ...splitFacts().boardSizes[0], thicknessMm: 200 }] });
    expect(split('hollow', thick, { facts, more: HOLLOW }).pieces.some(({ doNotStep }) => doNotStep)).toBe(false);
  });
});

describe('a lap', () => {
  const stack = flatStack(2, 50, [[rectangle(0, 0, 2370, 1100)]]);
  const least = (lap: string | number) => {
    const [hole] = voidsOf(stack, split('hollow', stack, { more: { ...HOLLOW, lap } }), 0);
    let found = Infinity;
    for (let k = 0; k < hole[0].length; k += 2) {
      found = Math.min(found, distanceToRings(hole[0][k], hole[0][k + 1], ringsOf(stack.layers[0].regions)));
    }
    return found;
  };

  test.each([
    ['1.5 x thickness', 75],
    ['2 × thickness', 100],
    ['9 cm', 90],
    [41, 41],
  ])('of %s is kept', (lap, mm) => {
    expect(least(lap)).toBeGreaterThanOrEqual(mm);
    expect(least(lap)).toBeLessThan(mm + 5);
  });
});
