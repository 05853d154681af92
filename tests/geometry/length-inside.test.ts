import { expect, test } from 'vitest';
import { linesInside } from '../../src/geometry/clip.ts';
import { lengthInside } from '../../src/geometry/length-inside.ts';
import { stream } from '../../src/geometry/random.ts';
import { reversed } from '../../src/geometry/ring.ts';
import { blob } from '../help/stacks.ts';

const REGIONS = [
  [blob(900, 700, 800, 620, 57, 3), reversed(blob(860, 740, 310, 230, 23, 43))],
  [blob(2900, 900, 500, 720, 41, 8)],
];

test.each(Array.from({ length: 40 }, (_, seed) => seed))('as clipping has it, seed %i', (seed) => {
  const random = stream(seed, 'segment');
  const at = () => [3600 * random() - 100, 1700 * random() - 100];
  const [[ax, ay], [bx, by]] = [at(), at()];
  let clipped = 0;
  for (const [x, y, u, v] of linesInside([Float64Array.of(ax, ay, bx, by)], REGIONS)) {
    clipped += Math.sqrt((x - u) * (x - u) + (y - v) * (y - v));
  }
  expect(lengthInside(ax, ay, bx, by, REGIONS)).toBeCloseTo(clipped, 1);
});

test('nothing is inside of nothing', () => {
  expect(lengthInside(1, 2, 30, 40, [])).toBe(0);
});
