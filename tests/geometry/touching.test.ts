import { expect, test } from 'vitest';
import { areaOf, regionArea, reversed } from '../../src/geometry/ring.ts';
import { partedAtTouches, regionsOfLoops } from '../../src/geometry/touching.ts';
import { blob } from '../help/stacks.ts';

test('a region that touches itself nowhere comes back as it is', () => {
  const region = [blob(500, 400, 450, 330, 40, 2), reversed(blob(480, 420, 90, 70, 17, 3))];
  expect(partedAtTouches(region)).toEqual([region]);
});

test('two areas that hang together at a point come apart; a hole stays with its own', () => {
  const bow = Float64Array.from([0, 0, 410, 130, 930, -40, 760, 620, 410, 130, 210, 560]);
  const hole = Float64Array.from([600, 200, 620, 260, 700, 190]);
  const parted = partedAtTouches([bow, hole]);
  expect(parted.map((region) => region.length).sort()).toEqual([1, 2]);
  expect(areaOf(parted)).toBeCloseTo(regionArea([bow, hole]), 9);
  const withHole = parted.find((region) => region.length === 2);
  expect(Math.max(...(withHole?.[0] ?? []))).toBe(930);
});

test('a hole that touches the outline opens it: one area, one outline', () => {
  const outline = Float64Array.from([0, 0, 500, 10, 900, 0, 870, 640, 30, 600]);
  const hole = Float64Array.from([500, 10, 330, 300, 560, 330]);
  const [region, ...others] = partedAtTouches([outline, hole]);
  expect(others).toEqual([]);
  expect(region).toHaveLength(1);
  expect(regionArea(region)).toBeCloseTo(regionArea([outline, hole]), 9);
});

test('an island in a hole is an area of its own', () => {
  const loops = [
    blob(500, 400, 450, 330, 40, 2),
    reversed(blob(500, 400, 250, 180, 30, 2)),
    blob(500, 400, 90, 70, 20, 2),
  ];
  expect(regionsOfLoops(loops).map((region) => region.length)).toEqual([2, 1]);
});
