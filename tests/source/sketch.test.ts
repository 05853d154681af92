import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import type { Finding } from '../../src/findings.ts';
import { builtin, CannotMake } from '../../src/index.ts';
import { makeKit } from '../../src/job/kit.ts';
import { extent, type Heightfield, isWhole } from '../../src/model/landform.ts';
import { heightAt } from '../../src/source/sketch/grid.ts';
import { sketch } from '../../src/source/sketch.ts';
import { sketched, sketchFault } from '../help/sketched.ts';

/** A lopsided piece of ground with posts every 10 mm, so that round numbers are posts. */
const SIZE = [700, 430];
const ground = (...features: unknown[]) => sketched({ size: SIZE, spacing: 10, level: 35, features }).field;
const post = ({ columns, stepXMm, stepYMm, heightsMm }: Heightfield, x: number, y: number) =>
  heightsMm[Math.round(y / stepYMm) * columns + Math.round(x / stepXMm)];
/** What a formula says of every post of that ground, in the order of the heights. */
const everyPost = (formula: (x: number, y: number) => number) =>
  Array.from({ length: 71 * 44 }, (_, i) => formula((i % 71) * 10, Math.floor(i / 71) * 10));
const rises = (field: Heightfield) => Array.from(field.heightsMm, (height) => height - 35);

/** Of four triangles that meet at the mean: that of the bilinear surface, so the trapezoid rule. */
function volume({ columns, rows, stepXMm, stepYMm, heightsMm }: Heightfield): number {
  let sum = 0;
  for (let r = 0; r < rows; r++) {
    for (let c = 0; c < columns; c++) {
      const share = (c === 0 || c === columns - 1 ? 0.5 : 1) * (r === 0 || r === rows - 1 ? 0.5 : 1);
      sum += share * heightsMm[r * columns + c];
    }
  }
  return sum * stepXMm * stepYMm;
}

/** The largest difference of two lists of heights, post by post. */
const apart = (a: ArrayLike<number>, b: ArrayLike<number>) =>
  Math.max(...Array.from(a, (height, i) => Math.abs(height - b[i])));

const codes = (told: readonly Finding[]) => told.map(({ code, where }) => `${code} ${where.path}`);
describe('posts', () => {
  test('the last post stands at the size, whatever the spacing, and the whole rectangle is ground', () => {
    for (const spacing of [7, 33, 210, 5000]) {
      const { field } = sketched({ size: [701, 433], spacing });
      expect((field.columns - 1) * field.stepXMm).toBeCloseTo(701, 10);
      expect((field.rows - 1) * field.stepYMm).toBeCloseTo(433, 10);
      expect(isWhole(field)).toBe(true);
      if (spacing < 400) expect(Math.abs(field.stepXMm - spacing)).toBeLessThan(spacing / 2);
    }
  });

  test('left to itself the longest side has 301 posts', () => {
    expect(sketched({ size: [2400, 1700] }).field).toMatchObject({ columns: 301, rows: 214 });
    expect(sketched({ size: [900, 1300] }).field).toMatchObject({ columns: 209, rows: 301 });
  });

  test('without features it is flat at its level', () => {
    expect(extent(sketched({ size: SIZE, level: '1.2 cm' }).field)).toMatchObject({ lowMm: 12, highMm: 12 });
  });

  test('too many posts are refused before memory is taken', () => {
    for (const spacing of [0.001, 1e-6]) {
      expect(() => sketched({ size: [90000, 70000], spacing })).toThrow(CannotMake);
    }
  });
});

describe('mounds and basins', () => {
  test('a mound is exactly its height in the middle, and nothing at its foot or beyond', () => {
    for (const profile of ['smooth', 'round', 'cone', 'bell']) {
      const field = ground({ mound: { at: [310, 190], radius: 120, height: 87.5, profile } });
      expect(post(field, 310, 190)).toBe(35 + 87.5);
      expect([post(field, 430, 190), post(field, 310, 70), post(field, 440, 190), post(field, 0, 0)]).toEqual([
        35, 35, 35, 35,
      ]);
    }
  });

  test('half-way down each profile is what its formula says', () => {
    const half = (profile: string) =>
      post(ground({ mound: { at: [310, 190], radius: 120, height: 100, profile } }), 370, 190) - 35;
    expect(half('smooth')).toBeCloseTo(50, 6);
    expect(half('round')).toBeCloseTo(100 * Math.sqrt(3 / 4), 6);
    expect(half('cone')).toBeCloseTo(50, 6);
    expect(half('bell')).toBeCloseTo((100 * 27) / 64, 6);
    expect(half('flat')).toBe(100);
  });

  // Closed forms: πab h ∫₀¹ 2t f(t) dt. The cone's third is Euclid, Elements XII 10; the dome's two thirds Archimedes.
  test.each([
    ['cone', 1 / 3],
    ['round', 2 / 3],
    ['smooth', 3 / 10],
    ['bell', 1 / 4],
    ['flat', 1],
  ])('the volume of a %s mound is %f of its cylinder', (profile, share) => {
    const [a, b, height] = [260, 150, 80];
    const mound = { at: [340, 210], radii: [a, b], turn: 31, height, profile };
    const { field } = sketched({ size: SIZE, spacing: 2.5, features: [{ mound }] });
    expect(Math.abs(volume(field) / (Math.PI * a * b * height * share) - 1)).toBeLessThan(2e-3);
  });

  test('the error of the volume of a cone falls at least fourfold when the spacing halves', () => {
    // How the posts fall on the foot is chance: the mean square over many places and radii.
    const error = (spacing: number) => {
      const errors = Array.from({ length: 24 }, (_, i) => {
        const mound = { at: [301 + 2.9 * i, 233 - 1.7 * i], radius: 143 + 1.9 * i, height: 90, profile: 'cone' };
        const truth = (Math.PI * mound.radius * mound.radius * mound.height) / 3;
        return volume(sketched({ size: [720, 480], spacing, features: [{ mound }] }).field) / truth - 1;
      });
      return Math.sqrt(errors.reduce((sum, each) => sum + each * each, 0) / errors.length);
    };
    const errors = [40, 20, 10].map(error);
    expect(errors[0] / errors[1]).toBeGreaterThan(4);
    expect(errors[1] / errors[2]).toBeGreaterThan(4);
    expect(errors[2]).toBeLessThan(1e-3);
  });

  test('turned by a quarter an oval is the oval with its radii swapped, to the bit', () => {
    const oval = (radii: number[], turn: number) =>
      ground({ mound: { at: [333, 181], radii, turn, height: 70, profile: 'bell' } }).heightsMm;
    expect(oval([210, 90], 90)).toEqual(oval([90, 210], 0));
    expect(oval([210, 90], -270)).toEqual(oval([90, 210], 180));
    expect(oval([210, 90], 0)).not.toEqual(oval([90, 210], 0));
  });

  test('turned counter-clockwise the long way of an oval points north-east', () => {
    const field = ground({ mound: { at: [300, 200], radii: [200, 60], turn: 40, height: 50 } });
    expect(post(field, 380, 270)).toBeGreaterThan(45);
    expect(post(field, 380, 130)).toBe(35);
  });

  test('every post inside the outline is raised and none outside, at any turn', () => {
    for (const turn of [0, 17, 45, 90, 133]) {
      const field = ground({ mound: { at: [330, 215], radii: [263, 97], turn, height: 9, profile: 'flat' } });
      const [cos, sin] = [Math.cos((turn * Math.PI) / 180), Math.sin((turn * Math.PI) / 180)];
      const wanted = everyPost((x, y) => {
        const [dx, dy] = [x - 330, y - 215];
        return ((dx * cos + dy * sin) / 263) ** 2 + ((dy * cos - dx * sin) / 97) ** 2 < 1 ? 9 : 0;
      });
      expect(rises(field)).toEqual(wanted);
    }
  });

  test('a basin takes off what the same mound would add', () => {
    const oval = { at: [310, 190], radii: [220, 130], turn: 12, profile: 'round' };
    const up = rises(ground({ mound: { ...oval, height: 28 } }));
    const down = rises(ground({ basin: { ...oval, depth: 28 } }));
    expect(Math.max(...up)).toBeGreaterThan(27);
    expect(
      apart(
        up,
        down.map((fall) => -fall),
      ),
    ).toBeLessThan(1e-6);
  });
});

describe('ridges and gullies', () => {
  const along = [
    [90, 70],
    [330, 160],
    [410, 350],
    [640, 380],
  ];
  /** Distance to a run by its foot, written otherwise than in the source. */
  const distance = (x: number, y: number) =>
    Math.min(
      ...along.slice(1).map(([bx, by], i) => {
        const [ax, ay] = along[i];
        const run = Math.hypot(bx - ax, by - ay);
        const forward = ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / run;
        if (forward <= 0) return Math.hypot(x - ax, y - ay);
        if (forward >= run) return Math.hypot(x - bx, y - by);
        return Math.abs((x - ax) * (by - ay) - (y - ay) * (bx - ax)) / run;
      }),
    );

  test('a ridge falls with the distance from its line, everywhere', () => {
    const field = ground({ ridge: { along, width: 150, height: 60, profile: 'cone' } });
    const wanted = everyPost((x, y) => 60 * Math.max(0, 1 - distance(x, y) / 75));
    expect(apart(rises(field), wanted)).toBeLessThan(1e-6);
  });

  test('a gully has a flat floor of its width at its full depth, and banks to its whole width', () => {
    const field = ground({ gully: { along, width: 150, floor: 70, depth: 25, profile: 'cone' } });
    const wanted = everyPost((x, y) => -25 * Math.min(1, Math.max(0, 1 - (distance(x, y) - 35) / 40)));
    expect(apart(rises(field), wanted)).toBeLessThan(1e-6);
  });

  test('a gully follows the ground: its depth is measured from what stands there', () => {
    const mound = { mound: { at: [330, 160], radius: 200, height: 90 } };
    const before = ground(mound);
    const after = ground(mound, { gully: { along, width: 90, depth: 31 } });
    expect(post(before, 330, 160) - post(after, 330, 160)).toBeCloseTo(31, 6);
  });

  test('a floor as wide as the gully makes upright banks', () => {
    const field = ground({
      gully: {
        along: [
          [-90, 200],
          [900, 200],
        ],
        width: 100,
        floor: 100,
        depth: 20,
      },
    });
    expect([140, 150, 160, 250, 260].map((y) => post(field, 350, y))).toEqual([35, 15, 15, 15, 35]);
  });

  test('a line may stand still or go back on itself', () => {
    const field = ground({
      ridge: {
        along: [
          [200, 200],
          [200, 200],
          [400, 200],
          [300, 200],
        ],
        width: 100,
        height: 40,
      },
    });
    expect([post(field, 200, 200), post(field, 350, 200), post(field, 400, 200)]).toEqual([75, 75, 75]);
  });
});

describe('shelves', () => {
  const outline = [
    [150, 90],
    [470, 120],
    [430, 310],
    [210, 260],
  ];
  const hill = { mound: { at: [360, 210], radius: 330, height: 140 } };

  test('inside, the ground is the level; across the ramp it runs into what stood before', () => {
    const before = ground(hill);
    const after = ground(hill, { shelf: { outline, level: 80, ramp: 60, profile: 'cone' } });
    expect([post(after, 300, 200), post(after, 210, 110), post(after, 410, 280)]).toEqual([80, 80, 80]);
    // The south edge runs 30 up over 320: distance of a post below it, by hand.
    const south = ((320 * (90 - 70) + 30 * (310 - 150)) / Math.hypot(320, 30)) as number;
    const share = 1 - south / 60;
    const stood = post(before, 310, 70);
    expect(post(after, 310, 70)).toBeCloseTo(stood + (80 - stood) * share, 6);
    expect(post(after, 310, 20)).toBe(post(before, 310, 20));
    expect(post(after, 600, 400)).toBe(post(before, 600, 400));
  });

  test('order counts: a shelf flattens what comes before it and not what comes after', () => {
    const shelf = { shelf: { outline, level: 80 } };
    expect(post(ground(hill, shelf), 300, 200)).toBe(80);
    expect(post(ground(shelf, hill), 300, 200)).toBeGreaterThan(180);
  });

  test('the outline may run either way round, and a turned rectangle is the outline of its corners', () => {
    const either = (corners: number[][]) =>
      ground(hill, { shelf: { outline: corners, level: 70, ramp: 45 } }).heightsMm;
    expect(either([...outline].reverse())).toEqual(either(outline));
    const turned = ground(hill, { shelf: { at: [310, 190], size: [240, 120], turn: 90, level: 70, ramp: 45 } });
    const corners = [
      [250, 70],
      [370, 70],
      [370, 310],
      [250, 310],
    ];
    expect(apart(turned.heightsMm, either(corners))).toBeLessThan(1e-6);
  });

  test('without a ramp the edge is upright and the posts on it belong to the shelf', () => {
    const field = ground({ shelf: { at: [300, 200], size: [120, 80], level: 90 } });
    expect([230, 240, 360, 370].map((x) => post(field, x, 200))).toEqual([35, 90, 90, 35]);
    expect([150, 160, 240, 250].map((y) => post(field, 300, y))).toEqual([35, 90, 90, 35]);
  });
});

describe('ripples', () => {
  test('crests follow each other at the wave length in their direction, and troughs stand on the ground', () => {
    const field = ground({ ripples: { length: 80, height: 6, direction: 90 } });
    const crests = Array.from({ length: 44 }, (_, row) => row * 10).filter((y) => post(field, 350, y) === 41);
    expect(crests).toEqual([0, 80, 160, 240, 320, 400]);
    expect([40, 120, 200].map((y) => post(field, 70, y))).toEqual([35, 35, 35]);
    expect(new Set([0, 110, 470].map((x) => post(field, x, 30))).size).toBe(1);
  });

  test('aslant, posts a wave length apart along the direction are alike', () => {
    // 3-4-5: a wave of 50 along it goes 30 east and 40 north.
    const direction = (Math.atan2(40, 30) * 180) / Math.PI;
    const field = ground({ ripples: { length: 50, height: 6, direction, profile: 'round' } });
    for (const [x, y] of [
      [100, 50],
      [220, 130],
      [410, 70],
    ]) {
      expect(post(field, x + 30, y + 40)).toBeCloseTo(post(field, x, y), 6);
      expect(post(field, x - 40, y + 30)).toBeCloseTo(post(field, x, y), 6);
    }
  });

  test('within an oval they fade out, with a crest through its middle', () => {
    const within = { at: [370, 230], radii: [150, 90] };
    const field = ground({ ripples: { length: 60, height: 8, within } });
    expect(post(field, 370, 230)).toBe(43);
    expect(post(field, 430, 230)).toBeLessThan(41);
    expect([post(field, 530, 230), post(field, 370, 330)]).toEqual([35, 35]);
  });
});

describe('roughness', () => {
  const rough = (extra: object, seed = 1) =>
    sketched(
      { size: [1900, 1100], spacing: 10, level: 35, features: [{ roughness: { height: 24, size: 90, ...extra } }] },
      seed,
    ).field;

  test('the same seed gives the same bytes, another one others', () => {
    expect(rough({}, 7).heightsMm).toEqual(rough({}, 7).heightsMm);
    expect(rough({}, 7).heightsMm).not.toEqual(rough({}, 8).heightsMm);
    expect(rough({ seed: 3 }, 7).heightsMm).toEqual(rough({ seed: 3 }, 8).heightsMm);
    expect(rough({ seed: 3 }).heightsMm).not.toEqual(rough({ seed: 4 }).heightsMm);
  });

  test.each([1, 4, 7])('with %i octaves its mean is near 0 and it keeps within its height', (octaves) => {
    const all = rises(rough({ octaves, seed: 5 }));
    const mean = all.reduce((sum, rise) => sum + rise, 0) / all.length;
    expect(Math.abs(mean)).toBeLessThan(0.5);
    expect(Math.max(...all)).toBeLessThanOrEqual(12);
    expect(Math.min(...all)).toBeGreaterThanOrEqual(-12);
    expect(Math.max(...all) - Math.min(...all)).toBeGreaterThan(12);
  });

  test('with a seed of its own it stays as it is when another is listed before it', () => {
    const one = { roughness: { height: 24, size: 90, seed: 11 } };
    const other = { roughness: { height: 8, size: 40 } };
    const alone = rises(ground(other));
    const both = rises(ground(one, other));
    const first = rises(ground(one));
    const left = both.map((rise, i) => rise - alone[i]);
    expect(apart(left, first)).toBeLessThan(1e-6);
  });
});

describe('spot heights', () => {
  const hill = { mound: { at: [360, 210], radius: 330, height: 140 } };
  const points = [
    [120, 80, 61],
    [340, 150, 97],
    [560, 310, 44.5],
    [230, 370, 120],
    [480, 40, 70],
  ];

  test('posts at spots stand exactly at them, on a hill as on the flat', () => {
    for (const before of [[], [hill]]) {
      for (const reach of [undefined, 150, 900]) {
        const field = ground(...before, { spots: { points, reach } });
        for (const [x, y, z] of points) expect(post(field, x, y)).toBe(z);
      }
    }
  });

  test('spots between posts are met as nearly as the posts allow: fourfold nearer at half the spacing', () => {
    // How near a post is, is chance: the mean square over several places.
    const places = Array.from({ length: 14 }, (_, i) => points.map(([x, y, z]) => [x + 5.7 * i, y - 2.3 * i, z]));
    const error = (spacing: number) => {
      const errors = places.flatMap((odd) => {
        const { field } = sketched({ size: SIZE, spacing, level: 35, features: [{ spots: { points: odd } }] });
        return odd.map(([x, y, z]) => heightAt(field, field.heightsMm as Float64Array, x, y) - z);
      });
      return Math.sqrt(errors.reduce((sum, each) => sum + each * each, 0) / errors.length);
    };
    const errors = [40, 20, 10].map(error);
    expect(errors[0] / errors[1]).toBeGreaterThan(3);
    expect(errors[1] / errors[2]).toBeGreaterThan(3);
    expect(errors[2]).toBeLessThan(0.05);
  });

  test('one spot alone is the published function: 3/16 of the rise at half its reach, nothing at its reach', () => {
    const field = ground({ spots: { points: [[300, 200, 115]], reach: 160 } });
    expect(post(field, 380, 200) - 35).toBeCloseTo((80 * 3) / 16, 6);
    expect([post(field, 460, 200), post(field, 300, 370)]).toEqual([35, 35]);
  });

  test('the order of the spots does not matter, and spots on the ground as it is change nothing much', () => {
    const there = ground({ spots: { points } });
    const back = ground({ spots: { points: [...points].reverse() } });
    expect(apart(there.heightsMm, back.heightsMm)).toBeLessThan(1e-5);
    const flat = ground({ spots: { points: points.map(([x, y]) => [x, y, 35]) } });
    expect(new Set(flat.heightsMm)).toEqual(new Set([35]));
  });

  test('two spots in one place are refused by their numbers', () => {
    const place = 'features\\.0\\.spots\\.points\\.5.*';
    for (const [x, gap] of [
      [340, '0'],
      [340.4, '0.4'],
    ]) {
      const twice = [...points, [x, 150, 98]];
      expect(() => ground({ spots: { points: twice } })).toThrow(
        new RegExp(`${place}Spots 2 and 6 are ${gap} mm apart`),
      );
    }
    expect(post(ground({ spots: { points: [...points, [350, 150, 98]] } }), 350, 150)).toBe(98);
  });
});

describe('features together', () => {
  const features = [
    { mound: { at: [210, 130], radii: [170, 90], turn: 25, height: 55 } },
    {
      ridge: {
        along: [
          [40, 380],
          [650, 250],
        ],
        width: 130,
        height: 33,
        profile: 'bell',
      },
    },
    { basin: { at: [480, 180], radius: 110, depth: 17, profile: 'round' } },
    { ripples: { length: 70, height: 4, direction: 20 } },
    {
      gully: {
        along: [
          [0, 30],
          [300, 210],
          [690, 410],
        ],
        width: 80,
        depth: 14,
      },
    },
    { roughness: { height: 12, size: 100, seed: 2 } },
  ];

  test('those that add make the sum of each alone, in any order', () => {
    const together = rises(ground(...features));
    const backwards = rises(ground(...[...features].reverse()));
    const alone = features.map((feature) => rises(ground(feature)));
    const sum = together.map((_, i) => alone.reduce((height, each) => height + each[i], 0));
    expect(apart(together, sum)).toBeLessThan(1e-5);
    expect(apart(together, backwards)).toBeLessThan(1e-5);
  });

  test('its heights are what a job in other units gives', () => {
    const inFeet = sketch.options(makeKit('ft')).parse({
      size: [7, 5],
      spacing: '20 mm',
      level: '35 mm',
      features: [{ mound: { at: ['600 mm', 1], radius: '24 in', height: 0.5 } }],
    });
    expect(inFeet).toMatchObject({ size: [2133.6, 1524], level: 35 });
    expect(inFeet.features[0].mound).toMatchObject({ at: [600, 304.8], radius: 609.6, height: 152.4 });
  });

  test('options as parsed read back to the same', () => {
    const kit = makeKit('mm');
    const parsed = sketch
      .options(kit)
      .parse({ size: SIZE, features: [...features, { spots: { points: [[1, 2, 3]] } }] });
    expect(sketch.options(kit).parse(structuredClone(parsed))).toEqual(parsed);
  });
});

describe('what it tells', () => {
  const told = (...features: unknown[]) => codes(sketched({ size: SIZE, spacing: 10, level: 35, features }).told);

  test('a feature wholly outside, by its place in the job', () => {
    expect(
      told(
        { mound: { at: [210, 130], radius: 90, height: 20 } },
        { mound: { at: [-120, 130], radius: 90, height: 20 } },
        {
          ridge: {
            along: [
              [30, 520],
              [800, 560],
            ],
            width: 60,
            height: 20,
          },
        },
        { basin: { at: [-50, -50], radius: 90, depth: 3 } },
      ),
    ).toEqual([
      'source/feature-outside source.sketch.features.1.mound',
      'source/feature-outside source.sketch.features.2.ridge',
    ]);
  });

  test('one that falls between the posts, and one too fine for them', () => {
    expect(told({ mound: { at: [215, 135], radius: 4, height: 20 } })).toEqual([
      'source/feature-without-effect source.sketch.features.0.mound',
    ]);
    expect(told({ ripples: { length: 25, height: 2 } }, { ripples: { length: 45, height: 2 } })).toEqual([
      'source/feature-too-fine source.sketch.features.0.ripples',
    ]);
  });

  test('ground below 0, once, where it is lowest', () => {
    const { told: findings } = sketched({
      size: SIZE,
      spacing: 10,
      level: 35,
      features: [
        { basin: { at: [210, 130], radius: 90, depth: 50 } },
        { basin: { at: [510, 230], radius: 90, depth: 58.5 } },
      ],
    });
    expect(findings).toHaveLength(1);
    expect(findings[0]).toMatchObject({ level: 'note', code: 'source/below-zero', where: { atMm: [510, 230] } });
    expect(findings[0].message).toContain('-23.5 mm');
  });

  test('in words that name the feature by its number, and a way out that ends the finding', () => {
    const waves = (spacing: number) =>
      sketched({
        size: SIZE,
        spacing,
        features: [{ mound: { at: [210, 130], radius: 90, height: 20 } }, { ripples: { length: 25, height: 2 } }],
      }).told;
    expect(waves(10)[0]).toMatchObject({
      message: 'Feature 2 (ripples) goes from high to low within 12.5 mm; posts 10 mm apart show it ragged.',
      fix: 'Set spacing to 4.2 mm or less, or make it larger.',
    });
    expect(waves(4.2)).toEqual([]);
  });

  test('nothing about ground that is as asked', () => {
    expect(told({ mound: { at: [210, 130], radius: 90, height: 20 } })).toEqual([]);
  });
});

describe('bad input', () => {
  const feature = (written: unknown) => sketchFault({ size: SIZE, features: [written] });

  test.each([
    ['a size of 0', { size: [0, 430] }, /size.*not above 0/],
    ['a size below 0', { size: [700, -430] }, /size.*not above 0/],
    ['no size', {}, /size/],
    ['a spacing of 0', { size: SIZE, spacing: 0 }, /spacing.*not above 0/],
    ['a level that is no number', { size: SIZE, level: Number.NaN }, /level/],
    ['an unknown key', { size: SIZE, hills: [] }, /hills/],
  ])('%s', (_, written, fault) => expect(sketchFault(written)).toMatch(fault));

  test.each([
    ['an unknown feature', { hillock: {} }, /hillock/],
    [
      'two features under one hyphen',
      { mound: { at: [1, 2], radius: 3, height: 4 }, shelf: { at: [1, 2], size: [3, 4], level: 5 } },
      /one key/,
    ],
    ['a feature without a kind', {}, /one key/],
    ['a mound without radius', { mound: { at: [1, 2], height: 4 } }, /radius and radii/],
    ['a mound with both', { mound: { at: [1, 2], radius: 3, radii: [4, 5], height: 6 } }, /radius and radii/],
    ['a height below 0', { mound: { at: [1, 2], radius: 3, height: -4 } }, /not above 0/],
    ['an infinite height', { mound: { at: [1, 2], radius: 3, height: Infinity } }, /height/],
    ['a ridge of one point', { ridge: { along: [[1, 2]], width: 3, height: 4 } }, /along/],
    [
      'a floor wider than its gully',
      {
        gully: {
          along: [
            [1, 2],
            [3, 5],
          ],
          width: 6,
          floor: 7,
          depth: 1,
        },
      },
      /floor/,
    ],
    ['a shelf without a place', { shelf: { level: 5 } }, /outline, or at and size/],
    [
      'a shelf with two places',
      {
        shelf: {
          outline: [
            [1, 2],
            [3, 5],
            [0, 7],
          ],
          at: [1, 2],
          size: [3, 4],
          level: 5,
        },
      },
      /outline, or at and size/,
    ],
    ['a shelf without a size', { shelf: { at: [1, 2], level: 5 } }, /outline, or at and size/],
    ['an unknown profile', { mound: { at: [1, 2], radius: 3, height: 4, profile: 'steep' } }, /profile/],
    ['no octave', { roughness: { height: 1, size: 2, octaves: 0 } }, /octaves/],
    ['a spot without a height', { spots: { points: [[1, 2]] } }, /points/],
  ])('%s', (_, written, fault) => expect(feature(written)).toMatch(fault));
});

test('the lead sample: nothing to tell, room for its cover everywhere, and a place to stand just under whole boards', () => {
  const job = parse(readFileSync(new URL('../../samples/moor-bank/job.yaml', import.meta.url), 'utf8'));
  const { field, told } = sketched(job.source.sketch, job.seed);
  expect(told).toEqual([]);
  const { lowMm, highMm } = extent(field);
  expect(lowMm).toBeGreaterThanOrEqual(job.cover.depth);
  expect(highMm).toBeGreaterThan(650);
  expect(highMm).toBeLessThan(720);
  // Exactly at a level the shelf's edge would be a staircase along the posts.
  const under =
    job.stock.boards[0].thickness - ((post(field, 3000, 2500) - job.cover.depth) % job.stock.boards[0].thickness);
  expect(under).toBeGreaterThan(0);
  expect(under).toBeLessThanOrEqual(5);
});

test('the plugin is registered', () => expect(builtin.find('source', 'sketch')).toBe(sketch));
