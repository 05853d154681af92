import { expect, test } from 'vitest';
import { ears } from '../../src/geometry/ears.ts';
import { stream } from '../../src/geometry/random.ts';
import { ringArea } from '../../src/geometry/ring.ts';

/** Areas of the triangles, all of the polygon's sense, add up to its own; every edge inside is run both ways. */
function isDivision(points: Float64Array): void {
  const corners = ears(points);
  const n = points.length / 2;
  expect(corners.length).toBe(3 * (n - 2));
  const whole = ringArea(points);
  let sum = 0;
  const edges = new Map<string, number>();
  for (let i = 0; i < corners.length; i += 3) {
    const triangle = corners.slice(i, i + 3);
    const area = ringArea(Float64Array.from(triangle.flatMap((v) => [points[2 * v], points[2 * v + 1]])));
    expect(area * Math.sign(whole)).toBeGreaterThanOrEqual(-1e-9);
    sum += area;
    triangle.forEach((v, k) => {
      const w = triangle[(k + 1) % 3];
      const key = v < w ? `${v} ${w}` : `${w} ${v}`;
      edges.set(key, (edges.get(key) ?? 0) + (v < w ? 1 : -1));
    });
  }
  expect(sum).toBeCloseTo(whole, 8);
  const outline = [...edges].filter(([, net]) => net !== 0).map(([key]) => key);
  expect(outline.length).toBe(n);
}

test('stars of any number of points, either sense', () => {
  const random = stream(3, 'stars');
  for (let n = 3; n < 40; n++) {
    const star = Array.from({ length: n }, (_, i) => {
      const radius = 5 + 40 * random();
      return [7 + radius * Math.cos((2 * Math.PI * i) / n), 3 + radius * Math.sin((2 * Math.PI * i) / n)];
    });
    isDivision(Float64Array.from(star.flat()));
    isDivision(Float64Array.from(star.reverse().flat()));
  }
});

test('corners on straight edges are kept', () => {
  isDivision(Float64Array.from([0, 0, 3, 0, 8, 0, 11, 0, 11, 7, 6, 7, 6, 4, 2, 4, 0, 4, 0, 1]));
});

test('a spiral of two hundred corners', () => {
  const inner: number[][] = [];
  const outer: number[][] = [];
  for (let i = 0; i < 100; i++) {
    const turn = i / 6;
    outer.push([(10 + i) * Math.cos(turn), (10 + i) * Math.sin(turn)]);
    inner.push([(6 + i) * Math.cos(turn), (6 + i) * Math.sin(turn)]);
  }
  isDivision(Float64Array.from([...outer, ...inner.reverse()].flat()));
});

test('a polygon that crosses itself still ends', () => {
  expect(ears([0, 0, 9, 7, 9, 0, 0, 6, 4, 1]).length).toBe(9);
  expect(ears([0, 0, 0, 0, 0, 0, 0, 0]).length).toBe(6);
});
