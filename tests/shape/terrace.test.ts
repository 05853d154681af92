import { describe, expect, it } from 'vitest';
import { groundOf, groundRange } from '../../src/model/ground.ts';
import { type Heightfield, heightfield } from '../../src/model/landform.ts';
import { crop } from '../../src/shape/crop.ts';
import { terrace } from '../../src/shape/terrace.ts';
import { planeGround, roughGround, wedge } from '../help/grounds.ts';
import { codes, refusal, runPlugin } from '../help/plugin-run.ts';

const terraced = (field: Heightfield, options: Record<string, unknown>) =>
  runPlugin<Heightfield>(terrace, field, options);
const STEP = 30.1;
const TREADS = ['low', 'middle', 'high'] as const;
const isLevel = (height: number, from = 0) =>
  Math.abs((height - from) / STEP - Math.round((height - from) / STEP)) * STEP < 1e-7;

describe.each(TREADS)('treads %s', (treads) => {
  const rough = roughGround(17, 23, 14);
  it('lie at levels, all of them to the last digit of a whole number of steps', () => {
    for (const from of [0, 7.3]) {
      const { made } = terraced(rough, { step: STEP, from, treads });
      expect([...made.heightsMm].every((height) => isLevel(height, from))).toBe(true);
    }
    const { made } = terraced(rough, { step: 30, treads });
    expect([...made.heightsMm].every((height) => Number.isInteger(height / 30))).toBe(true);
  });

  it('terraced again change nothing, to the byte; nor in heights of 32 bits', () => {
    const once = terraced(rough, { step: STEP, treads }).made;
    expect(terraced(once, { step: STEP, treads }).made.heightsMm).toEqual(once.heightsMm);
    const rounded = { ...once, heightsMm: Float32Array.from(once.heightsMm) };
    expect(terraced(rounded, { step: STEP, treads }).made.heightsMm).toEqual(once.heightsMm);
  });

  it('with a ramp: never steeper backwards, within a step of the ground, continuous', () => {
    const long = heightfield(
      2,
      4001,
      10,
      10,
      Float64Array.from({ length: 8002 }, (_, i) => Math.floor(i / 2) / 20),
    );
    const { made } = terraced(long, { step: STEP, ramp: 0.3, treads });
    for (let i = 2; i < 8002; i += 2) {
      const rise = made.heightsMm[i] - made.heightsMm[i - 2];
      expect(rise).toBeGreaterThanOrEqual(-1e-7);
      expect(rise).toBeLessThan(0.05 / 0.3 + 1e-3);
      expect(Math.abs(made.heightsMm[i] - long.heightsMm[i])).toBeLessThan(STEP);
    }
    // Seven tenths of the way is tread.
    const flat = made.heightsMm.filter((height, i) => i % 2 === 0 && isLevel(height)).length;
    expect(flat / 4001).toBeGreaterThan(0.67);
    expect(flat / 4001).toBeLessThan(0.74);
  });
});

it('low treads only dig, high ones only build, middle ones lie between and keep the volume of a slope', () => {
  const field = planeGround(120, 90);
  const [low, middle, high] = TREADS.map((treads) => terraced(field, { step: STEP, treads }).made);
  for (let i = 0; i < field.heightsMm.length; i++) {
    expect(low.heightsMm[i]).toBeLessThanOrEqual(field.heightsMm[i] + 1e-4);
    expect(high.heightsMm[i]).toBeGreaterThanOrEqual(field.heightsMm[i] - 1e-4);
    expect(high.heightsMm[i] - low.heightsMm[i]).toBeLessThan(STEP + 1e-6);
    expect(Math.abs(middle.heightsMm[i] - field.heightsMm[i])).toBeLessThanOrEqual(STEP / 2 + 1e-6);
  }
  const volume = (each: Heightfield) => groundOf(each).volumeMm3;
  expect(volume(low)).toBeLessThan(volume(field));
  expect(volume(high)).toBeGreaterThan(volume(field));
  expect(Math.abs(volume(middle) / volume(field) - 1)).toBeLessThan(0.01);
});

it('keeps a footprint; what is below 0 goes to a level below 0', () => {
  const cut = runPlugin<Heightfield>(crop, roughGround(5, 19, 10), {
    outline: [
      [31, 20],
      [300, 44],
      [133, 250],
    ],
  }).made;
  expect(terraced(cut, { step: 50 }).made.footprint).toBe(cut.footprint);
  const sunk = heightfield(3, 2, 20, 35, Float64Array.from([-90, -40, -7, 5, 60, 130]));
  expect(groundRange(terraced(sunk, { step: 50 }).made)).toMatchObject({ lowMm: -100, highMm: 150 });
});

it('tells a step that is more than the relief; refuses a solid and options that make no steps', () => {
  expect(codes(terraced(planeGround(5, 4), { step: 500 }))).toEqual(['shape/one-step']);
  const fault = refusal(() => runPlugin(terrace, wedge(), { step: 5 }));
  expect([fault.code, fault.where.path]).toEqual(['shape/solid', 'shape.terrace']);
  for (const options of [{}, { step: 0 }, { step: -2 }, { step: 5, ramp: 1 }, { step: 5, treads: 'up' }]) {
    expect(() => terraced(planeGround(5, 4), options)).toThrow();
  }
});
