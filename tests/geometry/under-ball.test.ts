import { describe, expect, it } from 'vitest';
import { stream } from '../../src/geometry/random.ts';
import { underBall } from '../../src/geometry/under-ball.ts';
import { walkNow } from '../../src/walk.ts';

const grid = (columns: number, rows: number, stepX: number, stepY: number) => ({
  across: columns - 1,
  up: rows - 1,
  stepX,
  stepY,
  originX: 0,
  originY: 0,
});
type Grid = ReturnType<typeof grid>;
const heightsOf = (g: Grid, at: (x: number, y: number) => number) =>
  Float64Array.from({ length: (g.across + 1) * (g.up + 1) }, (_, i) =>
    at((i % (g.across + 1)) * g.stepX, Math.floor(i / (g.across + 1)) * g.stepY),
  );
const under = (heights: Float64Array, g: Grid, radius: number, used: Uint8Array | null = null) =>
  walkNow(underBall(heights, g, used, radius)) as Float64Array;

/** Distance from a point to a triangle, by the closest of its inside, edges and corners, found by projecting. */
function distanceTo(p: readonly number[], a: readonly number[], b: readonly number[], c: readonly number[]): number {
  const minus = (u: readonly number[], v: readonly number[]) => u.map((value, k) => value - v[k]);
  const dot = (u: readonly number[], v: readonly number[]) => u.reduce((sum, value, k) => sum + value * v[k], 0);
  const [ab, ac, ap] = [minus(b, a), minus(c, a), minus(p, a)];
  const [d11, d12, d22, d1, d2] = [dot(ab, ab), dot(ab, ac), dot(ac, ac), dot(ap, ab), dot(ap, ac)];
  const det = d11 * d22 - d12 * d12;
  const [s, t] = [(d22 * d1 - d12 * d2) / det, (d11 * d2 - d12 * d1) / det];
  if (s >= 0 && t >= 0 && s + t <= 1) return Math.sqrt(Math.max(0, dot(ap, ap) - s * d1 - t * d2));
  return Math.min(
    ...[
      [a, b],
      [b, c],
      [c, a],
    ].map(([from, to]) => {
      const along = minus(to, from);
      const share = Math.max(0, Math.min(1, dot(minus(p, from), along) / dot(along, along)));
      const off = minus(
        p,
        from.map((value, k) => value + share * along[k]),
      );
      return Math.sqrt(dot(off, off));
    }),
  );
}

/** Distance from a point to the nearest of all four triangles of every cell. */
function distanceToGround(p: readonly number[], heights: Float64Array, { across, up, stepX, stepY }: Grid): number {
  let least = Infinity;
  for (let row = 0; row < up; row++) {
    for (let column = 0; column < across; column++) {
      const at = row * (across + 1) + column;
      const corners = [
        [0, 0, heights[at]],
        [1, 0, heights[at + 1]],
        [1, 1, heights[at + across + 2]],
        [0, 1, heights[at + across + 1]],
      ].map(([x, y, z]) => [(column + x) * stepX, (row + y) * stepY, z]);
      const middle = [0, 1, 2].map((k) => corners.reduce((sum, corner) => sum + corner[k], 0) / 4);
      for (let k = 0; k < 4; k++) least = Math.min(least, distanceTo(p, corners[k], corners[(k + 1) % 4], middle));
    }
  }
  return least;
}

describe('ground lowered by a ball', () => {
  it.each([
    [1, 17],
    [2, 33],
    [3, 61],
  ])('on rough ground %i every post lies exactly the radius from the ground: %i mm', (seed, radius) => {
    const random = stream(seed, 'ground');
    const g = grid(11, 8, 20, 35);
    const heights = heightsOf(g, () => 200 * random());
    const lowered = under(heights, g, radius);
    for (let i = 0; i < heights.length; i++) {
      const at = [(i % 11) * 20, Math.floor(i / 11) * 35, lowered[i]];
      expect(distanceToGround(at, heights, g)).toBeCloseTo(radius, 6);
      expect(lowered[i]).toBeLessThanOrEqual(heights[i] - radius);
    }
  });

  it('a plane goes straight down by radius ÷ cosine of its slope, away from the rim', () => {
    const g = grid(30, 22, 10, 14);
    const plane = heightsOf(g, (x, y) => 300 + 0.75 * x - 0.4 * y);
    const lowered = under(plane, g, 24);
    const down = 24 * Math.sqrt(1 + 0.75 * 0.75 + 0.4 * 0.4);
    for (let row = 5; row < 17; row++) {
      for (let column = 5; column < 25; column++)
        expect(plane[row * 30 + column] - lowered[row * 30 + column]).toBeCloseTo(down, 9);
    }
  });

  it('a spherical cap shrinks to one of a radius less by the ball, to the sag of its flat triangles', () => {
    const g = grid(61, 61, 5, 5);
    const sphere = (radius: number) => (x: number, y: number) =>
      Math.sqrt(Math.max(0, radius * radius - (x - 150) * (x - 150) - (y - 150) * (y - 150)));
    const lowered = under(heightsOf(g, sphere(500)), g, 40);
    const wanted = heightsOf(g, sphere(460));
    // Sag of a chord of 5√2 mm on a circle of 500 mm: 50 / (8 × 500) mm, and what 40 mm inward makes of it: nearly the same.
    for (let row = 10; row <= 50; row++) {
      for (let column = 10; column <= 50; column++) {
        const off = lowered[row * 61 + column] - wanted[row * 61 + column];
        expect(off).toBeLessThan(1e-9);
        expect(off).toBeGreaterThan(-0.02);
      }
    }
  });

  it('behind a cliff the foam keeps the radius from its foot and its face', () => {
    const g = grid(41, 9, 5, 5);
    const cliff = heightsOf(g, (x) => (x <= 100 ? 200 : 50));
    const lowered = under(cliff, g, 30);
    const at = (x: number) => lowered[4 * 41 + x / 5];
    expect(at(40)).toBe(170);
    // Nearer than the radius to the face, which leans from (100, 200) to (105, 50): down to the foot's level less the circle.
    expect(at(100)).toBeCloseTo(50 - Math.sqrt(900 - 25), 9);
    expect(at(80)).toBeCloseTo(50 - Math.sqrt(900 - 625), 9);
    expect(at(150)).toBe(20);
  });

  it('what is no ground lowers nothing', () => {
    const g = grid(9, 9, 10, 10);
    const pit = heightsOf(g, (x) => (x >= 60 ? 0 : 100));
    const used = Uint8Array.from({ length: 64 }, (_, cell) => (cell % 8 < 5 ? 1 : 0));
    expect(under(pit, g, 25, used)[4 * 9 + 5]).toBe(75);
    expect(under(pit, g, 25)[4 * 9 + 5]).toBeLessThan(0);
  });
});
