import { describe, expect, it } from 'vitest';
import { areaOf } from '../../src/geometry/ring.ts';
import { groundOf } from '../../src/model/ground.ts';
import type { Heightfield, Landform, Solid } from '../../src/model/landform.ts';
import { crop } from '../../src/shape/crop.ts';
import { mirror } from '../../src/shape/mirror.ts';
import { roughGround, wedge } from '../help/grounds.ts';
import { runPlugin } from '../help/plugin-run.ts';

const mirrored = <T extends Landform>(landform: T, sides: string) => runPlugin<T>(mirror, landform, { sides }).made;
const LOPSIDED = {
  outline: [
    [13, 11],
    [150, 32],
    [101, 90],
    [140, 200],
    [37, 180],
  ],
};
const cut = runPlugin<Heightfield>(crop, roughGround(6), LOPSIDED).made;
const small = { ...roughGround(7), heightsMm: Float32Array.from(roughGround(7).heightsMm) };

describe.each(['west-east', 'south-north'])('%s', (sides) => {
  it.each<[string, Landform]>([
    ['whole ground', roughGround(4)],
    ['ground of 32 bits', small],
    ['ground cut between posts', cut],
    ['a solid', wedge()],
    [
      'a cropped solid',
      runPlugin<Solid>(crop, wedge(), {
        rectangle: [
          [5, 3],
          [33, 21],
        ],
      }).made,
    ],
  ])('%s: twice is what it was, to the byte; once is not, and has the same volume', (_, ground) => {
    const before = structuredClone(ground);
    const once = mirrored(ground, sides);
    expect(ground).toEqual(before);
    expect(mirrored(once, sides)).toEqual(ground);
    expect(once).not.toEqual(ground);
    expect(groundOf(once).volumeMm3 / groundOf(ground).volumeMm3).toBeCloseTo(1, 9);
    expect(groundOf(once).volumeMm3).toBeGreaterThan(0);
    if (once.footprint) expect(areaOf(once.footprint)).toBeCloseTo(areaOf(ground.footprint ?? []), 6);
  });
});

it('both ways is half a turn; heights go where they belong', () => {
  const rough = roughGround(4);
  const east = mirrored(rough, 'west-east');
  expect(east.heightsMm[8]).toBe(rough.heightsMm[0]);
  expect(mirrored(rough, 'south-north').heightsMm[6 * 9 + 2]).toBe(rough.heightsMm[2]);
});

it('wants to know which sides', () => {
  expect(() => runPlugin(mirror, wedge(), {})).toThrow();
  expect(() => mirrored(wedge(), 'up-down')).toThrow();
});
