import { describe, expect, test } from 'vitest';
import { stream } from '../../src/geometry/random.ts';
import { areaOf } from '../../src/geometry/ring.ts';
import { groundOf } from '../../src/model/ground.ts';
import { groundBetween } from '../../src/model/ground-between.ts';
import { heightOf } from '../../src/model/ground-height.ts';
import { type Heightfield, heightfield, type Landform } from '../../src/model/landform.ts';
import type { LayerStack } from '../../src/model/layer.ts';
import type { Cut } from '../../src/slice/layers/levels.ts';
import { layerOutlines } from '../../src/slice/layers/outlines.ts';
import { walkNow } from '../../src/walk.ts';
import { deviationRaster } from '../../src/workshop/deviation/raster.ts';
import { deviationOf } from '../../src/workshop/deviation.ts';
import { roughGround } from '../help/grounds.ts';
import { evenLevelsMm } from '../help/levels.ts';
import { fieldSolid, MUSHROOM } from '../help/solids.ts';

function stackOf(landform: Landform, layers: number, thicknessMm: number, cut: Cut, simplifyUm = 0): LayerStack {
  const levels = evenLevelsMm(layers, thicknessMm);
  const outlines = walkNow(layerOutlines(landform, levels, cut, simplifyUm));
  while (outlines.at(-1)?.length === 0) outlines.pop();
  return {
    kind: 'flat',
    layers: outlines.map((regions, k) => ({ number: k + 1, bottomMm: levels[k], thicknessMm, regions })),
  };
}

/** A cone of 1 m, 0.5 m high, on posts in unlike steps with none in the middle; it goes on below 0, off the ground. */
function cone(stepMm: number): Heightfield {
  const columns = Math.ceil(2260 / stepMm);
  const rows = Math.ceil(2140 / (1.13 * stepMm));
  const heights = Float64Array.from({ length: columns * rows }, (_, i) => {
    const x = ((i % columns) * stepMm - 1128) / 1000;
    const y = (Math.floor(i / columns) * 1.13 * stepMm - 1069) / 1000;
    return 500 * (1 - Math.sqrt(x * x + y * y));
  });
  return heightfield(columns, rows, stepMm, 1.13 * stepMm, heights);
}

describe('a cone of ten boards, R = 1 m, H = 0.5 m', () => {
  // Closed forms: V = πR²H/3 = 0.523599 m³; stacks outer 0.604757, inner 0.447677 (prism sums of A(z) = πr²). The steps of a
  // shy stack take 0.075922 m³ to fill. A step's corner stands t · cos θ square to the slope: 50 · cos(26.565°) = 44.72 mm.
  const ground = cone(10);
  test('cut proud, what is carved off is the outer stack less the cone', async () => {
    const deviation = await deviationOf(ground, stackOf(ground, 10, 50, 'proud'));
    expect((deviation?.carveMm3 ?? 0) / 1e9).toBeCloseTo(0.604757 - 0.523599, 3);
    expect(deviation?.fillMm3).toBeLessThan(1e3);
    expect(deviation?.largestStep?.mm).toBeCloseTo(44.72, 0);
  });
  test('cut shy, what is filled is the cone less the inner stack', async () => {
    const deviation = await deviationOf(ground, stackOf(ground, 10, 50, 'shy'));
    expect((deviation?.fillMm3 ?? 0) / 1e9).toBeCloseTo(0.075922, 3);
    expect(deviation?.carveMm3).toBeLessThan(1e3);
    expect(deviation?.largestStep?.mm).toBeCloseTo(44.72, 0);
  });
  test('cut in the middle, half a step is carved and half is filled, and the corners stand out half as far', async () => {
    const {
      carveMm3 = 0,
      fillMm3 = 0,
      largestStep,
    } = (await deviationOf(ground, stackOf(ground, 10, 50, 'middle'))) ?? {};
    expect((carveMm3 - fillMm3) / 1e9).toBeCloseTo(0.52229 - 0.523599, 4);
    // Each is about a quarter of a proud stack's carving, as half the step is half as deep.
    expect(carveMm3 / 1e9).toBeCloseTo((0.604757 - 0.523599) / 4, 2);
    expect(largestStep?.mm).toBeCloseTo(22.36, 0);
  });
});

describe.each([3, 11, 29])('rough ground, seed %i', (seed) => {
  const ground = roughGround(seed, 12, 9);
  const stacks = (['proud', 'shy', 'middle'] as const).map((cut) => [cut, stackOf(ground, 10, 25, cut)] as const);

  test.each(stacks)('%s: carve less fill is foam less ground, layer by layer and in all', async (_, stack) => {
    const deviation = await deviationOf(ground, stack);
    const foam = stack.layers.reduce((sum, { regions, thicknessMm }) => sum + areaOf(regions) * thicknessMm, 0);
    const difference = (deviation?.carveMm3 ?? 0) - (deviation?.fillMm3 ?? 0);
    expect(difference / foam).toBeCloseTo((foam - groundOf(ground).volumeMm3) / foam, 9);
    for (const [k, layer] of (deviation?.layers ?? []).entries()) {
      const { regions, bottomMm, thicknessMm } = stack.layers[k];
      const inLayer = groundBetween(ground, bottomMm, bottomMm + thicknessMm);
      expect((layer.carveMm3 - layer.fillMm3) / foam).toBeCloseTo((areaOf(regions) * thicknessMm - inLayer) / foam, 9);
    }
  });

  test('the same ground as a solid is carved and filled the same', async () => {
    for (const [cut, stack] of stacks) {
      const asField = await deviationOf(ground, stack);
      const asSolid = await deviationOf(fieldSolid(ground), stack);
      const foam = groundOf(ground).volumeMm3;
      // Sections: of rough ground within a layer to about a hundredth.
      const digits = cut === 'middle' ? 2 : 6;
      expect((asSolid?.carveMm3 ?? 0) / foam).toBeCloseTo((asField?.carveMm3 ?? 0) / foam, digits);
      expect((asSolid?.fillMm3 ?? 0) / foam).toBeCloseTo((asField?.fillMm3 ?? 0) / foam, digits);
      expect(Math.abs((asSolid?.largestStep?.mm ?? 0) - (asField?.largestStep?.mm ?? 0))).toBeLessThan(0.01);
    }
  });
});

test('slabs of ground add up to the ground, footprint with a hole', () => {
  const whole = roughGround(7, 14, 11);
  const footprint = [
    [new Float64Array([13, 21, 244, 37, 251, 333, 41, 318]), new Float64Array([102, 111, 97, 207, 171, 214, 168, 104])],
  ];
  const ground = { ...whole, footprint };
  let sum = 0;
  for (let z = 0; z < 240; z += 17) sum += groundBetween(ground, z, z + 17);
  const { volumeMm3 } = groundOf(ground);
  expect(sum / volumeMm3).toBeCloseTo(1, 10);
});

test('an overhanging solid cut proud has nothing to fill, cut shy nothing to carve', async () => {
  for (const cut of ['proud', 'shy'] as const) {
    const stack = stackOf(MUSHROOM, 6, 10, cut);
    const deviation = await deviationOf(MUSHROOM, stack);
    const foam = stack.layers.reduce((sum, { regions, thicknessMm }) => sum + areaOf(regions) * thicknessMm, 0);
    const { volumeMm3 } = groundOf(MUSHROOM);
    const [none, all] = cut === 'proud' ? (['fillMm3', 'carveMm3'] as const) : (['carveMm3', 'fillMm3'] as const);
    expect((deviation?.[none] ?? 1) / volumeMm3).toBeLessThan(2e-3);
    expect((deviation?.[all] ?? 0) / volumeMm3).toBeCloseTo(Math.abs(foam - volumeMm3) / volumeMm3, 2);
  }
});

describe('seen from above', () => {
  const ground = roughGround(23, 14, 11);
  const over = (cut: Cut) => {
    const { layers } = stackOf(ground, 10, 25, cut);
    const { heightsMm, stepMm } = deviationRaster(ground, layers, 400);
    return { heights: Array.from(heightsMm), cellMm2: stepMm * stepMm };
  };
  test('foam cut proud stands nowhere under the ground, and less than a board over it', () => {
    const { heights } = over('proud');
    // At a corner between two cells a centre may fall to either side.
    expect(heights.filter((mm) => mm < -0.01 || mm > 25.01).length / heights.length).toBeLessThan(0.001);
    expect(heights.some((mm) => mm > 20)).toBe(true);
  });
  test('foam cut shy stands nowhere over it', () => {
    const { heights } = over('shy');
    expect(heights.filter((mm) => mm > 0.01 || mm < -25.01).length / heights.length).toBeLessThan(0.001);
    expect(heights.some((mm) => mm < -20)).toBe(true);
  });
  test('summed up, it is what is carved less what is filled', async () => {
    for (const cut of ['proud', 'shy', 'middle'] as const) {
      const { heights, cellMm2 } = over(cut);
      const { carveMm3 = 0, fillMm3 = 0 } = (await deviationOf(ground, stackOf(ground, 10, 25, cut))) ?? {};
      const { volumeMm3 } = groundOf(ground);
      expect((heights.reduce((sum, mm) => sum + mm, 0) * cellMm2) / volumeMm3).toBeCloseTo(
        (carveMm3 - fillMm3) / volumeMm3,
        2,
      );
    }
  });
});

test('ribs that stand upright are not compared', async () => {
  const ground = roughGround(5);
  const { layers } = stackOf(ground, 10, 25, 'proud');
  expect(await deviationOf(ground, { kind: 'upright', layers })).toBeNull();
});

test('the height of the ground at a place is that of its four triangles', () => {
  const ground = roughGround(17);
  const random = stream(17, 'places');
  const { columns, stepXMm, stepYMm, heightsMm: h } = ground;
  for (let n = 0; n < 200; n++) {
    const [column, row] = [Math.floor(7.9 * random()), Math.floor(5.9 * random())];
    const at = row * columns + column;
    const middle = (h[at] + h[at + 1] + h[at + columns] + h[at + columns + 1]) / 4;
    // A random place on the southern triangle, as a mix of its corners.
    const [s, t] = [random(), random()].sort();
    const [a, b, c] = [s, t - s, 1 - t];
    const x = (column + b + c / 2) * stepXMm;
    const y = (row + c / 2) * stepYMm;
    expect(heightOf(ground, x, y)).toBeCloseTo(a * h[at] + b * h[at + 1] + c * middle, 9);
  }
});
