import { describe, expect, test } from 'vitest';
import { linesInside, offset } from '../../src/geometry/clip.ts';
import { stream } from '../../src/geometry/random.ts';
import { boxOf, distanceToRings, moved, type Region, type Ring, rectangle, reversed } from '../../src/geometry/ring.ts';
import { WaysBetween } from '../../src/geometry/ways-between.ts';
import { lopsided } from '../help/nesting.ts';

const ends = (line: Float64Array) => [line.slice(0, 2), line.slice(-2)];

/** A way begins on the edge, ends on its shape and cuts into none, half its width included. */
function expectSound(line: Float64Array, shape: number, shapes: readonly Region[], edge: Ring, width: number): void {
  const [from, to] = ends(line);
  expect(distanceToRings(from[0], from[1], [edge])).toBeLessThan(1e-6);
  expect(distanceToRings(to[0], to[1], shapes[shape])).toBeLessThan(0.6);
  const thin = offset(shapes, -0.6);
  expect(linesInside([line], thin)).toEqual([]);
  const others = shapes.filter((_, i) => i !== shape);
  const grown = offset(others, width / 2 - 0.6, { joins: 'miter' });
  const inside = linesInside([line], grown).filter((each) =>
    ends(each).some(([x, y]) => distanceToRings(x, y, [edge]) > width),
  );
  expect(inside).toEqual([]);
}

describe('ways to shapes', () => {
  test('straight to what stands near the edge; round others to what stands behind them', () => {
    const edge = rectangle(0, 0, 600, 400);
    const shapes: Region[] = [
      [rectangle(100, 20, 300, 380)],
      [rectangle(20, 20, 90, 380)],
      // Fenced in: one narrow lane between the two that stand around it.
      [
        new Float64Array([
          310, 20, 580, 20, 580, 380, 450, 380, 450, 365, 565, 365, 565, 35, 325, 35, 325, 365, 438, 365, 438, 380, 310,
          380,
        ]),
      ],
      [rectangle(350, 60, 540, 340)],
    ];
    const ways = new WaysBetween(shapes, [edge], { room: 10, width: 2 }).fromEdge();
    expect(ways.map(({ shape }) => shape)).toEqual([0, 1, 2, 3]);
    for (const { shape, line } of ways) expectSound(line, shape, shapes, edge, 2);
    expect(ways[1].line).toHaveLength(4);
    // In by the lane at the top, as the only way there is.
    expect(ways[3].line[0]).toBeGreaterThan(425);
    expect(ways[3].line[0]).toBeLessThan(463);
    expect(ways[3].line[1]).toBe(400);
  });

  test('none where the lane is narrower than the cut, nor into a hole', () => {
    const edge = rectangle(0, 0, 300, 300);
    const ring: Region = [rectangle(20, 20, 280, 280), reversed(rectangle(40, 40, 260, 260))];
    const shapes = [ring, [rectangle(60, 60, 200, 200)]];
    const made = new WaysBetween(shapes, [edge], { room: 8, width: 2 });
    expect(made.fromEdge().map(({ shape }) => shape)).toEqual([0]);
    const inner = made.from([[260, 150]], 1);
    expect(inner && [...inner.line.slice(0, 2)]).toEqual([260, 150]);
    expect(
      inner && distanceToRings(inner.line[inner.line.length - 2], inner.line[inner.line.length - 1], shapes[1]),
    ).toBeLessThan(1e-6);
    const jar = (mouth: number): Region => [
      new Float64Array([
        20,
        20,
        280,
        20,
        280,
        280,
        150 + mouth,
        280,
        150 + mouth,
        260,
        260,
        260,
        260,
        40,
        40,
        40,
        40,
        260,
        150,
        260,
        150,
        280,
        20,
        280,
      ]),
    ];
    const through = (mouth: number) =>
      new WaysBetween([jar(mouth), [rectangle(60, 60, 200, 200)]], [edge], { room: 8, width: 5 }).fromEdge().length;
    expect(through(3)).toBe(1);
    expect(through(16)).toBe(2);
  });

  test.each([1, 2, 3, 4])('through any rows of lopsided outlines, seed %i', (seed) => {
    const random = stream(seed, 'ways');
    const shapes: Region[] = [];
    let [x, y, high] = [4, 4, 0];
    for (let i = 0; i < 14; i++) {
      const region = lopsided(random, 420, 80).slice(0, 1);
      const [minX, minY, maxX, maxY] = boxOf(region);
      if (x + maxX - minX > 1200) [x, y, high] = [4, y + high + 7, 0];
      shapes.push(region.map((ring) => moved(ring, x - minX, y - minY)));
      x += maxX - minX + 7;
      high = Math.max(high, maxY - minY);
    }
    const edge = rectangle(0, 0, 1240, y + high + 3);
    const ways = new WaysBetween(shapes, [edge], { room: 7, width: 2 }).fromEdge();
    expect(ways.map(({ shape }) => shape)).toEqual(shapes.map((_, i) => i));
    for (const { shape, line } of ways) expectSound(line, shape, shapes, edge, 2);
  });

  test('none of nothing', () => {
    expect(new WaysBetween([], [rectangle(0, 0, 5, 4)], { room: 7, width: 2 }).fromEdge()).toEqual([]);
  });
});
