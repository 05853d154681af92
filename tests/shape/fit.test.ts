import { describe, expect, it } from 'vitest';
import { groundOf } from '../../src/model/ground.ts';
import { extent, type Heightfield, heightfield, isWhole, type Landform, type Solid } from '../../src/model/landform.ts';
import { crop } from '../../src/shape/crop.ts';
import { fit } from '../../src/shape/fit.ts';
import { planeGround, roughGround, wedge } from '../help/grounds.ts';
import { codes, refusal, runPlugin } from '../help/plugin-run.ts';

const fitted = <T extends Landform>(landform: T, options: Record<string, unknown>) =>
  runPlugin<T>(fit, landform, options);
const sizes = (landform: Landform) => {
  const { box, lowMm, highMm } = extent(landform);
  return [box[2], box[3], lowMm, highMm];
};
const close = (found: readonly number[], wanted: readonly number[]) =>
  found.forEach((value, i) => void expect(value).toBeCloseTo(wanted[i], 6));

describe.each([
  ['a heightfield', roughGround(4) as Landform],
  ['a solid', wedge() as Landform],
])('%s', (_, ground) => {
  const [width, depth, low, high] = sizes(ground);
  it.each<[string, Record<string, unknown>, readonly number[]]>([
    ['a scale', { scale: 5 }, [1 / 5, 1 / 5, 1 / 5]],
    ['a scale and one of its own for heights', { scale: 5, vertical: 4 }, [1 / 5, 1 / 5, 1 / 4]],
    ['a width', { width: 470 }, [470 / width, 470 / width, 470 / width]],
    ['a depth and a height', { depth: '52 cm', height: 88 }, [520 / depth, 520 / depth, 88 / high]],
    ['a size', { size: [310, 700], height: 41 }, [310 / width, 700 / depth, 41 / high]],
    ['a height alone', { height: 123 }, [1, 1, 123 / high]],
    ['a vertical scale alone', { vertical: 0.5 }, [1, 1, 2]],
  ])('comes to %s, about z = 0', (_, options, [x, y, z]) => {
    const before = structuredClone(ground);
    const { made } = fitted(ground, options);
    expect(ground).toEqual(before);
    close(sizes(made), [width * x, depth * y, low * z, high * z]);
    // Heights are tidied to a ten-millionth of a millimetre: a billionth of these.
    expect(groundOf(made).volumeMm3 / (groundOf(ground).volumeMm3 * x * y * z)).toBeCloseTo(1, 8);
    if (made.kind === 'heightfield') expect(isWhole(made)).toBe(true);
  });
});

it('stretches a footprint and the origin of a cut between posts with the ground', () => {
  const cut = runPlugin<Heightfield>(crop, roughGround(6), {
    outline: [
      [13, 11],
      [150, 32],
      [97, 180],
    ],
  }).made;
  const { made } = fitted(cut, { size: [200, 50], vertical: 0.25 });
  close(sizes(made).slice(0, 2), [200, 50]);
  const factor = (200 / sizes(cut)[0]) * (50 / sizes(cut)[1]) * 4;
  expect(groundOf(made).volumeMm3 / (groundOf(cut).volumeMm3 * factor)).toBeCloseTo(1, 9);
});

it('takes the mean of both ways for heights where size stretches, and says so', () => {
  const ran = fitted(roughGround(4), { size: [320, 105] });
  expect(codes(ran)).toEqual(['shape/stretched', 'shape/fitted']);
  expect(extent(ran.made).highMm).toBeCloseTo(extent(roughGround(4)).highMm * Math.sqrt(2 * 0.5), 6);
});

it('tells the steepest slope and how much heights are exaggerated', () => {
  // 3 mm in 20 and −1.5 in 35: the steepest rise of a plane is √(0.15² + 0.042857²) = 0.156; five times that is 0.78, 38°.
  const { findings } = fitted(planeGround(5, 4), { vertical: 0.2 });
  expect(findings[0].message).toContain('heights 5 times as large as in plan');
  expect(findings[0].message).toContain('leans 38°, 0.78 up to 1 along');
});

it('tells the steepest slope of a solid, walls and undersides aside', () => {
  // The wedge rises 30 mm over 40: 37°; its back stands upright.
  const { findings } = fitted(wedge(), { scale: 2 });
  expect(findings[0].message).toContain('leans 37°, 0.75 up to 1 along, walls and overhangs aside');
  expect(fitted(wedge(), { vertical: 0.5 }).findings[0].message).toContain('leans 56°, 1.5 up');
});

it('measures height on the ground alone, not on what was cropped away', () => {
  const peak = heightfield(4, 3, 10, 15, Float64Array.from([5, 6, 7, 8, 6, 7, 9, 7, 5, 6, 8, 900]));
  const low = runPlugin<Heightfield>(crop, peak, {
    outline: [
      [0, 0],
      [30, 0],
      [0, 15],
    ],
  }).made;
  const { made } = fitted(low, { height: 90 });
  expect(extent(made).highMm).toBeCloseTo(90, 6);
});

it('refuses a height for ground that is not above 0, and options that fight or say nothing', () => {
  const sunk = heightfield(3, 2, 20, 35, Float64Array.from([-9, -8, -7, -6, -5, -4]));
  expect(refusal(() => fitted(sunk, { height: 50 })).code).toBe('shape/no-height');
  for (const options of [{}, { scale: 2, width: 10 }, { vertical: 2, height: 5 }, { scale: 0 }, { width: -1 }]) {
    expect(() => fitted(sunk, options)).toThrow();
  }
});

it('keeps a solid closed: the same triangles', () => {
  expect(fitted<Solid>(wedge(), { scale: 3 }).made.triangles).toEqual(wedge().triangles);
});
