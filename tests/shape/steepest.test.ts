import { describe, expect, test } from 'vitest';
import { makeKit } from '../../src/job/kit.ts';
import { groundOf } from '../../src/model/ground.ts';
import { type Heightfield, heightfield } from '../../src/model/landform.ts';
import { crop } from '../../src/shape/crop.ts';
import { steepest } from '../../src/shape/steepest.ts';
import { planeGround, roughGround, wedge } from '../help/grounds.ts';
import { codes, refusal, runPlugin } from '../help/plugin-run.ts';

const eased = (ground: Heightfield, options: Record<string, unknown>) =>
  runPlugin<Heightfield>(steepest, ground, options);

test('ground slides until its slope is the one asked for, its volume kept, and the finding tells how much and where', () => {
  const heights = new Float64Array(31 * 21);
  for (let i = 0; i < heights.length; i++) heights[i] = i % 31 < 12 && i >= 31 * 9 ? 200 : 50;
  const ground = heightfield(31, 21, 20, 25, heights);
  const ran = eased(ground, { slope: '1 in 2' });
  expect(codes(ran)).toEqual(['shape/relaxed']);
  expect(ran.findings[0].message).toMatch(
    /leant 8\d\.?\d*° .*to lean 26\.6° \(1 in 2\) at most, [\d.]+ litres slid down and the ground (falls|rises) by up to/,
  );
  expect(ran.findings[0].where.atMm).toBeDefined();
  expect(groundOf(ran.made).volumeMm3 / groundOf(ground).volumeMm3).toBeCloseTo(1, 9);
  expect(groundOf(ran.made).surfaceAreaMm2).toBeLessThan(groundOf(ground).surfaceAreaMm2);
  expect(codes(eased(ran.made, { slope: '1 in 2' }))).toEqual(['shape/gentle-already']);
});

test('within an outline volume is kept too, and what lies outside stays', () => {
  const outline = [
    [31, 20],
    [300, 44],
    [333, 250],
    [190, 180],
    [52, 301],
  ];
  const ground = runPlugin<Heightfield>(crop, roughGround(9, 19, 10), { outline }).made;
  const ran = eased(ground, { slope: 40, by: 'cut' });
  expect(codes(ran)).toEqual(['shape/relaxed']);
  expect(ran.made.footprint).toEqual(ground.footprint);
  expect(groundOf(ran.made).volumeMm3).toBeLessThan(groundOf(ground).volumeMm3);
});

test('cut takes off what fill of the ground upside down heaps up, told in litres', () => {
  const litres = (ground: Heightfield, by: string) =>
    Number(/([\d.]+) litres/.exec(eased(ground, { slope: 35, by }).findings[0].message)?.[1]);
  const ground = roughGround(5, 23, 17);
  const upsideDown = { ...ground, heightsMm: ground.heightsMm.map((height) => 300 - height) as Float64Array };
  expect(litres(ground, 'cut')).toBeGreaterThan(1);
  expect(litres(ground, 'cut')).toBe(litres(upsideDown, 'fill'));
});

test('gentle ground comes back as the same value', () => {
  const plane = planeGround(19, 10);
  // 3 in 20 and 1.5 in 35: 0.156 over 1.
  const ran = eased(plane, { slope: 9 });
  expect(ran.made).toBe(plane);
  expect(codes(ran)).toEqual(['shape/gentle-already']);
  expect(codes(eased(plane, { slope: 8 }))).toEqual(['shape/relaxed']);
});

describe('bad input', () => {
  const fault = (written: unknown) => {
    const read = steepest.options(makeKit('mm')).safeParse(written);
    return read.success
      ? 'none'
      : read.error.issues.map(({ path, message }) => `${path.join('.')}: ${message}`).join('\n');
  };
  test.each([
    [{}, /slope: A slope is missing/],
    [{ slope: 0 }, /slope: .*not between 0 and 89/],
    [{ slope: 90 }, /slope: .*not between 0 and 89/],
    [{ slope: -30 }, /slope: .*not between/],
    [{ slope: '0 in 3' }, /slope: .*not between/],
    [{ slope: '3 in 0' }, /slope: .*not between/],
    [{ slope: '1:3' }, /slope: "1:3" is not a slope/],
    [{ slope: Number.NaN }, /slope: .*is not a slope/],
    [{ slope: 30, by: 'blast' }, /by/],
  ])('%j', (written, expected) => expect(fault(written)).toMatch(expected));

  test('a slope reads back to itself, and 1 in 1 is 45°', () => {
    const parsed = steepest.options(makeKit('mm')).parse({ slope: '1 in 3' });
    expect(parsed.slope).toBeCloseTo(18.4349488, 6); // atan(1/3), tables of trigonometry
    expect(steepest.options(makeKit('mm')).parse(parsed)).toEqual(parsed);
    expect(steepest.options(makeKit('in')).parse({ slope: ' 2.5 in 2.5 ' }).slope).toBe(45);
  });

  test('a solid is refused', () => {
    expect(refusal(() => runPlugin(steepest, wedge(), { slope: 30 }))).toMatchObject({
      code: 'shape/solid',
      where: { path: 'shape.steepest' },
    });
  });
});
