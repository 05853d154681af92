// A smooth surface through what is given, on 600 × 400 posts and on a quarter of them: time should go with the posts.
// The printed misses say that what is timed is also right.
import { bench, describe } from 'vitest';
import { stream } from '../../src/geometry/random.ts';
import { type Given, surfaceThrough } from '../../src/geometry/surface.ts';
import { walkNow } from '../../src/walk.ts';

const options = { iterations: 3, warmupIterations: 1, time: 0, warmupTime: 0 };
const NONE: Given = { spots: new Float64Array(0), lines: [], creases: [], tears: [] };
let sink = 0;

/** Twelve lobed contours of a hill 6 × 4 m, 20,000 points in all. */
const hill = Array.from({ length: 12 }, (_, k) => {
  const count = 1667;
  const line = new Float64Array(3 * (count + 1));
  for (let i = 0; i <= count; i++) {
    const angle = (2 * Math.PI * (i % count)) / count;
    const radius = 150 * (k + 1) * (1 + 0.12 * Math.sin(3 * angle + 1));
    line.set([2900 + radius * Math.cos(angle), 1900 + radius * Math.sin(angle), 1200 - 100 * k], 3 * i);
  }
  return line;
});
const next = stream(3, 'bench', 0);
const survey = Float64Array.from({ length: 3 * 1000 }, (_, i) => next() * [5990, 3990, 500][i % 3]);

describe.each([
  ['12 contours of 20,000 points', { ...NONE, lines: hill }],
  ['1000 spots', { ...NONE, spots: survey }],
] as const)('%s', (_, given) => {
  for (const [columns, rows, step] of [
    [600, 400, 10],
    [300, 200, 20],
  ]) {
    const grid = { columns, rows, stepX: step, stepY: step, originX: 0, originY: 0 };
    bench(`${columns} × ${rows} posts`, () => void (sink += walkNow(surfaceThrough(given, grid)).worst.off), options);
  }
});

if (Number.isNaN(sink)) throw new Error('unreachable: keeps the result alive');
