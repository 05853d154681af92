/** Landforms: where they reach, and whether anything of them is left out. */
import { describe, expect, test } from 'vitest';
import { rectangle, reversed } from '../../src/geometry/ring.ts';
import { extent, heightfield, isWhole } from '../../src/model/landform.ts';
import { roughGround, wedge } from '../help/grounds.ts';

const FIELD = roughGround(4);

test('a heightfield reaches from its first post to its last', () => {
  const heights = Float64Array.from([3, 8, 1, 12, 7, 30]);
  const field = heightfield(3, 2, 20, 35, heights);
  expect(extent(field)).toEqual({ box: [0, 0, 40, 35], lowMm: 1, highMm: 30 });
  expect(field.heightsMm).toBe(heights);
  expect(field.originMm).toEqual([0, 0]);
});

test('heights of 32 and 64 bits, below and above 0, are told alike', () => {
  const heights = [-12.5, 3, 0.25, 96];
  for (const kept of [Float32Array.from(heights), Float64Array.from(heights)]) {
    expect(extent(heightfield(2, 2, 31, 17, kept))).toMatchObject({ lowMm: -12.5, highMm: 96 });
  }
});

test('a footprint sets the box, of a heightfield and of a solid', () => {
  const footprint = [[rectangle(0, 0, 33, 21)], [rectangle(35, 2, 38, 24)]];
  expect(extent({ ...FIELD, footprint }).box).toEqual([0, 0, 38, 24]);
  expect(extent(wedge())).toEqual({ box: [0, 0, 40, 25], lowMm: 0, highMm: 30 });
  expect(extent({ ...wedge(), footprint }).box).toEqual([0, 0, 38, 24]);
});

describe('isWhole', () => {
  const [wide, deep] = [160, 210];
  const over = (...rings: Parameters<typeof reversed>[0][]) => isWhole({ ...FIELD, footprint: [rings] });

  test('a fresh heightfield is', () => {
    expect(isWhole(FIELD)).toBe(true);
    expect(isWhole(heightfield(7, 3, 0.1, 3.3, new Float64Array(21)))).toBe(true);
  });

  test('it is wherever its rectangle starts', () => {
    const ring = rectangle(0, 0, wide, deep);
    expect(over(Float64Array.from([...ring.slice(4), ...ring.slice(0, 4)]))).toBe(true);
  });

  test('not with a hole, a second region, a corner more, a corner cut off or four corners askew', () => {
    expect(over(rectangle(0, 0, wide, deep), reversed(rectangle(10, 12, 31, 50)))).toBe(false);
    expect(isWhole({ ...FIELD, footprint: [[rectangle(0, 0, 70, deep)], [rectangle(90, 0, wide, deep)]] })).toBe(false);
    expect(over(Float64Array.from([0, 0, 50, 0, wide, 0, wide, deep, 0, deep]))).toBe(false);
    expect(over(Float64Array.from([0, 0, wide, 0, wide, deep]))).toBe(false);
    expect(over(Float64Array.from([31, 0, wide, 74, 57, deep, 0, 112]))).toBe(false);
    expect(isWhole({ ...FIELD, footprint: [] })).toBe(false);
  });

  test('not when its posts reach beyond it on any side', () => {
    expect(over(rectangle(0, 0, wide - 0.001, deep))).toBe(false);
    expect(over(rectangle(0, 0, wide, deep - 20))).toBe(false);
    expect(over(rectangle(0, 0.25, wide, deep))).toBe(false);
    expect(over(rectangle(31, 0, wide, deep))).toBe(false);
    expect(isWhole({ ...FIELD, originMm: [-7, 0] })).toBe(false);
    expect(isWhole({ ...FIELD, originMm: [0, -3.5] })).toBe(false);
  });
});
