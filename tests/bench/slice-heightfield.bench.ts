// 2048 × 2048 posts, 30 levels, against d3-contour on the same ground. Read the ratios of one run; the times depend on the
// machine. d3-contour has no centres (half as many points), chamfers the border, neither snaps nor simplifies: the nearest
// to it is "outlines, sorted into regions".
import { contours as d3Contours } from 'd3-contour';
import { bench, describe } from 'vitest';
import { arrange } from '../../src/geometry/arrange.ts';
import { contours } from '../../src/geometry/contour.ts';
import { stream } from '../../src/geometry/random.ts';
import { toWhole } from '../../src/geometry/whole.ts';
import { heightfield } from '../../src/model/landform.ts';
import { layerOutlines } from '../../src/slice/layers/outlines.ts';
import { walkNow } from '../../src/walk.ts';
import { evenLevelsMm } from '../help/levels.ts';

const N = 2048;
const LAYERS = 30;
const STEP_MM = 5;
const options = { iterations: 2, warmupIterations: 0, time: 0, warmupTime: 0 };
let sink = 0;

/** Rolling ground 0 to 1.4 m, with noise of so many millimetres on every post. */
function ground(noiseMm: number): Float32Array {
  const next = stream(5, 'bench', noiseMm);
  return Float32Array.from({ length: N * N }, (_, i) => {
    const x = (i % N) / N;
    const y = Math.floor(i / N) / N;
    const rolling =
      500 * Math.sin(17 * x + 5 * y) * Math.cos(13 * y - 4 * x) + 200 * Math.sin(41 * x) * Math.sin(37 * y);
    return 700 + rolling + noiseMm * (next() - 0.5);
  });
}

describe.each([
  ['smooth', 0],
  ['noisy', 60],
] as const)(`%s ground, ${N} × ${N} posts, ${LAYERS} levels`, (_, noiseMm) => {
  const values = ground(noiseMm);
  const posts = { columns: N, rows: N, stepX: STEP_MM, stepY: STEP_MM, originX: 0, originY: 0, values };
  const levels = Array.from({ length: LAYERS }, (__, k) => Math.fround(3 + 47 * k));

  bench(
    'outlines',
    () => {
      const at = contours(posts);
      for (const level of levels) sink += at(level, 'above').length;
    },
    options,
  );
  bench(
    'outlines, sorted into regions on the grid of a thousandth',
    () => {
      const at = contours(posts);
      for (const level of levels) sink += arrange(toWhole(at(level, 'above'))).length;
    },
    options,
  );
  // Noise has nothing to simplify.
  bench.skipIf(noiseMm > 0)(
    'layers, simplified',
    () => {
      const field = heightfield(N, N, STEP_MM, STEP_MM, values);
      sink += walkNow(layerOutlines(field, evenLevelsMm(LAYERS, 47), 'proud', 500)).length;
    },
    options,
  );
  bench(
    'd3-contour',
    () => {
      const work = d3Contours().size([N, N]).smooth(true);
      for (const level of levels) sink += work.contour(values, level).coordinates.length;
    },
    { ...options, iterations: 1 },
  );
});

if (sink < 0) throw new Error('keeps the results alive');
