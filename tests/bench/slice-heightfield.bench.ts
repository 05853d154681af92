// 2048 × 2048 posts, 30 levels (noisy: 1), against d3-contour on the same ground. Read the ratios of one run; times depend on the
// machine. What each gives: d3-contour, polygons (outer rings with their holes) in doubles, without centres (half as many
// points), the border chamfered. Outlines: rings in doubles, not sorted. Regions: outer rings with their holes, rounded to
// a thousandth and known to be simple; of the three the one to set beside d3-contour. Layers: regions simplified,
// fitted into one another and looked over, as the plugin makes them.
//
// Ours is measured as it ships, bundled (help/bundled.ts says why). On noisy ground d3-contour takes 9 s a level, and the
// bench runs it three times even so: one level there, and one of ours. The whole file takes about a minute and a half.
import { contours as d3Contours } from 'd3-contour';
import { bench, describe } from 'vitest';
import type * as contour from '../../src/geometry/contour.ts';
import type * as outlineRegions from '../../src/geometry/outline-regions.ts';
import { stream } from '../../src/geometry/random.ts';
import type * as landform from '../../src/model/landform.ts';
import type * as layersOutlines from '../../src/slice/layers/outlines.ts';
import type * as walk from '../../src/walk.ts';
import { bundled } from '../help/bundled.ts';
import { evenLevelsMm } from '../help/levels.ts';

const { contours, heightfield, layerOutlines, regionsOfPosts, walkNow } = await bundled<
  Pick<typeof contour, 'contours'> &
    Pick<typeof landform, 'heightfield'> &
    Pick<typeof layersOutlines, 'layerOutlines'> &
    Pick<typeof outlineRegions, 'regionsOfPosts'> &
    Pick<typeof walk, 'walkNow'>
>({
  contours: './src/geometry/contour.ts',
  heightfield: './src/model/landform.ts',
  layerOutlines: './src/slice/layers/outlines.ts',
  regionsOfPosts: './src/geometry/outline-regions.ts',
  walkNow: './src/walk.ts',
});

const N = 2048;
const STEP_MM = 5;
const options = { iterations: 4, warmupIterations: 2, time: 0, warmupTime: 0 };
const once = { iterations: 1, warmupIterations: 0, time: 0, warmupTime: 0 };
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
  ['smooth', 0, 0, 30],
  ['noisy', 60, 15, 1],
] as const)(`%s ground, ${N} × ${N} posts`, (_, noiseMm, first, count) => {
  const values = ground(noiseMm);
  const posts = { columns: N, rows: N, stepX: STEP_MM, stepY: STEP_MM, originX: 0, originY: 0, values };
  const levels = Array.from({ length: count }, (__, k) => Math.fround(3 + 47 * (first + k)));

  bench(
    'outlines',
    () => {
      const at = contours(posts);
      for (const level of levels) sink += at(level, 'above').length;
    },
    options,
  );
  bench(
    'regions on the grid of a thousandth',
    () => {
      const at = regionsOfPosts(posts);
      for (const level of levels) sink += at(level, 'above').length;
    },
    options,
  );
  bench(
    'layers, simplified',
    () => {
      const field = heightfield(N, N, STEP_MM, STEP_MM, values);
      sink += walkNow(
        layerOutlines(field, Float64Array.from([...levels, levels[count - 1] + 47]), 'proud', 500),
      ).length;
    },
    noiseMm > 0 ? once : options,
  );
  bench(
    'd3-contour',
    () => {
      const work = d3Contours().size([N, N]).smooth(true);
      for (const level of levels) sink += work.contour(values, level).coordinates.length;
    },
    noiseMm > 0 ? once : options,
  );
});

describe.each([12, 30])('512 × 512 posts, loaded, sliced anew into %i layers', (count) => {
  // Lopsided rolling ground, 5.1 m square and 1.4 m high; half a millimetre of simplifying.
  const small = Float32Array.from({ length: 512 * 512 }, (_, i) => {
    const x = (i % 512) / 512;
    const y = Math.floor(i / 512) / 512;
    return 700 + 500 * Math.sin(9 * x + 3 * y) * Math.cos(7 * y - 2 * x) + 190 * Math.sin(17 * x * x + 11 * y);
  });
  const field = heightfield(512, 512, 10, 10, small);
  for (const cut of ['proud', 'shy', 'middle'] as const) {
    bench(
      cut,
      () => {
        const levels = evenLevelsMm(count, 1400 / count);
        sink += walkNow(layerOutlines(field, levels, cut, 500)).length;
      },
      { iterations: 10, warmupIterations: 5, time: 0, warmupTime: 0 },
    );
  }
});

if (sink < 0) throw new Error('keeps the results alive');
