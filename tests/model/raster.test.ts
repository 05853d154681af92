/** The raster of heights seen from above: planes, overhangs, footprints, and cells at their places. */
import { describe, expect, test } from 'vitest';
import { rectangle, reversed } from '../../src/geometry/ring.ts';
import { type Raster, rasterOf } from '../../src/model/raster.ts';
import { planeGround, wedge } from '../help/grounds.ts';
import { MUSHROOM, mapped, polygonArea, prism, together } from '../help/solids.ts';

/** Every cell with its middle, row 0 in the south. */
const cellsOf = ({ columns, stepMm, heightsMm }: Raster) =>
  Array.from(heightsMm, (height, i) => ({
    x: ((i % columns) + 0.5) * stepMm,
    y: (Math.floor(i / columns) + 0.5) * stepMm,
    height,
  }));

describe('a heightfield', () => {
  // 40 mm in the south-west, 3 mm up every 20 mm east, 1.5 mm down every 35 mm north; 160 × 210 mm.
  const field = planeGround(9, 7);
  const planeAt = (x: number, y: number) => 40 + (3 * x) / 20 - (1.5 * y) / 35;

  test.each([210, 64, 7, 1])('%i cells along the longer side give the plane back', (longest) => {
    const raster = rasterOf(field, longest);
    expect(Math.max(raster.columns, raster.rows)).toBe(longest);
    expect(raster.stepMm).toBe(210 / longest);
    expect(raster.columns).toBe(Math.max(1, Math.round(160 / raster.stepMm)));
    for (const { x, y, height } of cellsOf(raster)) {
      // Beyond the last post, where cells stand out by up to half, the ground goes on level.
      expect(height).toBeCloseTo(planeAt(Math.min(x, 160), Math.min(y, 210)), 4);
    }
  });

  test('outside the footprint, and in its hole, there is nothing', () => {
    const footprint = [[rectangle(0, 0, 130, 210), reversed(rectangle(31, 52, 77, 119))]];
    for (const { x, y, height } of cellsOf(rasterOf({ ...field, footprint }, 60))) {
      const isGround = x < 130 && !(x > 31 && x < 77 && y > 52 && y < 119);
      expect(Number.isNaN(height)).toBe(!isGround);
      if (isGround) expect(height).toBeCloseTo(planeAt(x, y), 4);
    }
  });
});

describe('a solid', () => {
  test('a wedge gives its sloping top', () => {
    const raster = rasterOf(wedge(), 80);
    expect([raster.columns, raster.rows]).toEqual([80, 50]);
    for (const { x, height } of cellsOf(raster)) expect(height).toBeCloseTo((30 * x) / 40, 5);
  });

  test('an overhang is seen from above: its cap, not its stem', () => {
    const mushroom = mapped(MUSHROOM, (x, y, z) => [x - 3, y - 7, z]);
    const raster = rasterOf(mushroom, 300);
    const seen = cellsOf(raster).filter(({ height }) => !Number.isNaN(height));
    // The cap's cone: 47 at its rim, 34 from the axis, 58 in the middle.
    for (const { x, y, height } of seen) {
      const radius = Math.sqrt((x - 34) * (x - 34) + (y - 34) * (y - 34));
      expect(Math.abs(height - (58 - (11 * radius) / 34))).toBeLessThan(0.1);
    }
    const area = seen.length * raster.stepMm * raster.stepMm;
    expect(area / polygonArea(34, 29)).toBeCloseTo(1, 2);
    expect(seen.length).toBeLessThan(0.8 * raster.heightsMm.length);
  });

  test('of two shells one over the other the upper one is seen, in whatever order they come', () => {
    const low = prism(
      [
        [0, 0],
        [60, 0],
        [60, 35],
        [0, 35],
      ],
      0,
      12,
    );
    const high = prism(
      [
        [13, 8],
        [41, 8],
        [41, 29],
        [13, 29],
      ],
      20,
      27,
    );
    for (const both of [together(low, high), together(high, low)]) {
      for (const { x, y, height } of cellsOf(rasterOf(both, 120))) {
        expect(height).toBe(x > 13 && x < 41 && y > 8 && y < 29 ? 27 : 12);
      }
    }
  });

  test('a footprint takes away what lies outside it', () => {
    const raster = rasterOf(
      { ...wedge(), footprint: [[rectangle(0, 0, 40, 25), reversed(rectangle(9, 4, 20, 17))]] },
      80,
    );
    for (const { x, y, height } of cellsOf(raster)) {
      expect(Number.isNaN(height)).toBe(x > 9 && x < 20 && y > 4 && y < 17);
    }
  });
});
