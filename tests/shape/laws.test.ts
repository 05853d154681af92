/** What holds for every shaper on every heightfield, whatever its outline, origin and kind of numbers. */
import { describe, expect, it, test } from 'vitest';
import { boxOf, type Region, rectangle, reversed, ringArea, ringsOf } from '../../src/geometry/ring.ts';
import { builtin } from '../../src/index.ts';
import { MADE, problemOf } from '../../src/made.ts';
import { groundOf, groundPosts, groundRange } from '../../src/model/ground.ts';
import { type Heightfield, heightfield } from '../../src/model/landform.ts';
import { crop } from '../../src/shape/crop.ts';
import { planeGround, roughGround } from '../help/grounds.ts';
import { runPlugin } from '../help/plugin-run.ts';

const OUTLINE = [
  [31, 20],
  [300, 44],
  [333, 250],
  [190, 180],
  [52, 301],
];
const rough = roughGround(3, 19, 10);
const outlined = runPlugin<Heightfield>(crop, rough, { outline: OUTLINE }).made;
/** A pond left out of the middle, off the posts, and an island in it. */
const pond: Region[] = [
  [rectangle(0, 0, 360, 315), reversed(rectangle(103, 88, 251, 222))],
  [rectangle(150, 120, 203, 171)],
];
const GROUNDS: readonly [string, Heightfield][] = [
  ['whole', rough],
  ['of 32 bits', { ...rough, heightsMm: Float32Array.from(rough.heightsMm) }],
  ['outlined between posts', outlined],
  ['with a pond and an island', { ...rough, footprint: pond }],
  ['of one cell', roughGround(5, 2, 2)],
  ['of one row of cells', roughGround(6, 30, 2)],
];
const SHAPERS: readonly [string, Record<string, unknown>][] = [
  ['fit', { width: 777, vertical: 0.3 }],
  [
    'crop',
    {
      rectangle: [
        [3, 2],
        [17, 31],
      ],
    },
  ],
  ['smooth', { reach: 80 }],
  ['base', { cut: 'lowest', lift: 11 }],
  ['cover', {}],
  ['cover', { measured: 'square' }],
  ['terrace', { step: 31 }],
  ['terrace', { step: 31, ramp: 0.4, treads: 'high', from: 5 }],
  [
    'flatten',
    {
      outline: [
        [5, 4],
        [160, 20],
        [90, 120],
      ],
      level: 77.7,
      ramp: 35,
    },
  ],
  ['turn', { by: 90 }],
  ['turn', { by: 31.7 }],
  ['mirror', { sides: 'west-east' }],
  ['join', { with: { any: {} }, at: [11, -7.3], take: 'highest' }],
  ['join', { with: { any: {} }, at: [-40, 13], take: 'lowest', lift: 20 }],
  ['join', { with: { any: {} }, at: [15, 21], take: 'blend', width: 30 }],
  ['steepest', { slope: 35 }],
];
const shaped = (name: string, options: Record<string, unknown>, field: Heightfield) =>
  runPlugin<Heightfield>(builtin.find('shape', name), field, options, {
    facts: { cover: { material: 'sand', depthMm: 17, densityKgM3: null } },
    others: { with: roughGround(9, 6, 5) },
  });

test('every shaper stands here', () => {
  // A rock is a solid, and has laws of its own (tests/slice/rock.test.ts).
  const missing = builtin.of('shape').filter(({ name }) => name !== 'rock' && !SHAPERS.some(([here]) => here === name));
  expect(missing.map(({ name }) => name)).toEqual([]);
});

describe.each(SHAPERS)('%s %j', (name, options) => {
  it.each(GROUNDS)('ground %s: what comes out is ground, and what went in is as it was', (_, field) => {
    const before = structuredClone(field);
    const { made } = shaped(name, options, field);
    expect(field).toEqual(before);
    expect(problemOf(MADE.shape, made)).toBeUndefined();
    const [minX, minY] = boxOf(ringsOf(made.footprint));
    expect([minX, minY].every((value) => Math.abs(value) < 1e-9)).toBe(true);
    for (const [outer, ...holes] of made.footprint) {
      expect(ringArea(outer)).toBeGreaterThan(0);
      for (const hole of holes) expect(ringArea(hole)).toBeLessThan(0);
    }
    for (const axis of [0, 1]) {
      expect(made.originMm[axis]).toBeLessThanOrEqual(1e-9);
      expect(made.originMm[axis]).toBeGreaterThan(-[made.stepXMm, made.stepYMm][axis] - 1e-9);
    }
    expect(groundOf(made).planAreaMm2).toBeGreaterThan(0);
    expect(shaped(name, options, field).made).toEqual(made);
  });

  it('looks at nothing that lies outside the footprint', () => {
    const wild = { ...outlined, heightsMm: outlined.heightsMm.slice() };
    const posts = groundPosts(outlined) ?? new Uint8Array();
    let spoilt = 0;
    for (let i = 0; i < posts.length; i++)
      if (posts[i] === 0 && ++spoilt) wild.heightsMm[i] = spoilt % 2 === 0 ? 9e5 : -9e5;
    expect(spoilt).toBeGreaterThan(5);
    const [a, b] = [shaped(name, options, outlined).made, shaped(name, options, wild).made];
    expect(groundOf(b)).toEqual(groundOf(a));
    expect(groundRange(b)).toEqual(groundRange(a));
  });
});

/** Shapers that have nothing to do on level ground at a level. */
const LEVEL: readonly [string, Record<string, unknown>][] = [
  ['smooth', { reach: 80 }],
  ['terrace', { step: 50.1 }],
  ['terrace', { step: 50.1, treads: 'low' }],
  ['terrace', { step: 50.1, treads: 'high', ramp: 0.5 }],
  [
    'flatten',
    {
      outline: [
        [5, 4],
        [160, 20],
        [90, 120],
      ],
      level: 150.3,
      ramp: 35,
    },
  ],
  ['turn', { by: 31.7 }],
  ['turn', { by: 270 }],
  ['mirror', { sides: 'south-north' }],
  ['steepest', { slope: 35 }],
];

it.each(LEVEL)('level ground exactly at a level stays there to the last digit: %s %j', (name, options) => {
  const level = { ...planeGround(12, 9), heightsMm: new Float64Array(108).fill(150.3) };
  const { made } = shaped(name, options, level);
  expect(made.heightsMm.every((height) => height === 150.3)).toBe(true);
});

it('cover and base move level ground by exactly what they say', () => {
  const level = { ...planeGround(12, 9), heightsMm: new Float64Array(108).fill(150.3) };
  for (const options of [{}, { measured: 'square' }])
    expect(new Set(shaped('cover', options, level).made.heightsMm)).toEqual(new Set([133.3]));
  expect(new Set(shaped('base', { lift: 0.1 }, level).made.heightsMm)).toEqual(new Set([150.4]));
  expect(groundRange(shaped('join', { with: { any: {} }, take: 'lowest', lift: 900 }, level).made).highMm).toBe(150.3);
});

it('a whole ground stays whole where nothing is cut off', () => {
  for (const [name, options] of SHAPERS.filter(([name]) => !['crop', 'join'].includes(name)).filter(
    ([, { by }]) => by !== 31.7,
  )) {
    const { made } = shaped(name, options, rough);
    const { columns, rows, stepXMm, stepYMm } = made;
    expect(made.footprint, name).toEqual(heightfield(columns, rows, stepXMm, stepYMm, made.heightsMm).footprint);
  }
});
