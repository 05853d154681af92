import { describe, expect, test } from 'vitest';
import { HeightSums } from '../../src/geometry/height-table.ts';
import { stream } from '../../src/geometry/random.ts';
import { areaOf } from '../../src/geometry/ring.ts';
import { groundBetween } from '../../src/model/ground-between.ts';
import { type Heightfield, heightfield, type Landform } from '../../src/model/landform.ts';
import {
  alone,
  bestStack,
  type Question,
  type Standing,
  standing,
  stepUm,
  tableLevelsMm,
  worthTrying,
} from '../../src/slice/layers/best.ts';
import { byHeight } from '../../src/slice/layers/by-height.ts';
import type { Cut } from '../../src/slice/layers/levels.ts';
import { layerOutlines } from '../../src/slice/layers/outlines.ts';
import { walkNow } from '../../src/walk.ts';
import { wedge } from '../help/grounds.ts';

const CUTS = ['proud', 'shy', 'middle'] as const;

/** Lopsided ground, some of it flat at whole 5 mm, up to about `high`. */
function ground(seed: number, high: number): Heightfield {
  const next = stream(seed, 'best');
  const heights = Float64Array.from({ length: 11 * 8 }, (_, i) => {
    const away = ((i % 11) - 4) ** 2 / 30 + (Math.floor(i / 11) - 3) ** 2 / 16;
    const height = high * Math.max(0, 1 - away) * (0.7 + 0.3 * next());
    return next() < 0.4 ? 5 * Math.round(height / 5) : height;
  });
  return heightfield(11, 8, 31, 47, heights);
}

const highOf = ({ heightsMm }: Heightfield) => Math.max(...heightsMm);

function asked(landform: Landform, highMm: number, cut: Cut, kinds: Question['kinds'], carve = 300, lay = 4) {
  const question = {
    kinds: worthTrying(kinds, highMm),
    highMm,
    cut,
    carve,
    lay,
    mayOverhang: landform.kind === 'solid',
  };
  const step = stepUm(question);
  const table = walkNow(byHeight(landform, tableLevelsMm(step, highMm)));
  return { question, step, table, best: bestStack(question, table, step) };
}

/** Every stack there is, by trying all. */
function everyStack({ question, table, step }: ReturnType<typeof asked>): Standing[] {
  const { kinds, highMm, cut } = question;
  const found: Standing[] = [];
  const grow = (chosen: number[], topMm: number) => {
    if (chosen.length > 0 && (cut !== 'proud' || topMm >= highMm)) found.push(standing(question, table, step, chosen));
    if (topMm >= highMm) return;
    for (const [k, { thicknessMm }] of kinds.entries()) {
      const [low, top] = [topMm, topMm + thicknessMm];
      if (cut === 'shy' ? top > highMm : cut === 'middle' && (low + top) / 2 > highMm) continue;
      grow([...chosen, k], top);
    }
  };
  grow([], 0);
  return found;
}

const least = (stacks: readonly Standing[]): Standing => {
  const nearest = Math.min(...stacks.map(({ overMm }) => Math.abs(overMm)));
  const met = stacks.filter(({ overMm }) => Math.abs(overMm) <= nearest + 1);
  return met.reduce((a, b) => (b.money < a.money ? b : a));
};

const KINDS = [
  { thicknessMm: 20, pricePerM2: 2.9 },
  { thicknessMm: 31.2, pricePerM2: 4.1 },
  { thicknessMm: 50, pricePerM2: 5.8 },
];

describe.each([1, 2, 3, 4, 5, 6, 7, 8])('ground of seed %i', (seed) => {
  const field = ground(seed, 90 + 17 * seed);
  const highMm = highOf(field);

  test.each(CUTS)('cut %s, the best is the least of all stacks there are', (cut) => {
    const made = asked(field, highMm, cut, KINDS, [40, 300, 2000][seed % 3], seed % 2 === 0 ? 0 : 4);
    const wanted = least(everyStack(made));
    expect(made.best.money).toBeCloseTo(wanted.money, 6);
    expect(Math.abs(Math.abs(made.best.overMm) - Math.abs(wanted.overMm))).toBeLessThanOrEqual(1 + 1e-9);
  });

  test.each(CUTS)('cut %s, no single thickness does better', (cut) => {
    const made = asked(field, highMm, cut, KINDS);
    for (const kind of made.question.kinds.keys()) {
      const single = alone(made.question, made.table, made.step, kind);
      if (single.thicknessesMm.length === 0) continue;
      const isNearer = Math.abs(single.overMm) < Math.abs(made.best.overMm) - 1 - 1e-9;
      expect(isNearer).toBe(false);
      if (Math.abs(single.overMm) <= Math.abs(made.best.overMm))
        expect(single.money).toBeGreaterThan(made.best.money - 1e-6);
    }
  });

  test('areas and volumes by height are those of the outlines and of the ground between levels', () => {
    const levels = Float64Array.from({ length: 12 }, (_, i) => (i * Math.ceil(highMm)) / 10);
    const { above, atLeast, under } = walkNow(byHeight(field, levels));
    const proud = walkNow(layerOutlines(field, levels, 'proud', 0));
    const shy = walkNow(layerOutlines(field, levels, 'shy', 0));
    for (let k = 0; k < 11; k++) {
      expect(areaOf(proud[k])).toBeCloseTo(above[k], 0);
      expect(areaOf(shy[k])).toBeCloseTo(atLeast[k + 1], 0);
      expect(under[k + 1] - under[k]).toBeCloseTo(groundBetween(field, levels[k], levels[k + 1]), 3);
    }
  });

  test('what it says of its stack is what slicing gives', () => {
    const { best } = asked(field, highMm, 'proud', KINDS);
    let um = 0;
    const levels = [0, ...best.thicknessesMm.map((each) => (um += Math.round(each * 1000)) / 1000)];
    const outlines = walkNow(layerOutlines(field, Float64Array.from(levels), 'proud', 0));
    let volume = 0;
    for (const [k, regions] of outlines.entries()) {
      expect(areaOf(regions)).toBeCloseTo(best.areasMm2[k], 0);
      volume += areaOf(regions) * best.thicknessesMm[k];
    }
    expect(volume - groundBetween(field, 0, 1e9)).toBeCloseTo(best.deviationMm3, -3);
    expect(levels[levels.length - 1] - highMm).toBeCloseTo(best.overMm, 9);
  });
});

test('thick boards where the ground is steep, thin ones where treads are wide', () => {
  // A cliff of 300 mm, then a plain that falls gently from 300 to 402 mm.
  const heights = Float64Array.from({ length: 41 * 3 }, (_, i) =>
    i % 41 < 6 ? 0 : i % 41 === 6 ? 290 : 300 + 3 * ((i % 41) - 6),
  );
  const { best } = asked(heightfield(41, 3, 60, 500, heights), 402, 'proud', [
    { thicknessMm: 25, pricePerM2: 2.7 },
    { thicknessMm: 75, pricePerM2: 7.3 },
  ]);
  expect(best.thicknessesMm).toEqual([75, 75, 75, 75, 25, 25, 25, 25, 25]);
});

test('of stacks that cost the same the one of fewer layers', () => {
  const { best } = asked(
    heightfield(2, 2, 300, 200, new Float64Array(4).fill(150)),
    150,
    'proud',
    [
      { thicknessMm: 30, pricePerM2: 3 },
      { thicknessMm: 75, pricePerM2: 7.5 },
    ],
    300,
    0,
  );
  expect(best.thicknessesMm).toEqual([75, 75]);
  expect(best.deviationMm3).toBeCloseTo(0, 3);
});

test('measured thicknesses on odd micrometres stay bounded, and the levels are still their sums', () => {
  const kinds = [49.713, 29.871, 75.209, 0.997].map((thicknessMm) => ({ thicknessMm, pricePerM2: thicknessMm / 10 }));
  const field = ground(3, 1500);
  const { best, step } = asked(field, highOf(field), 'proud', kinds);
  expect(step).toBeGreaterThan(1);
  const top = best.thicknessesMm.reduce((sum, each) => sum + Math.round(each * 1000), 0) / 1000;
  expect(top).toBeGreaterThanOrEqual(highOf(field));
  expect(top - highOf(field)).toBeCloseTo(best.overMm, 6);
  expect(best.overMm).toBeLessThan(1.1);
});

test('the sections of a solid by height', () => {
  const levels = tableLevelsMm(5000, 30);
  const { above, under } = walkNow(byHeight(wedge(), levels));
  // 40 × 25 mm at the foot, an even slope to 30 mm: above z a length of 40 (1 − z ÷ 30) is left.
  for (let i = 0; i * 5 <= 30; i++) {
    expect(above[i]).toBeCloseTo(40 * (1 - (i * 5) / 30) * 25, 9);
    expect(under[i]).toBeCloseTo(25 * 40 * (5 * i - (5 * i) ** 2 / 60), 6);
  }
});

test('flat ground exactly at a level lies at it, not above', () => {
  const sums = new HeightSums(Float64Array.from([0, 10, 20]));
  sums.add(7, 10, 10, 10);
  sums.add(2, 0, 10, 20);
  const { above, atLeast, under } = sums.table();
  expect([...above]).toEqual([9, 1, 0]);
  expect([...atLeast]).toEqual([9, 8, 0]);
  expect(under[2]).toBeCloseTo(90, 9);
});
