import { describe, expect, test } from 'vitest';
import { centreOf, contours, type InRule, type Posts } from '../../src/geometry/contour.ts';
import { stream } from '../../src/geometry/random.ts';
import { areaOf, isInside, type Ring, ringArea } from '../../src/geometry/ring.ts';

/** Posts drawn as rows of numbers, the north row first, as one sees them. 3 by 5 apart, from (7, 11). */
const drawn = (picture: string, values?: (numbers: number[]) => Float64Array | Float32Array): Posts => {
  const rows = picture.trim().split('\n').reverse();
  const numbers = rows.flatMap((row) => row.trim().split(/\s+/).map(Number));
  return {
    columns: numbers.length / rows.length,
    rows: rows.length,
    stepX: 3,
    stepY: 5,
    originX: 7,
    originY: 11,
    values: values ? values(numbers) : Float64Array.from(numbers),
  };
};

const random = (seed: number, levels: number): Posts => {
  const next = stream(seed, 'contour');
  const columns = 2 + Math.floor(9 * next());
  const rows = 2 + Math.floor(7 * next());
  const values = Float64Array.from({ length: columns * rows }, () =>
    levels > 0 ? Math.floor(levels * next()) : 10 * next(),
  );
  return { columns, rows, stepX: 3, stepY: 5, originX: 7, originY: 11, values };
};

const area = (rings: readonly Ring[]) => rings.reduce((sum, ring) => sum + ringArea(ring), 0);

/** The four triangles of every cell, each as three (x, y, value). */
function triangles({ columns, rows, stepX, stepY, originX, originY, values }: Posts): number[][][] {
  const result: number[][][] = [];
  const post = (i: number, j: number) => [originX + i * stepX, originY + j * stepY, values[j * columns + i]];
  for (let j = 0; j + 1 < rows; j++) {
    for (let i = 0; i + 1 < columns; i++) {
      const corners = [post(i, j), post(i + 1, j), post(i + 1, j + 1), post(i, j + 1)];
      const mean = centreOf(corners[0][2], corners[1][2], corners[3][2], corners[2][2]);
      const centre = [originX + (i + 0.5) * stepX, originY + (j + 0.5) * stepY, mean];
      for (let k = 0; k < 4; k++) result.push([corners[k], corners[(k + 1) % 4], centre]);
    }
  }
  return result;
}

/** Area of a triangle's part above a level, by cutting its outline: another way than the one tested. */
function areaAbove(triangle: readonly number[][], level: number): number {
  const kept: number[][] = [];
  for (let k = 0; k < 3; k++) {
    const a = triangle[k];
    const b = triangle[(k + 1) % 3];
    if (a[2] >= level) kept.push([a[0], a[1]]);
    if (a[2] > level !== b[2] > level && a[2] !== level && b[2] !== level) {
      const t = (level - a[2]) / (b[2] - a[2]);
      kept.push([a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])]);
    }
  }
  return Math.abs(ringArea(Float64Array.from(kept.flat())));
}

/** Components of the posts and centres that are in, and of those that are out (the world outside the grid is one of them). */
function components(posts: Posts, level: number, rule: InRule): { islands: number; lakes: number } {
  const { columns, rows, values } = posts;
  const across = columns + 2;
  const cells = columns - 1;
  const at = (i: number, j: number) => (j + 1) * across + i + 1;
  const first = across * (rows + 2);
  const isIn = new Uint8Array(first + cells * (rows - 1));
  const inside = (value: number) => (rule === 'above' ? value > level : value >= level);
  const leader = Array.from(isIn, (_, i) => i);
  const led = (i: number): number => (leader[i] === i ? i : led(leader[i]));
  const join = (a: number, b: number) => {
    if (isIn[a] === isIn[b]) leader[led(a)] = led(b);
  };
  for (let j = 0; j < rows; j++)
    for (let i = 0; i < columns; i++) isIn[at(i, j)] = inside(values[j * columns + i]) ? 1 : 0;
  for (let j = 0; j + 1 < rows; j++) {
    for (let i = 0; i < cells; i++) {
      const p = j * columns + i;
      const mean = centreOf(values[p], values[p + 1], values[p + columns], values[p + columns + 1]);
      isIn[first + j * cells + i] = inside(mean) ? 1 : 0;
    }
  }
  for (let j = -1; j <= rows; j++) {
    for (let i = -1; i <= columns; i++) {
      if (i < columns) join(at(i, j), at(i + 1, j));
      if (j < rows) join(at(i, j), at(i, j + 1));
      if (i < 0 || j < 0 || i >= cells || j >= rows - 1) continue;
      const centre = first + j * cells + i;
      for (const corner of [at(i, j), at(i + 1, j), at(i, j + 1), at(i + 1, j + 1)]) join(corner, centre);
    }
  }
  const heads = leader.map((_, i) => i).filter((i) => led(i) === i);
  return {
    islands: heads.filter((i) => isIn[i] === 1).length,
    lakes: heads.filter((i) => isIn[i] === 0).length - 1,
  };
}

const HILL = `
  0 0 0 0 0 0
  0 2 5 3 0 0
  0 1 4 2 1 0
  0 0 0 0 0 0`;

describe('one hill', () => {
  test('one ring, counter-clockwise, with a point on every edge it crosses and nowhere else', () => {
    const rings = contours(drawn(HILL))(1.5, 'above');
    expect(rings).toHaveLength(1);
    expect(ringArea(rings[0])).toBeGreaterThan(0);
    const levels = triangles(drawn(HILL)).filter((t) => t.some((p) => p[2] > 1.5) && t.some((p) => p[2] < 1.5));
    expect(rings[0].length / 2).toBe(levels.length);
  });

  test('a straight slope gives straight, exact lines', () => {
    const posts = drawn('0 10 20 30\n0 10 20 30\n0 10 20 30');
    const [ring] = contours(posts)(12.5, 'above');
    const east = 7 + 3 * 3;
    expect(new Set(ring.filter((_, i) => i % 2 === 0))).toEqual(new Set([7 + 3 * 1.25, east]));
    expect(ringArea(ring)).toBe((east - 10.75) * 10);
  });

  test('nothing above, everything below', () => {
    const at = contours(drawn(HILL));
    expect(at(5, 'above')).toEqual([]);
    expect(at(-1, 'above').map((ring) => [...ring])).toEqual([[7, 11, 22, 11, 22, 26, 7, 26]]);
  });

  test('a single row of posts has no ground', () => {
    expect(contours(drawn('1 2 3'))(1.5, 'above')).toEqual([]);
  });
});

describe('posts exactly on the level', () => {
  test('a plateau at the level is out above it and in at least at it', () => {
    const at = contours(drawn('0 0 0 0 0\n0 4 4 0 0\n0 4 4 4 0\n0 0 0 0 0'));
    expect(at(4, 'above')).toEqual([]);
    // One whole cell of 3 × 5, and half of the one beside it, whose centre is at 3.
    expect(area(at(4, 'at least'))).toBe(15);
    expect(area(at(3.999999, 'above'))).toBeGreaterThan(15);
  });

  test('a single post at the level, a peak or a pit, has no area', () => {
    expect(contours(drawn('1 2 1 0\n2 7 2 0\n1 2 1 0'))(7, 'at least')).toEqual([]);
    const pit = contours(drawn('9 8 9 9\n8 3 8 9\n9 8 9 9'));
    expect(area(pit(3, 'above'))).toBe(90);
    expect(pit(3, 'at least')).toHaveLength(1);
  });

  test('ground at -0 is at 0', () => {
    const at = contours(drawn('-0 -0 0\n0 -0 5'));
    expect(area(at(0, 'at least'))).toBe(30);
    expect(area(at(-0, 'above'))).toBe(area(at(0, 'above')));
  });

  test('32-bit heights meet a level that has been through Math.fround', () => {
    const posts = drawn('0 0 0 0\n0 0.1 0.1 0\n0 0.1 0.1 0', Float32Array.from.bind(Float32Array));
    const at = contours(posts);
    expect(at(Math.fround(0.1), 'above')).toEqual([]);
    expect(area(at(Math.fround(0.1), 'at least'))).toBe(15);
  });
});

describe.each(Array.from({ length: 40 }, (_, i) => i + 1))('random ground, seed %i', (seed) => {
  test('areas are those of the cut triangles', () => {
    for (const levels of [0, 4]) {
      const posts = random(seed, levels);
      const at = contours(posts);
      for (const level of [2, 3.7, 5]) {
        const inTriangles = triangles(posts).reduce((sum, each) => sum + areaAbove(each, level), 0);
        // Flat triangles exactly at the level count as in.
        expect(area(at(level, 'at least'))).toBeCloseTo(inTriangles, 9);
        if (levels === 0) expect(area(at(level, 'above'))).toBeCloseTo(inTriangles, 9);
      }
    }
  });

  test('outlines and holes are as many as the posts hang together in, centres among them', () => {
    const posts = random(seed, 0);
    for (const level of [2, 3.7, 5.5, 8]) {
      const rings = contours(posts)(level, 'above');
      const outer = rings.filter((ring) => ringArea(ring) > 0).length;
      expect({ islands: outer, lakes: rings.length - outer }).toEqual(components(posts, level, 'above'));
    }
  });

  test('posts lie on the side that their value says', () => {
    const posts = random(seed, 0);
    const rings = contours(posts)(4.4, 'above');
    for (let j = 0; j < posts.rows; j++) {
      for (let i = 0; i < posts.columns; i++) {
        // A hair towards the middle of the grid, since a ring may run through a post of its border.
        const x = 7 + 3 * i + (i === 0 ? 1e-9 : i === posts.columns - 1 ? -1e-9 : 0);
        const y = 11 + 5 * j + (j === 0 ? 1e-9 : j === posts.rows - 1 ? -1e-9 : 0);
        expect(isInside(x, y, [rings])).toBe(posts.values[j * posts.columns + i] > 4.4);
      }
    }
  });

  test('what is above turned upside down is the rectangle less what was', () => {
    const posts = random(seed, 4);
    const turned = { ...posts, values: posts.values.map((value) => 3 - value) };
    const whole = (posts.columns - 1) * 3 * (posts.rows - 1) * 5;
    for (const level of [1, 1.3, 2]) {
      const up = area(contours(posts)(level, 'above'));
      const down = area(contours(turned)(3 - level, 'at least'));
      expect(up + down).toBeCloseTo(whole, 9);
    }
  });
});

test('blocks that are skipped hide nothing: a wide grid gives what its parts give', () => {
  const next = stream(3, 'wide');
  const [columns, rows] = [71, 39];
  const values = Float64Array.from({ length: columns * rows }, (_, i) => (i % columns > 40 ? 9 : 0) + 3 * next());
  const posts: Posts = { columns, rows, stepX: 2, stepY: 1.5, originX: 0, originY: 0, values };
  for (const level of [1.1, 4.5, 10.2]) {
    const inTriangles = triangles(posts).reduce((sum, each) => sum + areaAbove(each, level), 0);
    expect(areaOf([contours(posts)(level, 'above')])).toBeCloseTo(inTriangles, 7);
  }
});
