import { describe, expect, it } from 'vitest';
import { areaOf, boxOf, ringsOf } from '../../src/geometry/ring.ts';
import { groundOf } from '../../src/model/ground.ts';
import { extent, type Heightfield, isWhole, type Landform, type Solid } from '../../src/model/landform.ts';
import { crop } from '../../src/shape/crop.ts';
import { roughGround, wedge } from '../help/grounds.ts';
import { refusal, runPlugin } from '../help/plugin-run.ts';

const cropped = <T extends Landform>(landform: T, options: Record<string, unknown>) =>
  runPlugin<T>(crop, landform, options).made;
const ground = roughGround(11);

/** Every post of the kept cells has the height that it had, where it stood. */
function keepsHeights(before: Heightfield, after: Heightfield, at: readonly [number, number]): void {
  for (let row = 0; row < after.rows; row++) {
    for (let column = 0; column < after.columns; column++) {
      const x = after.originMm[0] + column * after.stepXMm + at[0];
      const y = after.originMm[1] + row * after.stepYMm + at[1];
      const from = Math.round(y / before.stepYMm) * before.columns + Math.round(x / before.stepXMm);
      expect(after.heightsMm[row * after.columns + column]).toBe(before.heightsMm[from]);
    }
  }
}

describe('a rectangle', () => {
  it('on the grid lines gives whole ground, posts from (0, 0), and drops the rest', () => {
    const made = cropped(ground, {
      rectangle: [
        [140, 175],
        [40, 70],
      ],
    });
    expect([made.columns, made.rows, ...made.originMm]).toEqual([6, 4, 0, 0]);
    expect(isWhole(made)).toBe(true);
    keepsHeights(ground, made, [40, 70]);
  });

  it('between posts keeps its exact size, the first post less than a step below 0', () => {
    const made = cropped(ground, {
      rectangle: [
        [33, 41],
        [151.7, 160],
      ],
    });
    expect(extent(made).box).toEqual([0, 0, 151.7 - 33, 119]);
    expect([...made.originMm]).toEqual([-13, -6]);
    expect([made.columns, made.rows]).toEqual([8, 5]);
    expect(isWhole(made)).toBe(false);
    keepsHeights(ground, made, [33, 41]);
  });

  it('that reaches past the ground keeps what there is', () => {
    const made = cropped(ground, {
      rectangle: [
        [-50, -50],
        [75, 9000],
      ],
    });
    expect(extent(made).box).toEqual([0, 0, 75, 210]);
  });
});

it('adds up: what two outlines along one line keep is the whole, in area and volume', () => {
  const west = cropped(ground, {
    outline: [
      [0, 0],
      [71, 0],
      [93, 210],
      [0, 210],
    ],
  });
  const east = cropped(ground, {
    outline: [
      [71, 0],
      [160, 0],
      [160, 210],
      [93, 210],
    ],
  });
  const whole = groundOf(ground);
  for (const key of ['planAreaMm2', 'volumeMm3', 'surfaceAreaMm2'] as const) {
    expect((groundOf(west)[key] + groundOf(east)[key]) / whole[key]).toBeCloseTo(1, 6);
  }
});

it('takes an outline of four corners for what it is, not for its box', () => {
  const made = cropped(ground, {
    outline: [
      [0, 0],
      [160, 35],
      [140, 210],
      [20, 175],
    ],
  });
  expect(isWhole(made)).toBe(false);
  // By the shoelace: (160 · 210 − 140 · 35 + 140 · 175 − 20 · 210) / 2.
  expect(areaOf(made.footprint)).toBeCloseTo(24500, 3);
});

it('crops again what was cropped, either way round, and starts at (0, 0) each time', () => {
  const once = cropped(ground, {
    outline: [
      [150, 190],
      [13, 160],
      [24, 17],
      [117, 31],
    ],
  });
  const twice = cropped(once, {
    rectangle: [
      [15, 22],
      [80, 118],
    ],
  });
  for (const made of [once, twice]) expect(boxOf(ringsOf(made.footprint)).slice(0, 2)).toEqual([0, 0]);
  // The corner of the first cut's box was (13, 17).
  const direct = cropped(
    cropped(ground, {
      rectangle: [
        [28, 39],
        [93, 135],
      ],
    }),
    {
      rectangle: [
        [0, 0],
        [65, 96],
      ],
    },
  );
  expect(groundOf(twice).volumeMm3).toBeLessThanOrEqual(groundOf(direct).volumeMm3 * (1 + 1e-9));
});

it('cuts a solid by its footprint, its surface whole', () => {
  const made = cropped<Solid>(wedge(), {
    rectangle: [
      [16, 5],
      [60, 21],
    ],
  });
  expect(extent(made).box).toEqual([0, 0, 24, 16]);
  expect(made.triangles).toEqual(wedge().triangles);
  expect(groundOf(made).volumeMm3).toBeCloseTo((16 * 24 * (12 + 30)) / 2, 6);
});

it.each<[string, Record<string, unknown>, string]>([
  [
    'beside the ground',
    {
      rectangle: [
        [500, 0],
        [600, 100],
      ],
    },
    'shape/outside',
  ],
  [
    'an outline beside the ground',
    {
      outline: [
        [-9, -9],
        [-50, -9],
        [-9, -70],
      ],
    },
    'shape/outside',
  ],
  [
    'a line',
    {
      rectangle: [
        [10, 10],
        [10, 90],
      ],
    },
    'shape/no-area',
  ],
  [
    'one point thrice',
    {
      outline: [
        [10, 10],
        [10, 10],
        [10, 10],
      ],
    },
    'shape/no-area',
  ],
  [
    'a bow tie',
    {
      outline: [
        [0, 0],
        [100, 90],
        [100, 0],
        [0, 70],
      ],
    },
    'shape/crossing',
  ],
  [
    'a spike that runs there and back',
    {
      outline: [
        [0, 0],
        [90, 0],
        [150, 0],
        [90, 0],
        [40, 80],
      ],
    },
    'shape/crossing',
  ],
  [
    'a corner that touches a side',
    {
      outline: [
        [0, 0],
        [100, 0],
        [100, 90],
        [50, 0],
        [0, 90],
      ],
    },
    'shape/crossing',
  ],
])('refuses %s', (_, options, code) => {
  const fault = refusal(() => cropped(ground, options));
  expect(fault.code).toBe(code);
  expect(fault.fix.length).toBeGreaterThan(8);
});

it('wants a rectangle or an outline', () => {
  expect(() => cropped(ground, {})).toThrow('rectangle or outline');
  expect(() =>
    cropped(ground, {
      rectangle: [
        [0, 0],
        [9, 9],
      ],
      outline: [
        [0, 0],
        [9, 0],
        [5, 5],
      ],
    }),
  ).toThrow();
});
