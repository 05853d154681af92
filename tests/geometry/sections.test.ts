import { expect, test } from 'vitest';
import { contours } from '../../src/geometry/contour.ts';
import { stream } from '../../src/geometry/random.ts';
import { boxOf, type Ring, ringArea } from '../../src/geometry/ring.ts';
import { type Surface, sections, type UpRule } from '../../src/geometry/sections.ts';
import { heightfield, type Solid } from '../../src/model/landform.ts';
import { fieldSolid, insideOut, MUSHROOM, polygonArea, prism, solid, together, turned } from '../help/solids.ts';

const surface = ({ positionsMm, triangles }: Solid): Surface => ({ positions: positionsMm, triangles });

function ended<T>(walk: Generator<number, T, unknown>): T {
  let last = 0;
  for (let step = walk.next(); ; step = walk.next()) {
    if (step.done) return step.value;
    expect(step.value).toBeGreaterThan(last);
    expect(step.value).toBeLessThanOrEqual(1);
    last = step.value;
  }
}

const cutAt = (of: Solid, levels: number[], rule: UpRule = 'above') => ended(sections(surface(of), levels, rule));
const area = (rings: readonly Ring[]) => rings.reduce((sum, ring) => sum + ringArea(ring), 0);

const LOPSIDED = [
  [3, 1],
  [47, 6],
  [61, 38],
  [31, 51],
  [7, 29],
] as const;
const lopsidedArea = Math.abs(
  LOPSIDED.reduce((sum, [x, y], i) => {
    const [u, v] = LOPSIDED[(i + 1) % LOPSIDED.length];
    return sum + (x * v - u * y) / 2;
  }, 0),
);

test('a prism has its outline at every level inside it, and nothing beyond', () => {
  const levels = [-2, 5, 11.25, 18.5, 30];
  const rings = cutAt(prism(LOPSIDED, 4, 19), levels);
  expect(rings.map((at) => at.length)).toEqual([0, 1, 1, 1, 0]);
  for (const at of rings.slice(1, 4)) expect(area(at)).toBeCloseTo(lopsidedArea, 9);
});

test('a vertex exactly on a level is up by one rule and down by the other', () => {
  const tall = prism(LOPSIDED, 4, 19);
  expect(cutAt(tall, [4, 19], 'above').map(area)).toEqual([expect.closeTo(lopsidedArea, 9), 0]);
  expect(cutAt(tall, [4, 19], 'at or above').map(area)).toEqual([0, expect.closeTo(lopsidedArea, 9)]);
});

test('a tetrahedron shrinks with the square of the height that is left', () => {
  const base = ((38 - 2) * (29 - 3) - (11 - 2) * (7 - 3)) / 2;
  const peaked = solid(
    [
      [2, 3, 0],
      [38, 7, 0],
      [11, 29, 0],
      [19, 12, 23],
    ],
    [
      [0, 2, 1],
      [0, 1, 3],
      [1, 2, 3],
      [2, 0, 3],
    ],
  );
  const levels = [0, 3, 7.5, 16, 22.75];
  const areas = cutAt(peaked, levels).map(area);
  levels.forEach((level, i) => {
    expect(areas[i]).toBeCloseTo(base * (1 - level / 23) * (1 - level / 23), 9);
  });
  expect(cutAt(peaked, [23], 'at or above')).toEqual([[]]);
});

test('a cone frustum has the polygon of its radius', () => {
  const cone = turned(
    [
      [0, 2],
      [40, 2],
      [13, 32],
      [0, 32],
    ],
    17,
    51,
    44,
  );
  const levels = [2, 9, 20.5, 31];
  const areas = cutAt(cone, levels).map(area);
  levels.forEach((level, i) => {
    expect(areas[i]).toBeCloseTo(polygonArea(40 - (27 * (level - 2)) / 30, 17), 8);
  });
});

test('a cavity is a hole that runs clockwise, and a ring has one too', () => {
  const walls = together(
    prism(LOPSIDED, 0, 30),
    insideOut(
      turned(
        [
          [0, 6],
          [4, 6],
          [3, 21],
          [0, 21],
        ],
        9,
        34,
        17,
      ),
    ),
  );
  const [below, through, over] = cutAt(walls, [3, 13.5, 25]);
  expect([below.length, through.length, over.length]).toEqual([1, 2, 1]);
  expect(through.map(ringArea).sort((a, b) => a - b)).toEqual([
    expect.closeTo(-polygonArea(3.5, 9), 9),
    expect.closeTo(lopsidedArea, 9),
  ]);
  const tyre = turned(
    [
      [20, 8],
      [28, 3],
      [33, 11],
      [26, 15],
    ],
    23,
    40,
    37,
  );
  const [rings] = cutAt(tyre, [9]);
  expect(rings.map((ring) => Math.sign(ringArea(ring))).sort()).toEqual([-1, 1]);
});

test('shells that share an edge still give closed rings', () => {
  // Two prisms that meet along an upright edge, welded: four faces on it.
  const left = [
    [1, 1],
    [9, 2],
    [8, 9],
    [2, 7],
  ] as const;
  const right = [
    [8, 9],
    [17, 8],
    [19, 15],
    [10, 16],
  ] as const;
  const both = together(prism(left, 0, 10), prism(right, 0, 10));
  const weld = new Map<string, number>();
  const triangles = both.triangles.map((v) => {
    const key = both.positionsMm.subarray(3 * v, 3 * v + 3).join();
    if (!weld.has(key)) weld.set(key, v);
    return weld.get(key) as number;
  });
  const [welded] = cutAt({ ...both, triangles }, [4]);
  const [apart] = cutAt(both, [4]);
  expect(area(welded)).toBeCloseTo(area(apart), 9);
  expect(new Set(triangles).size).toBe(both.positionsMm.length / 3 - 2);
});

test('an open surface is not cut in silence', () => {
  const whole = prism(LOPSIDED, 4, 19);
  const open = { ...whole, triangles: whole.triangles.slice(0, -3) };
  expect(() => cutAt(open, [10])).toThrow('closed');
});

test('heights that all lie on levels leave no open ends, no repeated points and the volume between', () => {
  const random = stream(11, 'on levels');
  for (let round = 0; round < 20; round++) {
    const columns = 9 + Math.floor(random() * 5);
    const rows = 7;
    const heights = Float64Array.from({ length: columns * rows }, () => 10 * (1 + Math.floor(random() * 5)));
    const ground = fieldSolid(heightfield(columns, rows, 3, 4.5, heights));
    const levels = [0, 10, 20, 30, 40, 50];
    const above = cutAt(ground, levels, 'above');
    const below = cutAt(ground, levels, 'at or above');
    for (const ring of [...above, ...below].flat()) {
      for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
        expect(ring[i] === ring[j] && ring[i + 1] === ring[j + 1]).toBe(false);
      }
    }
    // Closure: what is at the level or above it holds what is above it, and flat ground is the difference.
    levels.forEach((_, k) => {
      if (k > 0) expect(area(below[k])).toBeGreaterThanOrEqual(area(above[k]) - 1e-9);
    });
    expect(area(below[0])).toBe(0);
    expect(area(above[5])).toBe(0);
    expect(area(above[0])).toBeCloseTo((columns - 1) * 3 * (rows - 1) * 4.5, 8);
  }
});

test('a heightfield in triangles has the areas of its cells: a slope by closed values', () => {
  // Ground 10 + 2x: at level z the part beyond x = (z − 10) / 2 is up.
  const columns = 6;
  const heights = Float64Array.from({ length: columns * 4 }, (_, i) => 10 + 2 * 5 * (i % columns));
  const slope = fieldSolid(heightfield(columns, 4, 5, 7, heights));
  for (const level of [12.5, 20, 33.75, 59]) {
    expect(area(cutAt(slope, [level])[0])).toBeCloseTo((25 - (level - 10) / 2) * 21, 9);
  }
});

test('a heightfield has the same areas as a surface of triangles as it has as posts', () => {
  const random = stream(8, 'fields');
  for (let round = 0; round < 30; round++) {
    const columns = 5 + Math.floor(9 * random());
    const rows = 4 + Math.floor(7 * random());
    // Every third ground has its posts on the levels.
    const heights = Float64Array.from({ length: columns * rows }, () =>
      round % 3 === 0 ? 25 * Math.floor(1 + 6 * random()) : 10 + 140 * random(),
    );
    const outlineAt = contours({ columns, rows, stepX: 13, stepY: 8.5, originX: 0, originY: 0, values: heights });
    const ground = fieldSolid(heightfield(columns, rows, 13, 8.5, heights));
    const levels = [0, 25, 50, 75, 100, 125, 150];
    const above = cutAt(ground, levels, 'above');
    const atOrAbove = cutAt(ground, levels, 'at or above');
    levels.forEach((level, k) => {
      expect(area(above[k])).toBeCloseTo(area(outlineAt(level, 'above')), 8);
      // The base is on level 0: just below it there is nothing.
      if (k > 0) expect(area(atOrAbove[k])).toBeCloseTo(area(outlineAt(level, 'at least')), 8);
    });
  }
});

test('points on a level are the vertices themselves', () => {
  const [rings] = cutAt(MUSHROOM, [33]);
  const xs = new Set<number>();
  for (let i = 0; i < MUSHROOM.positionsMm.length; i += 3) {
    if (MUSHROOM.positionsMm[i + 2] === 33) xs.add(MUSHROOM.positionsMm[i]);
  }
  expect(rings.length).toBe(1);
  for (let i = 0; i < rings[0].length; i += 2) expect(xs.has(rings[0][i])).toBe(true);
  expect(boxOf(rings)[2]).toBe(68);
});
