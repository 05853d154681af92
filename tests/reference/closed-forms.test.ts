/**
 * Solids whose layers have closed forms. The formulas are the prism sums of each solid's plan area A(z) = πr(z)² and the
 * like (school geometry; Gaussian: A(z) = 2πs² ln(h/z)); figures computed in double precision from them and rounded to 6
 * decimals, cubic metres. Outer, inner and mid are the volumes of the stacks cut proud, shy and middle.
 */
import { describe, expect, test } from 'vitest';
import type { Finding } from '../../src/findings.ts';
import { stream } from '../../src/geometry/random.ts';
import { areaOf, boxOf, type Region, ringArea, ringLength, ringsOf } from '../../src/geometry/ring.ts';
import { makeKit } from '../../src/job/kit.ts';
import { groundOf } from '../../src/model/ground.ts';
import { groundBetween } from '../../src/model/ground-between.ts';
import { type Heightfield, heightfield, type Landform } from '../../src/model/landform.ts';
import type { LayerStack } from '../../src/model/layer.ts';
import { heightfieldOutlines } from '../../src/slice/layers/heightfield.ts';
import type { Cut } from '../../src/slice/layers/levels.ts';
import { layers } from '../../src/slice/layers.ts';
import { walkNow } from '../../src/walk.ts';
import { deviationOf } from '../../src/workshop/deviation.ts';
import { boardFacts } from '../help/board-facts.ts';
import { evenLevelsMm } from '../help/levels.ts';
import { turned } from '../help/solids.ts';

interface Form {
  readonly name: string;
  /** Height in metres at x, y from the middle; goes on below 0 outside, so that the rim is not rounded by a step of posts. */
  readonly height: (x: number, y: number) => number;
  /** Half the width and depth of the grid, metres. */
  readonly half: readonly [number, number];
  readonly highM: number;
  readonly boards: number;
  readonly outer: number;
  readonly inner: number;
  readonly mid: number;
  /** Decimals to which posts 10 mm apart can tell the volumes; 3 when not said. */
  readonly digits?: number;
}

const radius = (x: number, y: number) => Math.sqrt(x * x + y * y);

const FORMS: readonly Form[] = [
  {
    name: 'cone, base 1, height 0.5: V = πR²H/3',
    height: (x, y) => 0.5 * (1 - radius(x, y)),
    half: [1.13, 1.07],
    highM: 0.5,
    boards: 10,
    outer: 0.604757,
    inner: 0.447677,
    mid: 0.52229,
  },
  {
    name: 'elliptic paraboloid, 1.8 by 1.2, height 0.6: V = πabH/2',
    height: (x, y) => 0.6 * (1 - (x * x) / 3.24 - (y * y) / 1.44),
    half: [1.97, 1.31],
    highM: 0.6,
    boards: 6,
    outer: 2.375044,
    inner: 1.69646,
    mid: 2.035752,
  },
  {
    name: 'hemisphere of 1: V = 2πR³/3',
    height: (x, y) => Math.sign(1 - x * x - y * y) * Math.sqrt(Math.abs(1 - x * x - y * y)),
    half: [1.13, 1.07],
    highM: 1,
    boards: 5,
    outer: 2.38761,
    inner: 1.759292,
    mid: 2.104867,
    // Upright at its rim: the posts there are far apart in height.
    digits: 2,
  },
  {
    name: 'spherical cap, sphere 1.25, height 0.5: V = πh²(3ρ − h)/3',
    height: (x, y) => Math.sqrt(Math.max(0, 1.5625 - x * x - y * y)) - 0.75,
    half: [1.06, 1.03],
    highM: 0.5,
    boards: 6,
    outer: 0.97993,
    inner: 0.71813,
    mid: 0.851757,
  },
  {
    name: 'conical frustum, 1.2 to 0.4, height 0.6 (the cone above it is not sliced): V = πH(r₁² + r₁r₂ + r₂²)/3',
    height: (x, y) => (0.6 * (1.2 - radius(x, y))) / 0.8,
    half: [1.37, 1.29],
    highM: 0.6,
    boards: 6,
    outer: 1.51355,
    inner: 1.111426,
    mid: 1.30411,
  },
  {
    name: 'square pyramid, base 2, height 1: V = 4/3',
    height: (x, y) => 1 - Math.max(Math.abs(x), Math.abs(y)),
    half: [1.13, 1.07],
    highM: 1,
    boards: 10,
    outer: 1.54,
    inner: 1.14,
    mid: 1.33,
  },
  {
    name: 'crater ring, radius 1, half width 0.4, height 0.4: V = 2πr₀wh',
    height: (x, y) => 0.4 * (1 - Math.abs(radius(x, y) - 1) / 0.4),
    half: [1.51, 1.47],
    highM: 0.4,
    boards: 4,
    outer: 1.256637,
    inner: 0.753982,
    mid: 1.00531,
  },
  {
    name: 'Gaussian hill, height 1, s 0.8, cut off at 0.1: V = 2πs²(h − z₀ − z₀ ln(h/z₀))',
    height: (x, y) => Math.exp(-(x * x + y * y) / 1.28) - 0.1,
    half: [1.81, 1.77],
    highM: 0.9,
    boards: 9,
    outer: 3.185399,
    inner: 2.259475,
    mid: 2.678892,
  },
  {
    name: 'round paraboloid, base 1, height 0.5: V = πR²H/2',
    height: (x, y) => 0.5 * (1 - x * x - y * y),
    half: [1.13, 1.07],
    highM: 0.5,
    boards: 10,
    outer: 0.863938,
    inner: 0.706858,
    mid: 0.785398,
  },
];

/** Posts about `stepMm` apart, in unlike steps and with no post in the middle. */
function sampled({ height, half: [halfX, halfY] }: Form, stepMm: number): Heightfield {
  const [stepX, stepY] = [stepMm, 1.13 * stepMm];
  const columns = Math.ceil((2000 * halfX) / stepX);
  const rows = Math.ceil((2000 * halfY) / stepY);
  const [middleX, middleY] = [0.5 * (columns - 1) * stepX + 0.31 * stepX, 0.5 * (rows - 1) * stepY - 0.23 * stepY];
  const heights = Float64Array.from({ length: columns * rows }, (_, i) => {
    const x = ((i % columns) * stepX - middleX) / 1000;
    const y = (Math.floor(i / columns) * stepY - middleY) / 1000;
    return 1000 * height(x, y);
  });
  return heightfield(columns, rows, stepX, stepY, heights);
}

/** Of regions in whole micrometres. */
const areaM2 = (regions: readonly Region[]) => areaOf(regions) / 1e12;

function areasOf(form: Form, cut: Cut, stepMm: number): number[] {
  const levels = evenLevelsMm(form.boards, (1000 * form.highM) / form.boards);
  const outlines = heightfieldOutlines(sampled(form, stepMm), levels, cut);
  return Array.from({ length: form.boards }, (_, k) => areaM2(outlines(k)));
}

const stackM3 = (form: Form, cut: Cut, stepMm: number) =>
  (areasOf(form, cut, stepMm).reduce((sum, area) => sum + area, 0) * form.highM) / form.boards;

describe.each(FORMS)('$name', (form) => {
  test('the three stacks have the volumes of the closed forms', () => {
    // Relative error of a section is of the order of (step/R)²: 1e-4 at 10 mm.
    expect(stackM3(form, 'proud', 10) / form.outer).toBeCloseTo(1, form.digits ?? 3);
    expect(stackM3(form, 'shy', 10) / form.inner).toBeCloseTo(1, form.digits ?? 3);
    expect(stackM3(form, 'middle', 10) / form.mid).toBeCloseTo(1, form.digits ?? 3);
  });

  test('proud less shy is one board of the base less the top, to 1e-9', () => {
    const proud = areasOf(form, 'proud', 23);
    const shy = areasOf(form, 'shy', 23);
    const sum = (values: readonly number[]) => values.reduce((a, b) => a + b, 0);
    expect((sum(proud) - sum(shy)) / (proud[0] - (shy.at(-1) as number))).toBeCloseTo(1, 9);
  });
});

/** The same forms in other numbers of boards: from the same closed forms in N. */
test.each([
  ['cone', 2, 0.981748, 0.19635, 0.490874],
  ['cone', 4, 0.736311, 0.343612, 0.515418],
  ['cone', 5, 0.69115, 0.376991, 0.518363],
  ['cone', 20, 0.563523, 0.484983, 0.523272],
  ['round paraboloid', 4, 0.981748, 0.589049, 0.785398],
  ['hemisphere', 4, 2.454369, 1.668971, 2.110758],
  ['hemisphere', 10, 2.246239, 1.932079, 2.097013],
  ['hemisphere', 20, 2.171626, 2.014546, 2.09505],
  ['spherical cap', 4, 1.043107, 0.650408, 0.852893],
  ['spherical cap', 10, 0.928733, 0.771654, 0.851175],
  ['conical frustum', 4, 1.621062, 1.017876, 1.300619],
  ['conical frustum', 12, 1.40883, 1.207768, 1.306204],
  ['square pyramid', 4, 1.875, 0.875, 1.3125],
])('%s in %i boards', (name, boards, outer, inner, mid) => {
  const form = { ...(FORMS.find((each) => each.name.startsWith(name)) as Form), boards };
  expect(stackM3(form, 'proud', 10) / outer).toBeCloseTo(1, form.digits ?? 3);
  expect(stackM3(form, 'shy', 10) / inner).toBeCloseTo(1, form.digits ?? 3);
  expect(stackM3(form, 'middle', 10) / mid).toBeCloseTo(1, form.digits ?? 3);
});

test('the cone in one board is a disc proud, half as wide a disc in the middle, and nothing shy', () => {
  const form = { ...FORMS[0], boards: 1 };
  expect(stackM3(form, 'proud', 10) / 1.570796).toBeCloseTo(1, 3);
  expect(stackM3(form, 'shy', 10)).toBe(0);
  expect(stackM3(form, 'middle', 10) / 0.392699).toBeCloseTo(1, 3);
});

test.each([
  ['cone', 'πR√(R² + H²)', 3.512407],
  ['spherical cap', '2πρh', 3.926991],
])('the true sloping area of the %s is %s', (name, _, area) => {
  const field = sampled(FORMS.find((each) => each.name.startsWith(name)) as Form, 10);
  // What lies under 0 is no part of the form: the ground ends where it is cut at 0.
  const foot = heightfieldOutlines(field, Float64Array.of(0, 10), 'proud')(0);
  const footprint = foot.map((region) => region.map((ring) => ring.map((um) => um / 1000)));
  expect(groundOf({ ...field, footprint }).surfaceAreaMm2 / 1e6 / area).toBeCloseTo(1, 3);
});

test('the cone in ten boards is cut along πR(N + 1) proud, πR(N − 1) shy, πRN middle', () => {
  const lengthM = (cut: Cut) => {
    const outlines = heightfieldOutlines(sampled(FORMS[0], 10), evenLevelsMm(10, 50), cut);
    const rings = Array.from({ length: 10 }, (_, k) => ringsOf(outlines(k))).flat();
    return rings.reduce((sum, ring) => sum + ringLength(ring) / 1e6, 0);
  };
  expect(lengthM('proud') / 34.5575).toBeCloseTo(1, 3);
  expect(lengthM('shy') / 28.2743).toBeCloseTo(1, 3);
  expect(lengthM('middle') / 31.4159).toBeCloseTo(1, 3);
});

test.each([
  [0.05, 3.217849, 12.046554],
  [0.1, 2.69319, 9.259244],
  [0.2, 1.922604, 6.471934],
])('the Gaussian hill above %f: its volume, and its area there', (z0, volume, area) => {
  const hill = (FORMS.find(({ name }) => name.startsWith('Gaussian')) as Form).height;
  const half = z0 < 0.1 ? ([2.11, 2.07] as const) : ([1.81, 1.77] as const);
  const form = { ...FORMS[7], half, height: (x: number, y: number) => hill(x, y) + 0.1 - z0 };
  const field = sampled(form, 10);
  expect(groundBetween(field, 0, 2000) / 1e9 / volume).toBeCloseTo(1, 3);
  expect(areaM2(heightfieldOutlines(field, Float64Array.of(0, 10), 'proud')(0)) / area).toBeCloseTo(1, 3);
});

test.each(FORMS.filter(({ name }) => /paraboloid|cap|Gaussian/.test(name)))(
  '$name: halving the spacing takes the error to about a quarter',
  (form) => {
    const error = (stepMm: number) => Math.abs(stackM3(form, 'proud', stepMm) - form.outer);
    const ratio = error(40) / error(20);
    expect(ratio).toBeGreaterThan(3.3);
    expect(ratio).toBeLessThan(4.8);
  },
);

test('the crater has annuli: 0.6 to 1.4, 0.7 to 1.3, 0.8 to 1.2, 0.9 to 1.1', () => {
  const form = FORMS.find(({ name }) => name.startsWith('crater')) as Form;
  const outlines = heightfieldOutlines(sampled(form, 10), evenLevelsMm(4, 100), 'proud');
  for (let k = 0; k < 4; k++) {
    const radii = ringsOf(outlines(k))
      .map((ring) => ringArea(ring) / 1e6)
      .map((area) => Math.sign(area) * Math.sqrt(Math.abs(area) / Math.PI));
    radii.sort((a, b) => a - b);
    expect(radii).toHaveLength(2);
    expect(radii[0] / 1000).toBeCloseTo(-0.6 - 0.1 * k, 3);
    expect(radii[1] / 1000).toBeCloseTo(1.4 - 0.1 * k, 3);
  }
});

function slice(landform: Landform, written: Record<string, unknown>, thicknessMm: number) {
  const findings: Finding[] = [];
  const context = {
    facts: boardFacts([thicknessMm]),
    tell: (finding: Finding) => void findings.push(finding),
    random: stream(1, 'slice', 0),
  };
  const stack = walkNow(layers.run(landform, layers.options(makeKit('mm')).parse(written), context)) as LayerStack;
  return { findings, stack, areasM2: stack.layers.map(({ regions }) => areaOf(regions) / 1e6) };
}

test('ramp of 2.4 by 3.6 m rising to 0.5 m, ten boards: rectangles, exactly', () => {
  const [columns, rows] = [17, 19];
  const heights = Float64Array.from({ length: columns * rows }, (_, i) => (500 * Math.floor(i / columns)) / (rows - 1));
  const ramp = heightfield(columns, rows, 150, 200, heights);
  const volume = (cut: string) => slice(ramp, { cut }, 50).areasM2.reduce((sum, area) => sum + 0.05 * area, 0);
  expect(volume('proud')).toBeCloseTo(2.376, 9);
  expect(volume('shy')).toBeCloseTo(1.944, 9);
  expect(volume('middle')).toBeCloseTo(2.16, 9);
  for (const [k, area] of slice(ramp, { cut: 'proud' }, 50).areasM2.entries()) {
    expect(area).toBeCloseTo(2.4 * 3.6 * (1 - k / 10), 9);
  }
});

test('the cone in 80 mm boards: seven proud, six shy and middle, 60 mm too tall, and told so', () => {
  const cone = sampled(FORMS[0], 10);
  const ground = { ...cone, heightsMm: cone.heightsMm.map((height) => Math.max(0, height)) };
  const radii = (cut: string) =>
    slice(ground, { cut, simplify: 0 }, 80).areasM2.map((area) => Math.sqrt(area / Math.PI));
  // The lowest proud outline runs round the posts that are above 0, so it may be a post too wide.
  const proud = radii('proud');
  expect(proud).toHaveLength(7);
  expect(proud[0]).toBeCloseTo(1, 1);
  for (let k = 1; k < 7; k++) expect(proud[k]).toBeCloseTo(1 - 0.16 * k, 2);
  expect(radii('shy')).toHaveLength(6);
  expect(radii('middle')).toHaveLength(6);
  const top = slice(ground, { cut: 'proud' }, 80).findings[0].message;
  // No post stands on the tip: the highest is within 2 mm of it.
  expect(top).toMatch(/ends 6[012](\.\d+)? mm above/);
});

/**
 * Steps of slopes in 50 mm boards (plain trigonometry, no source): the tread is t / tan θ; the deepest corner of a step is
 * t · cos θ from the slope, square to it, and half of that where layers are cut in the middle.
 */
describe.each([
  [10, 283.6, 49.2],
  [20, 137.4, 47],
  [30, 86.6, 43.3],
  [34, 74.1, 41.5],
  [45, 50, 35.4],
  [60, 28.9, 25],
])('a cone of %i° in 50 mm boards', (slopeDeg, treadMm, deepMm) => {
  // Not whole boards high: the highest layer is wide enough for its corners to stand over the slope, not the tip.
  const highMm = 4.9 * 50;
  const baseMm = highMm / Math.tan((slopeDeg / 180) * Math.PI);
  const cone = turned(
    [
      [0, 0],
      [baseMm, 0],
      [0, highMm],
    ],
    256,
    baseMm,
    baseMm,
  );

  test.each([
    ['proud', 1],
    ['shy', 1],
    ['middle', 0.5],
  ])('cut %s: treads, and the deepest corner', async (cut, share) => {
    const { stack } = slice(cone, { cut, simplify: 0 }, 50);
    const radii = stack.layers.map(({ regions }) => {
      const [minX, , maxX] = boxOf(ringsOf(regions));
      return (maxX - minX) / 2;
    });
    expect(radii.length).toBeGreaterThan(3);
    for (let k = 1; k < radii.length; k++) expect(radii[k - 1] - radii[k]).toBeCloseTo(treadMm, 1);
    const deviation = await deviationOf(cone, stack);
    // The figures are rounded to 0.1 mm.
    expect((deviation?.largestStep?.mm ?? 0) / share).toBeCloseTo(deepMm, 1);
  });
});
