/**
 * Outlines against those of d3-contour 4 (https://github.com/d3/d3-contour, ISC licence), an independent implementation
 * of marching squares. Its post (column, row) stands at (column + ½, row + ½), and it runs straight across a cell where
 * four triangles bend. Where every cell is flat the two must agree in everything; elsewhere on every edge between posts.
 */
import { contours as d3Contours } from 'd3-contour';
import { describe, expect, test } from 'vitest';
import { contours, type Posts } from '../../src/geometry/contour.ts';
import { stream } from '../../src/geometry/random.ts';
import { type Ring, ringArea } from '../../src/geometry/ring.ts';

const LOW = -1000;

/** Its rings of a ground, less its half cell, in posts: outer ones and holes. */
function theirs({ columns, rows, values }: Posts, level: number): Ring[] {
  const { coordinates } = d3Contours().size([columns, rows]).smooth(true).contour(values, level);
  return coordinates.flat().map((ring) => Float64Array.from(ring.slice(0, -1).flatMap(([x, y]) => [x - 0.5, y - 0.5])));
}

const sizes = (rings: readonly Ring[]) => rings.map((ring) => Math.abs(ringArea(ring))).sort((a, b) => a - b);

/** Points that lie on an edge between two posts, west to east. */
const onEdges = (rings: readonly Ring[]): number[][] =>
  rings
    .flatMap((ring) => Array.from({ length: ring.length / 2 }, (_, i) => [ring[2 * i], ring[2 * i + 1]]))
    .filter(([x, y]) => Math.abs(x - Math.round(x)) < 1e-9 || Math.abs(y - Math.round(y)) < 1e-9)
    .sort(([ax, ay], [bx, by]) => (Math.abs(ax - bx) > 1e-9 ? ax - bx : ay - by));

function expectSame(ours: number[][], others: number[][]): void {
  expect(ours.length).toBe(others.length);
  for (const [i, [x, y]] of ours.entries()) {
    expect(Math.abs(x - others[i][0])).toBeLessThan(1e-9);
    expect(Math.abs(y - others[i][1])).toBeLessThan(1e-9);
  }
}

const posts = (columns: number, rows: number, height: (column: number, row: number) => number): Posts => {
  // Low all round, so that no outline meets the border, where the two differ on purpose.
  const isRim = (column: number, row: number) => column % (columns - 1) === 0 || row % (rows - 1) === 0;
  const values = Float64Array.from({ length: columns * rows }, (_, i) => {
    const [column, row] = [i % columns, Math.floor(i / columns)];
    return isRim(column, row) ? LOW : height(column, row);
  });
  return { columns, rows, stepX: 1, stepY: 1, originX: 0, originY: 0, values };
};

describe.each(Array.from({ length: 20 }, (_, i) => i + 1))('seed %i', (seed) => {
  const next = stream(seed, 'd3');
  const [columns, rows] = [23, 17];

  test('flat cells: the same rings, areas to 1e-9, points on edges to 1e-9', () => {
    // A sum of a profile along x and one along y has no bend within a cell. Its ends are low, so it is its own rim.
    const along = Array.from({ length: columns }, (_, i) => (i % (columns - 1) === 0 ? LOW : 10 * next()));
    const across = Array.from({ length: rows }, (_, i) => (i % (rows - 1) === 0 ? LOW : 10 * next()));
    const values = Float64Array.from(
      { length: columns * rows },
      (_, i) => along[i % columns] + across[Math.floor(i / columns)],
    );
    const ground: Posts = { columns, rows, stepX: 1, stepY: 1, originX: 0, originY: 0, values };
    for (const level of [5.1, 9.7, 12.3]) {
      const ours = contours(ground)(level, 'above');
      const others = theirs(ground, level);
      expect(others.length).toBeGreaterThan(0);
      expect(ours.length).toBe(others.length);
      const areas = sizes(others);
      for (const [i, area] of sizes(ours).entries()) expect(Math.abs(area - areas[i])).toBeLessThan(1e-9);
      expectSame(onEdges(ours), onEdges(others));
    }
  });

  test('any ground: the same points on every edge between posts', () => {
    const ground = posts(columns, rows, () => 10 * next());
    for (const level of [2.3, 5.1, 8.8]) {
      const middle = onEdges(contours(ground)(level, 'above'));
      expect(middle.length).toBeGreaterThan(0);
      // What lies on an edge to the centre lies on no other: rows and columns of posts are whole numbers.
      expectSame(middle, onEdges(theirs(ground, level)));
    }
  });
});
