/** How features combine, and the features that a designer asks for beside hills and hollows. */
import { describe, expect, test } from 'vitest';
import { makeKit } from '../../src/job/kit.ts';
import type { Heightfield } from '../../src/model/landform.ts';
import { heightAt } from '../../src/source/sketch/grid.ts';
import { sketch } from '../../src/source/sketch.ts';
import { sketched, sketchFault } from '../help/sketched.ts';

/** A lopsided piece of ground with posts every 10 mm, so that round numbers are posts. */
const SIZE = [700, 430];
const ground = (...features: unknown[]) => sketched({ size: SIZE, spacing: 10, level: 35, features }).field;
const told = (...features: unknown[]) =>
  sketched({ size: SIZE, spacing: 10, level: 35, features }).told.map(({ code, where }) => `${code} ${where.path}`);
const post = ({ columns, heightsMm }: Heightfield, x: number, y: number) => heightsMm[(y / 10) * columns + x / 10];
const places = Array.from({ length: 71 * 44 }, (_, i) => [(i % 71) * 10, Math.floor(i / 71) * 10] as const);
const apart = (a: ArrayLike<number>, b: ArrayLike<number>) =>
  Math.max(...Array.from(a, (height, i) => Math.abs(height - b[i])));
const degrees = (rise: number) => (Math.atan(rise) * 180) / Math.PI;
/** Rise over 1 between neighbouring posts along a row. */
const risesAlong = (field: Heightfield, y: number) =>
  Array.from({ length: field.columns - 1 }, (_, i) => {
    const at = Math.round(y / field.stepYMm) * field.columns + i;
    return (field.heightsMm[at + 1] - field.heightsMm[at]) / field.stepXMm;
  });

const HILL = { mound: { at: [250, 190], radii: [230, 150], turn: 12, height: 90 } };
const OVAL = { at: [410, 230], radii: [190, 110], turn: -31, profile: 'round' };
const LINE = [
  [90, 70],
  [330, 160],
  [410, 350],
  [640, 380],
];
/** Each with a height of its own, over flat ground at 0: what p is. */
const FORMS: [string, Record<string, unknown>, number][] = [
  ['mound', { ...OVAL, height: 60 }, 60],
  ['basin', { ...OVAL, depth: 60 }, -60],
  ['ridge', { along: LINE, width: 150, height: 40, profile: 'cone' }, 40],
  ['gully', { along: LINE, width: 150, floor: 40, depth: 25 }, -25],
  [
    'gully',
    { along: [LINE[0], { at: LINE[1], width: 90, depth: 60, floor: 20 }, LINE[3]], width: 150, depth: 25 },
    -60,
  ],
  ['ripples', { length: 90, height: 12, direction: 25, within: OVAL }, 12],
  ['roughness', { height: 30, size: 80, within: OVAL }, 15],
  ['dunes', { height: 18, spacing: 190, direction: 25, within: OVAL }, 18],
  ['rocks', { within: { at: [380, 220], radii: [200, 120] }, count: 9, size: [60, 130], shape: 'faceted' }, 65],
];

describe.each(FORMS)('%s meets the ground', (kind, options, most) => {
  const laidOn = (how: string, extra: object = {}, ...before: unknown[]) =>
    ground(...before, { [kind]: { ...options, how, ...extra } }).heightsMm;
  const before = ground(HILL).heightsMm;
  const hollow = most < 0;
  /** Its own height or depth at each post. */
  const own = Array.from(laidOn('add'), (height) => height - 35);

  /** Of a list of heights those where it has any height of its own: elsewhere its outline decides. */
  const where = (heights: ArrayLike<number>) => own.map((p, i) => (p > 1e-6 ? heights[i] : 0));

  test('add lays on and carve takes off what it is on flat ground, wherever it lies', () => {
    expect(Math.max(...own)).toBeGreaterThan(Math.abs(most) / 4);
    expect(
      apart(
        laidOn('add', {}, HILL),
        Array.from(before, (z, i) => z + own[i]),
      ),
    ).toBeLessThan(1e-6);
    expect(
      apart(
        laidOn('carve', {}, HILL),
        Array.from(before, (z, i) => z - own[i]),
      ),
    ).toBeLessThan(1e-6);
  });

  test('left out, how is the trade of its kind: hills add, hollows carve', () => {
    expect(ground(HILL, { [kind]: options }).heightsMm).toEqual(laidOn(hollow ? 'carve' : 'add', {}, HILL));
  });

  test('cap is the lower of the ground and its own surface, where that has any height, and the ground elsewhere', () => {
    const capped = laidOn('cap', { foot: 80 }, HILL);
    const wanted = own.map((p, i) => Math.min(before[i], 80 + (hollow ? -p : p)));
    expect(apart(where(capped), where(wanted))).toBeLessThan(1e-6);
    expect(Math.max(...capped.map((z, i) => z - before[i]))).toBeLessThanOrEqual(0);
    expect(Array.from(capped)).not.toEqual(Array.from(before));
    // Once is enough.
    const cap = { [kind]: { ...options, how: 'cap', foot: 80 } };
    if (kind !== 'rocks' && kind !== 'roughness') expect(ground(HILL, cap, cap).heightsMm).toEqual(capped);
  });

  test('blend without a fillet is the higher of the two, or the lower of a hollow; a fillet moves on by a quarter at most', () => {
    const sharp = laidOn('blend', { foot: 50, fillet: 0 }, HILL);
    const filleted = laidOn('blend', { foot: 50, fillet: 24 }, HILL);
    const way = hollow ? -1 : 1;
    const wanted = own.map((p, i) => way * Math.max(way * before[i], way * 50 + p));
    expect(apart(where(sharp), where(wanted))).toBeLessThan(1e-6);
    const further = filleted.map((z, i) => way * (z - sharp[i]));
    expect(Math.min(...further)).toBeGreaterThanOrEqual(-1e-6);
    expect(Math.max(...further)).toBeLessThanOrEqual(24 / 4 + 1e-6);
    expect(apart(filleted, sharp)).toBeGreaterThan(0.1);
  });
});

test('a blended mound on flat ground at its foot, unfilleted, is the mound added', () => {
  const mound = { ...OVAL, height: 60 };
  const blended = ground({ mound: { ...mound, how: 'blend', fillet: 0 } }).heightsMm;
  expect(apart(blended, ground({ mound }).heightsMm)).toBeLessThan(1e-6);
});

describe('paths whose points have their own width, height and depth', () => {
  test('said at every point alike they are the path with it said once', () => {
    for (const [kind, height] of [
      ['ridge', 'height'],
      ['gully', 'depth'],
    ]) {
      const once = ground(HILL, { [kind]: { along: LINE, width: 150, [height]: 30, profile: 'bell' } });
      const points = LINE.map((at) => ({ at, width: 150, [height]: 30 }));
      const each = ground(HILL, { [kind]: { along: points, width: 77, [height]: 11, profile: 'bell' } });
      expect(apart(each.heightsMm, once.heightsMm)).toBeLessThan(1e-6);
    }
  });

  test('at a point the middle has its height and the foot its width; half-way the mean of both', () => {
    const along = [
      { at: [100, 200], width: 80, height: 20 },
      { at: [500, 200], width: 240, height: 70 },
    ];
    const field = ground({ ridge: { along, width: 10, height: 10, profile: 'cone' } });
    expect([100, 300, 500].map((x) => post(field, x, 200) - 35)).toEqual([20, 45, 70]);
    expect([
      post(field, 100, 240),
      post(field, 100, 230) > 35,
      post(field, 500, 320),
      post(field, 500, 310) > 35,
    ]).toEqual([35, true, 35, true]);
    // Half-way: 160 wide, 45 high; 40 out of the middle is half-way down.
    expect(post(field, 300, 240) - 35).toBeCloseTo(22.5, 6);
  });

  test('points without values take those of the path', () => {
    const mixed = [LINE[0], { at: LINE[1], width: 60 }, { at: LINE[2] }, LINE[3]];
    const whole = [150, 60, 150, 150].map((width, i) => ({ at: LINE[i], width, depth: 20 }));
    const deep = (along: unknown) => ground({ gully: { along, width: 150, depth: 20 } }).heightsMm;
    expect(apart(deep(mixed), deep(whole))).toBe(0);
  });
});

describe('a quarter turn of everything', () => {
  // Counter-clockwise about the middle of a square: (x, y) becomes (600 − y, x). Posts go with it.
  const turned = ([x, y]: readonly number[]) => [600 - y, x];
  const square = (...features: unknown[]) => sketched({ size: [600, 600], spacing: 20, level: 35, features }).field;
  test.each([
    ['mound', { at: [210, 330], radii: [170, 90], turn: 20, height: 55 }, { at: turned([210, 330]), turn: 110 }],
    ['ridge', { along: LINE, width: 130, height: 33 }, { along: LINE.map(turned) }],
    [
      'shelf',
      { at: [210, 330], size: [200, 110], turn: 10, level: 80, slope: 40 },
      { at: turned([210, 330]), turn: 100 },
    ],
    [
      'steps',
      { at: [210, 250], direction: 30, width: 120, count: 4, going: 50, rise: 12 },
      { at: turned([210, 250]), direction: 120 },
    ],
    ['stream', { along: LINE, width: 60, depth: 20 }, { along: LINE.map(turned) }],
    [
      'dunes',
      { height: 18, spacing: 190, direction: 25, within: { at: [310, 240], radius: 200 } },
      { direction: 115, within: { at: turned([310, 240]), radius: 200 } },
    ],
    [
      'ripples',
      { height: 18, length: 90, direction: 25, within: { at: [310, 240], radius: 200 } },
      { direction: 115, within: { at: turned([310, 240]), radius: 200 } },
    ],
  ])('turns the ground of a %s', (kind, options, changes) => {
    const before = square({ [kind]: options });
    const after = square({ [kind]: { ...options, ...changes } });
    const back = before.heightsMm.map((_, i) => after.heightsMm[(i % 31) * 31 + 30 - Math.floor(i / 31)]);
    expect(apart(back, before.heightsMm)).toBeLessThan(1e-6);
    expect(after.heightsMm).not.toEqual(before.heightsMm);
  });
});

describe('shelves that run out at a slope', () => {
  const shelf = { at: [300, 200], size: [160, 100], level: 90 };
  test('the ramp falls 1 in 3 from the edge until it meets the ground, and no further', () => {
    const field = ground({ shelf: { ...shelf, slope: '1 in 3' } });
    expect([380, 410, 440, 530, 540, 560].map((x) => post(field, x, 200))).toEqual([
      90,
      80,
      70,
      40,
      expect.closeTo(90 - 160 / 3, 6),
      35,
    ]);
    expect(post(field, 560, 200)).toBe(35);
  });
  test('set cuts and fills; add only fills, carve only cuts, and the two are the halves of it', () => {
    const all = (how: string) => ground(HILL, { shelf: { ...shelf, slope: 45, how } }).heightsMm;
    const before = ground(HILL).heightsMm;
    const [set, add, carve] = ['set', 'add', 'carve'].map(all);
    expect(Array.from(add)).toEqual(Array.from(set, (z, i) => Math.max(z, before[i])));
    expect(Array.from(carve)).toEqual(Array.from(set, (z, i) => Math.min(z, before[i])));
    expect(Array.from(add)).not.toEqual(Array.from(set));
    expect(Array.from(carve)).not.toEqual(Array.from(set));
  });
});

describe('steps', () => {
  const flight = { at: [200, 160], direction: 0, width: 120, count: 5, going: 60, rise: 17, level: 40 };
  test('every tread is exactly level at its height, over its whole going and width', () => {
    const field = ground(HILL, { steps: flight });
    for (let tread = 0; tread < 5; tread++) {
      for (let x = 200 + 60 * tread; x < 260 + 60 * tread; x += 10) {
        for (let y = 100; y <= 220; y += 10) expect(post(field, x, y)).toBe(40 + 17 * (tread + 1));
      }
    }
    const before = ground(HILL);
    for (const [x, y] of [
      [190, 160],
      [510, 160],
      [300, 90],
      [300, 230],
    ])
      expect(post(field, x, y)).toBe(post(before, x, y));
  });

  test('they start from the ground at their foot, climb in their direction, and a slope carries their sides', () => {
    const field = ground(HILL, { steps: { ...flight, level: undefined, direction: 90, slope: 45 } });
    const foot = post(ground(HILL), 200, 160);
    expect(post(field, 200, 170)).toBeCloseTo(foot + 17, 6);
    expect(post(field, 200, 400)).toBeCloseTo(foot + 5 * 17, 6);
    expect(post(field, 270, 400)).toBeCloseTo(foot + 5 * 17 - 10, 6);
  });

  test('goings that two posts cannot show are told', () => {
    expect(told({ steps: { ...flight, going: 15 } })).toEqual([
      'source/feature-too-fine source.sketch.features.0.steps',
    ]);
  });
});

describe('streams', () => {
  const rolling = [HILL, { roughness: { height: 50, size: 140, seed: 3 } }];
  const along = [
    [640, 400],
    [410, 330],
    [230, 300],
    [250, 140],
    [30, 50],
  ];
  test('the bed never rises from the first point to the last, lies the depth under the ground or deeper, and is told where it cuts', () => {
    const before = ground(...rolling);
    const { field, told: findings } = sketched({
      size: SIZE,
      spacing: 10,
      level: 60,
      features: [...rolling, { stream: { along, width: 60, depth: 12 } }],
    });
    const stood = sketched({ size: SIZE, spacing: 10, level: 60, features: rolling }).field;
    expect(before.columns).toBe(field.columns);
    let last = Infinity;
    for (let run = 0; run < 4; run++) {
      for (let i = 0; i <= 40; i++) {
        const [x, y] = [0, 1].map((k) => along[run][k] + (i / 40) * (along[run + 1][k] - along[run][k]));
        const at = (f: Heightfield) => heightAt({ ...f }, f.heightsMm as Float64Array, x, y);
        // Off the posts the four triangles show a bed that falls a little askew.
        expect(at(field)).toBeLessThanOrEqual(last + 0.5);
        expect(at(field)).toBeLessThan(at(stood) - 12 + 3);
        last = Math.min(last, at(field));
      }
    }
    expect(findings.map(({ code }) => code)).toEqual(['source/stream-cutting']);
    expect(findings[0].where).toMatchObject({
      path: 'source.sketch.features.2.stream',
      atMm: [expect.any(Number), expect.any(Number)],
    });
  });

  test('on flat ground: a level bed so wide and deep, banks at their slope, closed form of the section', () => {
    const field = ground({
      stream: {
        along: [
          [-100, 200],
          [900, 200],
        ],
        width: 80,
        depth: 20,
        banks: '1 in 2',
      },
    });
    expect([150, 160, 200, 240, 250, 270, 280, 290].map((y) => post(field, 300, y))).toEqual([
      20, 15, 15, 15, 20, 30, 35, 35,
    ]);
    // Along the falling ground of a ramp the bed falls with it; against it, it stays level.
    const ramp = {
      ridge: {
        along: [
          [700, -2000],
          [700, 2000],
        ],
        width: 1400,
        height: 70,
        profile: 'cone',
      },
    };
    const bedAt = (points: number[][]) => {
      const made = ground(ramp, { stream: { along: points, width: 60, depth: 10 } });
      return [100, 300, 600].map((x) => Math.round(post(made, x, 200) * 1000) / 1000);
    };
    expect(
      bedAt([
        [690, 200],
        [10, 200],
      ]),
    ).toEqual([35, 55, 85]);
    expect(
      bedAt([
        [10, 200],
        [690, 200],
      ]),
    ).toEqual([26, 26, 26]);
    expect(
      told(ramp, {
        stream: {
          along: [
            [10, 200],
            [690, 200],
          ],
          width: 60,
          depth: 10,
        },
      }),
    ).toEqual(['source/stream-cutting source.sketch.features.1.stream']);
    expect(
      told(ramp, {
        stream: {
          along: [
            [690, 200],
            [10, 200],
          ],
          width: 60,
          depth: 10,
        },
      }),
    ).toEqual([]);
  });

  test('width and depth run from point to point, and nothing is ever filled', () => {
    const points = [
      { at: [600, 200], width: 40, depth: 10 },
      { at: [100, 200], width: 160, depth: 30 },
    ];
    const field = ground({ stream: { along: points, width: 10, depth: 5, banks: 60 } });
    expect([600, 350, 100].map((x) => post(field, x, 200))).toEqual([25, 15, 5]);
    expect([post(field, 100, 280), post(field, 100, 120), post(field, 600, 220)]).toEqual([5, 5, 25]);
    const before = ground(...rolling).heightsMm;
    const after = ground(...rolling, { stream: { along, width: 60, depth: 12 } }).heightsMm;
    expect(Math.max(...after.map((z, i) => z - before[i]))).toBe(0);
  });
});

describe('dunes', () => {
  test('the slip face leans at its angle, the windward side at its own, crests are as high and as far apart as said', () => {
    const field = sketched({
      size: [900, 300],
      spacing: 2,
      level: 35,
      features: [{ dunes: { height: 30, spacing: 300, windward: 9, slip: 33 } }],
    }).field;
    const rises = risesAlong(field, 100);
    expect(degrees(Math.max(...rises))).toBeCloseTo(9, 4);
    expect(degrees(-Math.min(...rises))).toBeCloseTo(33, 4);
    const crests = Array.from({ length: 451 }, (_, i) => i)
      .filter((i) => field.heightsMm[50 * 451 + i] === 65)
      .map((i) => 2 * i);
    expect(crests).toEqual([0, 300, 600, 900]);
    // Up the windward side over 30 / tan 9°, down the slip face over 30 / tan 33°, and bare ground between.
    const bare = rises.filter((rise) => rise === 0).length * 2;
    expect(
      Math.abs(bare / 3 - (300 - 30 / Math.tan((9 * Math.PI) / 180) - 30 / Math.tan((33 * Math.PI) / 180))),
    ).toBeLessThan(4);
  });

  test('the wind blows in their direction: the slip face looks that way', () => {
    const north = ground({ dunes: { height: 20, spacing: 200, direction: 90, windward: 10, slip: 34 } });
    expect(post(north, 300, 210)).toBeLessThan(post(north, 300, 190));
    expect(post(north, 300, 230)).toBe(35);
    expect(new Set([0, 250, 700].map((x) => post(north, x, 170))).size).toBe(1);
  });

  test('uneven crests are lower and never higher; wandering ones bend, by their seed', () => {
    const made = (extra: object, seed = 1) =>
      sketched(
        { size: SIZE, spacing: 10, level: 35, features: [{ dunes: { height: 20, spacing: 200, ...extra } }] },
        seed,
      ).field.heightsMm;
    expect(Math.max(...made({ uneven: 0.8, wander: 40 }))).toBeLessThanOrEqual(55);
    expect(made({ uneven: 0.8 })).not.toEqual(made({}));
    expect(made({ wander: 40 }, 1)).toEqual(made({ wander: 40 }, 1));
    expect(made({ wander: 40 }, 1)).not.toEqual(made({ wander: 40 }, 2));
    expect(made({ wander: 40, seed: 5 }, 1)).toEqual(made({ wander: 40, seed: 5 }, 2));
    expect(made({}, 1)).toEqual(made({}, 2));
  });
});

describe('rocks', () => {
  test.each(['rounded', 'faceted'])(
    'one %s rock stands in its place, no further across and no higher than said',
    (shape) => {
      for (let seed = 0; seed < 12; seed++) {
        const field = ground({ rocks: { at: [340, 210], size: [180, 180], tall: 0.4, shape, seed } });
        expect(post(field, 340, 210)).toBeGreaterThan(35 + 0.4 * 180 * 0.6);
        const raised = places.filter(([x, y]) => post(field, x, y) > 35);
        expect(Math.max(...raised.map(([x, y]) => Math.hypot(x - 340, y - 210)))).toBeLessThanOrEqual(90);
        expect(Math.max(...field.heightsMm)).toBeLessThanOrEqual(35 + 0.4 * 180);
      }
    },
  );

  test('strewn ones have their middles in the oval; another seed, other rocks; more rocks leave the first ones', () => {
    const within = { at: [380, 210], radii: [220, 90], turn: 20 };
    const strewn = (extra: object, seed = 1) =>
      sketched(
        { size: SIZE, spacing: 10, level: 35, features: [{ rocks: { within, count: 12, size: [50, 90], ...extra } }] },
        seed,
      ).field;
    const field = strewn({});
    for (const [x, y] of places.filter(([px, py]) => post(field, px, py) > 35)) {
      const [c, s] = [Math.cos(Math.PI / 9), Math.sin(Math.PI / 9)];
      const [u, v] = [(x - 380) * c + (y - 210) * s, (y - 210) * c - (x - 380) * s];
      expect((u / 265) ** 2 + (v / 135) ** 2).toBeLessThanOrEqual(1);
    }
    expect(strewn({}, 2).heightsMm).not.toEqual(field.heightsMm);
    const more = strewn({ count: 20 }).heightsMm;
    expect(Math.min(...more.map((z, i) => z - field.heightsMm[i]))).toBe(0);
  });
});

describe('steepest in the list', () => {
  test('it eases what is listed before it and nothing after, and keeps the volume', () => {
    const table = { mound: { at: [330, 215], radii: [150, 90], height: 120, profile: 'flat' } };
    const eased = ground(table, { steepest: { slope: 34 } });
    const sum = (field: Heightfield) => Array.from(field.heightsMm).reduce((total, z) => total + z, 0);
    expect(sum(eased) / sum(ground(table))).toBeCloseTo(1, 9);
    const rises = risesAlong(eased, 210).map(Math.abs);
    expect(Math.max(...rises)).toBeLessThanOrEqual(Math.tan((34 * Math.PI) / 180) * 1.001);
    expect(Math.max(...risesAlong(ground({ steepest: { slope: 34 } }, table), 210))).toBe(12);
  });

  test('said where nothing is steeper, it is told', () => {
    expect(told(HILL, { steepest: { slope: '1 in 1', by: 'cut' } })).toEqual([
      'source/gentle-already source.sketch.features.1.steepest',
    ]);
  });
});

test('an added feature of another kind changes the chance of none', () => {
  const rough = { roughness: { height: 20, size: 70 } };
  const chance = [
    { dunes: { height: 20, spacing: 200, wander: 60 } },
    { rocks: { within: { at: [300, 200], radius: 150 }, count: 5, size: [50, 90] } },
  ];
  const alone = [rough, ...chance].map((feature) => Array.from(ground(feature).heightsMm, (z) => z - 35));
  // Patterns that add make the sum of each alone, in any order and company.
  for (const list of [
    [rough, ...chance],
    [...chance, rough],
    [chance[1], rough, HILL, chance[0]],
  ]) {
    const hill = list.includes(HILL as never) ? ground(HILL).heightsMm : null;
    const wanted = alone[0].map((_, i) => (hill ? hill[i] : 35) + alone.reduce((sum, each) => sum + each[i], 0));
    expect(apart(ground(...list).heightsMm, wanted)).toBeLessThan(1e-5);
  }
});

describe('bad input', () => {
  const dune = { height: 20, spacing: 200 };
  const flight = { at: [200, 160], width: 120, count: 5, going: 60, rise: 17 };
  test.each([
    [
      'dunes longer than their spacing',
      { dunes: { ...dune, spacing: 100 } },
      /dunes\.spacing: .*longer than their spacing/,
    ],
    ['a slip face that is no slope', { dunes: { ...dune, slip: '33%' } }, /dunes\.slip: "33%" is not a slope/],
    ['an upright slip face', { dunes: { ...dune, slip: 90 } }, /dunes\.slip: .*not between 0 and 89/],
    ['uneven beyond the whole', { dunes: { ...dune, uneven: 1.2 } }, /dunes\.uneven/],
    ['steps without a going', { steps: { ...flight, going: 0 } }, /steps\.going.*not above 0/],
    ['half a step', { steps: { ...flight, count: 2.5 } }, /steps\.count/],
    ['a ramp said twice', { steps: { ...flight, ramp: 30, slope: 40 } }, /steps\.slope: The ramp is said in two ways/],
    [
      'a shelf with ramp and slope',
      { shelf: { at: [1, 2], size: [3, 4], level: 5, ramp: 2, slope: '1 in 3' } },
      /shelf\.slope/,
    ],
    ['a stream of one point', { stream: { along: [[1, 2]], width: 3, depth: 4 } }, /stream\.along/],
    ['level banks', { stream: { along: LINE, width: 3, depth: 4, banks: 0 } }, /stream\.banks/],
    [
      'a point that is none',
      { ridge: { along: [[1, 2], { at: [3, 4], wide: 5 }], width: 3, height: 4 } },
      /ridge\.along\.1: .*"wide"/,
    ],
    [
      'a point in space',
      {
        ridge: {
          along: [
            [1, 2],
            [3, 4, 5],
          ],
          width: 3,
          height: 4,
        },
      },
      /ridge\.along\.1/,
    ],
    [
      'a floor too wide at one point',
      { gully: { along: [[1, 2], { at: [3, 4], width: 5 }], width: 30, floor: 10, depth: 4 } },
      /gully\.floor/,
    ],
    ['rocks nowhere', { rocks: { size: [3, 4] } }, /rocks: Rocks have at or within/],
    ['rocks in two ways', { rocks: { at: [1, 2], within: { at: [1, 2], radius: 5 }, size: [3, 4] } }, /at or within/],
    ['many rocks in one place', { rocks: { at: [1, 2], count: 3, size: [3, 4] } }, /rocks\.count/],
    ['the smallest rock the largest', { rocks: { at: [1, 2], size: [5, 4] } }, /rocks\.size/],
    ['a fillet without blend', { mound: { ...OVAL, height: 5, fillet: 4 } }, /mound\.how: Only blend/],
    ['a foot of what adds', { basin: { ...OVAL, depth: 5, foot: 4 } }, /basin\.how: Only blend/],
    ['another how', { mound: { ...OVAL, height: 5, how: 'melt' } }, /mound\.how/],
    ['no slope to ease to', { steepest: {} }, /steepest\.slope: A slope is missing/],
    ['another way to ease', { steepest: { slope: 30, by: 'rain' } }, /steepest\.by/],
  ])('%s', (_, feature, fault) => expect(sketchFault({ size: SIZE, features: [feature] })).toMatch(fault));

  test('options as parsed read back to the same', () => {
    const features = [
      ...FORMS.map(([kind, options]) => ({ [kind]: options })),
      { steps: { ...flight, slope: '1 in 3' } },
      { stream: { along: LINE, width: 3, depth: 4, banks: '1 in 2.5' } },
      { steepest: { slope: '1 in 3' } },
      { mound: { ...OVAL, height: 5, how: 'blend', foot: 3, fillet: 4 } },
    ];
    const parsed = sketch.options(makeKit('mm')).parse({ size: SIZE, features });
    expect(sketch.options(makeKit('mm')).parse(structuredClone(parsed))).toEqual(parsed);
  });
});
