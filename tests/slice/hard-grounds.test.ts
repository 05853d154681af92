import { describe, expect, test } from 'vitest';
import { centreOf } from '../../src/geometry/contour.ts';
import { stream } from '../../src/geometry/random.ts';
import { areaOf, type Region, ringArea, ringsOf } from '../../src/geometry/ring.ts';
import { type Heightfield, heightfield } from '../../src/model/landform.ts';
import type { Cut } from '../../src/slice/layers/levels.ts';
import { layerOutlines } from '../../src/slice/layers/outlines.ts';
import { walkNow } from '../../src/walk.ts';
import { evenLevelsMm } from '../help/levels.ts';
import { crossingIn, sticksOut } from '../help/random-rings.ts';

interface Ground {
  readonly size: readonly [columns: number, rows: number];
  readonly stepMm: readonly [x: number, y: number];
  readonly thicknessMm: number;
  readonly height: (next: () => number, column: number, row: number) => number;
}

/** Grounds on which rounding, ties or steepness could go wrong. */
const GROUNDS: Record<string, Ground> = {
  'all equal, at a level': { size: [7, 5], stepMm: [20, 17], thicknessMm: 25, height: () => 100 },
  'a chequerboard of levels': {
    size: [9, 8],
    stepMm: [11, 13],
    thicknessMm: 30,
    height: (_, column, row) => 30 * (1 + 2 * ((column + row) % 2)),
  },
  'whole levels everywhere': {
    size: [10, 8],
    stepMm: [20, 21],
    thicknessMm: 20,
    height: (next) => 20 * Math.floor(6 * next()),
  },
  'a hair off the levels': {
    size: [10, 8],
    stepMm: [20, 21],
    thicknessMm: 20,
    height: (next) => 20 * Math.floor(6 * next()) + 0.0004 * (next() - 0.5) + 0.001,
  },
  'two columns': { size: [2, 23], stepMm: [9, 14], thicknessMm: 12, height: (next) => 70 * next() },
  'two rows, hardly wide': { size: [23, 2], stepMm: [0.7, 0.3], thicknessMm: 12, height: (next) => 70 * next() },
  'posts closer than the tolerance': {
    size: [11, 9],
    stepMm: [0.21, 0.17],
    thicknessMm: 0.4,
    height: (next) => 3 * next(),
  },
  'a kilometre high': { size: [11, 9], stepMm: [20, 23], thicknessMm: 90000, height: (next) => 1e6 * next() },
  'a cliff of ten layers': {
    size: [11, 9],
    stepMm: [6, 5],
    thicknessMm: 50,
    height: (next, column, row) => (column + 0.4 * row > 7 ? 500 : 10) + 30 * next(),
  },
  'spikes and pits': {
    size: [11, 9],
    stepMm: [4, 5],
    thicknessMm: 15,
    height: (next) => 60 + (next() < 0.1 ? 90 : 0) - (next() < 0.1 ? 58 : 0),
  },
};

function made({ size: [columns, rows], stepMm, height }: Ground, name: string, seed: number): Heightfield {
  const next = stream(seed, name);
  const heights = Array.from({ length: columns * rows }, (_, i) => height(next, i % columns, Math.floor(i / columns)));
  const values = seed % 2 === 0 ? Float32Array.from(heights) : Float64Array.from(heights);
  return heightfield(columns, rows, stepMm[0], stepMm[1], values);
}

function volumeMm3({ columns, rows, stepXMm, stepYMm, heightsMm: h }: Heightfield): number {
  let sum = 0;
  for (let row = 0; row + 1 < rows; row++) {
    for (let at = row * columns; at + 1 < (row + 1) * columns; at++) {
      sum += centreOf(h[at], h[at + 1], h[at + columns], h[at + columns + 1]);
    }
  }
  return sum * stepXMm * stepYMm;
}

const whole = (regions: readonly Region[]) =>
  regions.map((region) => region.map((ring) => ring.map((value) => Math.round(value * 1000))));

describe.each(Object.entries(GROUNDS))('%s', (name, ground) => {
  const { thicknessMm } = ground;
  test.each(['proud', 'shy', 'middle'] as const)('%s layers are simple, one in another, on their side', (cut: Cut) => {
    for (const [seed, simplifyUm] of [500, 6000].entries()) {
      const field = made(ground, name, seed);
      const highest = Array.from(field.heightsMm).reduce((most, height) => Math.max(most, height), 0);
      const count = Math.ceil(highest / thicknessMm + 0.01);
      const levels = evenLevelsMm(count, thicknessMm);
      const stacks = [0, simplifyUm].map((um) => walkNow(layerOutlines(field, levels, cut, um)));
      const volume = volumeMm3(field);
      for (const stack of stacks) {
        const foam = stack.reduce((sum, regions) => sum + areaOf(regions) * thicknessMm, 0);
        // Rounding moves an outline by up to 0.0007 mm, however small what it runs round is.
        const lengthMm = stack.flat(2).reduce((sum, ring) => sum + ring.length * 20, 0);
        const slack = 0.0007 * lengthMm * thicknessMm + 1e-9 * volume;
        if (cut === 'proud') expect(foam).toBeGreaterThan(volume - slack);
        if (cut === 'shy') expect(foam).toBeLessThan(volume + slack);
        for (const [k, regions] of stack.entries()) {
          const here = whole(regions);
          expect(crossingIn(ringsOf(here)), `layer ${k + 1}`).toBeNull();
          for (const [outer, ...holes] of here) {
            expect(ringArea(outer)).toBeGreaterThan(0);
            for (const hole of holes) expect(ringArea(hole)).toBeLessThan(0);
          }
          if (k > 0) expect(sticksOut(here, whole(stack[k - 1])), `layer ${k + 1} over ${k}`).toBeNull();
          const asItWas = whole(stacks[0][k]);
          if (cut === 'proud') expect(sticksOut(asItWas, here)).toBeNull();
          if (cut === 'shy') expect(sticksOut(here, asItWas)).toBeNull();
        }
      }
    }
  });
});
