import { expect, it } from 'vitest';
import { extent, type Landform } from '../../src/model/landform.ts';
import { base } from '../../src/shape/base.ts';
import { roughGround, wedge } from '../help/grounds.ts';
import { codes, refusal, runPlugin } from '../help/plugin-run.ts';

const based = <T extends Landform>(landform: T, options: Record<string, unknown>) =>
  runPlugin<T>(base, landform, options);
const ground = roughGround(9);

it('lifts every height, cuts below a level, or both, the cut first', () => {
  const before = structuredClone(ground);
  const cases = [
    [{ lift: 55 }, (h: number) => h + 55],
    [{ cut: 90 }, (h: number) => Math.max(h - 90, 0)],
    [{ cut: 90, lift: '2 cm' }, (h: number) => Math.max(h - 90, 0) + 20],
    [{ cut: -12 }, (h: number) => h + 12],
  ] as const;
  for (const [options, wanted] of cases) {
    const { made } = based(ground, options);
    for (let i = 0; i < made.heightsMm.length; i++)
      expect(made.heightsMm[i]).toBeCloseTo(wanted(ground.heightsMm[i]), 6);
  }
  expect(ground).toEqual(before);
});

it('stands the lowest ground at 0, a heightfield and a solid alike', () => {
  const { highMm, lowMm } = extent(ground);
  const onFloor = based(ground, { cut: 'lowest' });
  expect(extent(onFloor.made).lowMm).toBe(0);
  expect(extent(onFloor.made).highMm).toBeCloseTo(highMm - lowMm, 6);
  expect(codes(onFloor)).toEqual([]);
  const solid = based(based(wedge(), { lift: 77 }).made, { cut: 'lowest', lift: 5 }).made;
  expect(extent(solid)).toMatchObject({ lowMm: 5, highMm: 35 });
});

it('puts ground exactly at the level it is meant for', () => {
  const { made } = based({ ...ground, heightsMm: new Float64Array(63).fill(50.1) }, { lift: 49.9 });
  expect(new Set(made.heightsMm)).toEqual(new Set([100]));
});

it('tells what it cuts off, refuses to cut everything, or through a solid', () => {
  expect(codes(based(ground, { cut: 90 }))).toEqual(['shape/cut-off']);
  expect(refusal(() => based(ground, { cut: 900 })).code).toBe('shape/nothing-left');
  expect(refusal(() => based(wedge(), { cut: 12 })).code).toBe('shape/solid');
  expect(() => based(ground, {})).toThrow('cut, lift or both');
});
