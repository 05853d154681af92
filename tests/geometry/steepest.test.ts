import { describe, expect, test } from 'vitest';
import { stream } from '../../src/geometry/random.ts';
import type { PostGrid } from '../../src/geometry/steepest/posts.ts';
import { relaxed, STEEPEST_SLACK, STEEPEST_WAYS, type SteepestWay, steepestOf } from '../../src/geometry/steepest.ts';
import { walkNow } from '../../src/walk.ts';

const GRID: PostGrid = { columns: 47, rows: 31, stepX: 20, stepY: 27 };
const LIMIT = 2 / 3;
type Form = (column: number, row: number) => number;
const heightsOf = (form: Form, { columns, rows } = GRID) =>
  Float64Array.from({ length: columns * rows }, (_, i) => form(i % columns, Math.floor(i / columns)));
const easedTo = (heights: Float64Array, by: SteepestWay, limit = LIMIT, cells: Uint8Array | null = null, grid = GRID) =>
  walkNow(relaxed(heights, grid, limit, by, cells));

/** By the trapezoid rule, which is exact for triangles that meet at the mean. */
const volume = (h: Float64Array, { columns, rows } = GRID) =>
  h.reduce((sum, height, i) => {
    const [c, r] = [i % columns, Math.floor(i / columns)];
    return sum + height * (c % (columns - 1) === 0 ? 0.5 : 1) * (r % (rows - 1) === 0 ? 0.5 : 1);
  }, 0);

/** Slope of every triangle from its three corners by the cross product: written otherwise than in the source. */
function mostRise(h: Float64Array, { columns, rows, stepX, stepY } = GRID): number {
  let most = 0;
  for (let r = 0; r + 1 < rows; r++) {
    for (let c = 0; c + 1 < columns; c++) {
      const corner = (x: number, y: number) => [x * stepX, y * stepY, h[(r + y) * columns + c + x]];
      const ring = [corner(0, 0), corner(1, 0), corner(1, 1), corner(0, 1)];
      const middle = [stepX / 2, stepY / 2, ring.reduce((sum, p) => sum + p[2], 0) / 4];
      ring.forEach((p, i) => {
        const [u, v] = [ring[(i + 1) % 4], middle].map((q) => q.map((value, k) => value - p[k]));
        const [nx, ny, nz] = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]];
        most = Math.max(most, Math.hypot(nx, ny) / nz);
      });
    }
  }
  return most;
}

const random = stream(11, 'steepest');
const noise = Float64Array.from({ length: 47 * 31 }, random);
const FORMS: [string, Form][] = [
  ['a block', (c, r) => (c > 17 && c < 31 && r > 8 ? 330 : 12)],
  ['a pit one post wide', (c, r) => (c === 21 && r === 13 ? 0 : 410)],
  ['a cliff aslant', (c, r) => (2 * c + 3 * r > 97 ? 290 : 0)],
  [
    'a steep cone beside a gentle one',
    (c, r) => Math.max(0, 300 - 32 * Math.hypot(c - 12, r - 11)) + Math.max(0, 50 - 9 * Math.hypot(c - 36, r - 20)),
  ],
  ['rubble', (c, r) => 170 * noise[r * 47 + c]],
];

describe.each(FORMS)('%s', (_, form) => {
  const ground = heightsOf(form);
  test.each(STEEPEST_WAYS)(
    '%s: no triangle is steeper than the limit and its slack; a second time nothing moves',
    (by) => {
      const now = easedTo(ground, by);
      expect(mostRise(ground)).toBeGreaterThan(LIMIT * 1.1);
      expect(mostRise(now)).toBeLessThanOrEqual(LIMIT * (1 + STEEPEST_SLACK));
      expect(easedTo(now, by)).toEqual(now);
      expect(ground).toEqual(heightsOf(form));
    },
  );

  test('settle keeps the volume; cut is nowhere above the ground, fill nowhere below', () => {
    const [settle, cut, fill] = STEEPEST_WAYS.map((by) => easedTo(ground, by));
    expect(volume(settle) / volume(ground)).toBeCloseTo(1, 12);
    expect(Math.max(...cut.map((height, i) => height - ground[i]))).toBe(0);
    expect(Math.min(...fill.map((height, i) => height - ground[i]))).toBe(0);
  });

  test('cut lies within a post and a half of slope under the bound by cones; fill is cut upside down', () => {
    const cut = easedTo(ground, 'cut');
    let gap = 0;
    for (let i = 0; i < ground.length; i++) {
      let bound = Infinity;
      for (let j = 0; j < ground.length; j++) {
        const dx = ((i % 47) - (j % 47)) * 20;
        const dy = (Math.floor(i / 47) - Math.floor(j / 47)) * 27;
        bound = Math.min(bound, ground[j] + LIMIT * Math.hypot(dx, dy));
      }
      expect(cut[i]).toBeLessThanOrEqual(bound + 1e-9 + STEEPEST_SLACK * 300);
      gap = Math.max(gap, bound - cut[i]);
    }
    expect(gap).toBeLessThan(1.5 * LIMIT * 27);
    const upsideDown = easedTo(
      ground.map((height) => 500 - height),
      'fill',
    );
    expect(Math.max(...upsideDown.map((height, i) => Math.abs(500 - height - cut[i])))).toBeLessThan(1e-6);
  });
});

test('a long cliff settles to a ramp of the limit, half below its middle and half above: the closed form of a sand bank', () => {
  const grid = { columns: 81, rows: 9, stepX: 10, stepY: 17 };
  const cliff = heightsOf((c) => (c >= 40 ? 240 : 0), grid);
  const now = easedTo(cliff, 'settle', 0.5, null, grid);
  // The cliff's face runs from post 39 to post 40, its middle at x = 395; 240 high at 1 in 2 takes 480.
  const worst = Math.max(
    ...now.map((height, i) => {
      const wanted = Math.min(240, Math.max(0, 120 + ((i % 81) * 10 - 395) / 2));
      return Math.abs(height - wanted);
    }),
  );
  expect(worst).toBeLessThan(8);
});

test('what is gentle and out of reach of what is steep stays to the bit; all gentle, all stays', () => {
  const form: Form = (c, r) => (c === 5 && r === 6 ? 90 : 8 * Math.abs(c - 30) + 3 * r);
  const ground = heightsOf(form);
  for (const by of STEEPEST_WAYS) {
    const now = easedTo(ground, by);
    expect(now[6 * 47 + 5] === ground[6 * 47 + 5]).toBe(by === 'cut');
    for (let i = 0; i < now.length; i++) if (i % 47 > 24) expect(now[i]).toBe(ground[i]);
    expect(easedTo(ground, by, 9)).toEqual(ground);
  }
});

test('raised or lowered as a whole, all three move alike; a steeper limit cuts less', () => {
  const ground = heightsOf(FORMS[3][1]);
  for (const by of STEEPEST_WAYS) {
    const now = easedTo(ground, by);
    const lifted = easedTo(
      ground.map((height) => height + 64),
      by,
    );
    expect(Math.max(...lifted.map((height, i) => Math.abs(height - 64 - now[i])))).toBeLessThan(1e-3);
  }
  const volumes = [0.3, 0.5, 0.8, 1.2].map((limit) => volume(easedTo(ground, 'cut', limit)));
  expect([...volumes].sort((a, b) => a - b)).toEqual(volumes);
});

test('cut keeps order: higher ground stays as high or higher, within a post of slope', () => {
  const low = heightsOf(FORMS[0][1]);
  const high = low.map((height, i) => height + 40 * noise[i]);
  const [a, b] = [easedTo(low, 'cut'), easedTo(high, 'cut')];
  expect(Math.min(...b.map((height, i) => height - a[i]))).toBeGreaterThan(-LIMIT * 27);
});

test('cells that are no ground neither count nor move, and nothing slides over them', () => {
  const cells = Uint8Array.from({ length: 46 * 30 }, (_, i) => (i % 46 >= 20 && i % 46 < 24 ? 0 : 1));
  const ground = heightsOf((c, r) => (c < 22 ? 9000 : c > 40 && r > 15 ? 200 : 5));
  for (const by of STEEPEST_WAYS) {
    const now = easedTo(ground, by, LIMIT, cells);
    for (let i = 0; i < now.length; i++) if (i % 47 < 23) expect(now[i]).toBe(ground[i]);
    expect(steepestOf(now, GRID, cells).rise).toBeLessThanOrEqual(LIMIT * (1 + STEEPEST_SLACK));
    expect(now).not.toEqual(ground);
  }
});

test('its progress grows; the steepest cell is named; level ground has none', () => {
  const seen: number[] = [];
  const walk = relaxed(heightsOf(FORMS[0][1]), GRID, LIMIT, 'settle', null);
  for (let step = walk.next(); !step.done; step = walk.next()) seen.push(step.value);
  expect(seen.length).toBeGreaterThan(5);
  expect([...seen].sort((a, b) => a - b)).toEqual(seen);
  expect(Math.max(...seen)).toBeLessThanOrEqual(1);
  const spike = heightsOf((c, r) => (c === 9 && r === 4 ? 30 : 0));
  // South-west of the spike: 30 in 27 north, and half of 30 in 20 east.
  expect(steepestOf(spike, GRID, null)).toEqual({ rise: Math.sqrt(1.5 ** 2 + (15 / 27) ** 2), cell: 3 * 46 + 8 });
  expect(
    steepestOf(
      heightsOf(() => 7),
      GRID,
      null,
    ),
  ).toEqual({ rise: 0, cell: -1 });
});
