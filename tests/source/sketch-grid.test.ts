import { expect, test } from 'vitest';
import { MOST_POSTS } from '../../src/model/landform.ts';
import { gridOf } from '../../src/model/post-layout.ts';
import { heightAt } from '../../src/source/sketch/grid.ts';

const GRID = { columns: 5, rows: 4, stepXMm: 30, stepYMm: 17 };
// biome-ignore format: a picture of the ground, south row first
const HEIGHTS = new Float64Array([
  3, 9, 4, 0, 7,
  5, 31, 22, 8, 1,
  6, 18, 44, 13, 2,
  2, 7, 11, 19, 12,
]);

test('a post is its height, the middle of a cell the mean of its posts, the middle of a side the mean of two', () => {
  HEIGHTS.forEach((height, i) => {
    expect(heightAt(GRID, HEIGHTS, (i % 5) * 30, Math.floor(i / 5) * 17)).toBeCloseTo(height, 12);
  });
  expect(heightAt(GRID, HEIGHTS, 45, 25.5)).toBeCloseTo((31 + 22 + 18 + 44) / 4, 12);
  expect(heightAt(GRID, HEIGHTS, 45, 17)).toBeCloseTo((31 + 22) / 2, 12);
  expect(heightAt(GRID, HEIGHTS, 60, 25.5)).toBeCloseTo((22 + 44) / 2, 12);
});

test('in a quarter of a cell it is the plane through two posts and the mean', () => {
  // South-west cell of 3, 9, 5, 31 with mean 12: a point of each triangle, by its weights.
  const at = (u: number, v: number) => heightAt(GRID, HEIGHTS, u * 30, v * 17);
  expect(at(0.4, 0.2)).toBeCloseTo(3 * 0.4 + 9 * 0.2 + 12 * 0.4, 12);
  expect(at(0.6, 0.9)).toBeCloseTo(5 * 0.3 + 31 * 0.5 + 12 * 0.2, 12);
  expect(at(0.1, 0.7)).toBeCloseTo(3 * 0.2 + 5 * 0.6 + 12 * 0.2, 12);
  expect(at(0.8, 0.5)).toBeCloseTo(9 * 0.3 + 31 * 0.3 + 12 * 0.4, 12);
});

test('beside the sketch it is the nearest edge', () => {
  expect(heightAt(GRID, HEIGHTS, -50, 17)).toBe(5);
  expect(heightAt(GRID, HEIGHTS, 500, -3)).toBe(7);
  expect(heightAt(GRID, HEIGHTS, 75, 900)).toBeCloseTo(15, 12);
});

test('posts number at most MOST_POSTS and at least two a side', () => {
  const [width, depth] = [9999, 9998];
  expect(gridOf([width, depth], 1)).toMatchObject({ columns: 10000, rows: 9999 });
  expect(10000 * 9999).toBeLessThan(MOST_POSTS);
  expect(gridOf([width + 2, depth + 2], 1)).toBeNull();
  expect(gridOf([1e8, 1e8], 1e-300)).toBeNull();
  expect(gridOf([30, 50], 400)).toEqual({ columns: 2, rows: 2, stepXMm: 30, stepYMm: 50 });
});
