import { describe, expect, test } from 'vitest';
import type { Finding } from '../../src/findings.ts';
import { centreOf } from '../../src/geometry/contour.ts';
import { stream } from '../../src/geometry/random.ts';
import { areaOf, boxOf, distanceToRings, isInside, type Region, rectangle, ringsOf } from '../../src/geometry/ring.ts';
import { makeKit } from '../../src/job/kit.ts';
import { type Heightfield, heightfield, type Landform } from '../../src/model/landform.ts';
import type { LayerStack } from '../../src/model/layer.ts';
import { layers } from '../../src/slice/layers.ts';
import { walkNow } from '../../src/walk.ts';
import { boardFacts } from '../help/board-facts.ts';
import { wedge } from '../help/grounds.ts';
import { refusal } from '../help/plugin-run.ts';
import { crossingIn, sticksOut } from '../help/random-rings.ts';

interface Sliced extends LayerStack {
  readonly findings: readonly Finding[];
}

function slice(landform: Landform, written: Record<string, unknown> = {}, thicknessesMm: number[] = [50]): Sliced {
  const findings: Finding[] = [];
  const context = {
    facts: boardFacts(thicknessesMm),
    tell: (finding: Finding) => void findings.push(finding),
    random: stream(1, 'slice', 0),
  };
  const stack = walkNow(layers.run(landform, layers.options(makeKit('mm')).parse(written), context));
  return { ...(stack as LayerStack), findings };
}

const areas = ({ layers: stack }: LayerStack) => stack.map(({ regions }) => areaOf(regions));
const volume = (stack: LayerStack) =>
  stack.layers.reduce((sum, { regions, thicknessMm }) => sum + areaOf(regions) * thicknessMm, 0);
const whole = (regions: readonly Region[]) =>
  regions.map((region) => region.map((ring) => ring.map((v) => Math.round(v * 1000))));

/** Rough ground, 15 × 11 posts, 20.4 by 17.3 mm apart, 5 to 265 mm high; on some of it many posts lie on levels. */
function rough(seed: number, isStepped = seed % 2 === 0): Heightfield {
  const next = stream(seed, 'layers');
  const [columns, rows] = [15, 11];
  const heights = Float64Array.from({ length: columns * rows }, (_, i) => {
    const x = (i % columns) / columns - 0.4;
    const y = Math.floor(i / columns) / rows - 0.55;
    const height = 230 - 600 * (x * x + y * y) + 90 * (next() - 0.5);
    return Math.max(5, isStepped ? 25 * Math.round(height / 25) : height);
  });
  return heightfield(columns, rows, 20.4, 17.3, heights);
}

/** Volume of the four triangles of every cell over z = 0: a cell's mean times its area. */
function exactVolume({ columns, rows, stepXMm, stepYMm, heightsMm: h }: Heightfield): number {
  let sum = 0;
  for (let row = 0; row + 1 < rows; row++) {
    for (let column = 0; column + 1 < columns; column++) {
      const at = row * columns + column;
      sum += centreOf(h[at], h[at + 1], h[at + columns], h[at + columns + 1]);
    }
  }
  return sum * stepXMm * stepYMm;
}

const SEEDS = Array.from({ length: 12 }, (_, i) => i + 1);

describe.each(SEEDS)('rough ground, seed %i', (seed) => {
  const ground = rough(seed);

  test('the volume lies between the shy and the proud stack, simplified or not', () => {
    const exact = exactVolume(ground);
    for (const simplify of [0, 0.5, 4]) {
      // Snapping moves an outline by up to 0.0007 mm.
      const slack = 1e-6 * exact;
      expect(volume(slice(ground, { cut: 'proud', simplify }))).toBeGreaterThan(exact - slack);
      expect(volume(slice(ground, { cut: 'shy', simplify }))).toBeLessThan(exact + slack);
    }
  });

  test('every layer lies in the one beneath, is simple, and is on the grid of a thousandth', () => {
    for (const cut of ['proud', 'shy', 'middle'] as const) {
      for (const simplify of [0, 0.5, 6]) {
        const stack = slice(ground, { cut, simplify }, [27]).layers;
        for (const [k, layer] of stack.entries()) {
          expect(layer).toMatchObject({ number: k + 1, bottomMm: 27 * k, thicknessMm: 27 });
          const regions = whole(layer.regions);
          expect(crossingIn(ringsOf(regions))).toBeNull();
          if (k > 0) expect(sticksOut(regions, whole(stack[k - 1].regions))).toBeNull();
          for (const ring of ringsOf(layer.regions)) {
            for (const value of ring) expect(value).toBe(Math.round(value * 1000) / 1000);
          }
        }
      }
    }
  });

  test('simplifying moves proud outlines out and shy ones in', () => {
    const side = (cut: string, simplify: number) => slice(ground, { cut, simplify }).layers;
    for (const [k, layer] of side('proud', 3).entries()) {
      expect(sticksOut(whole(side('proud', 0)[k].regions), whole(layer.regions))).toBeNull();
    }
    for (const [k, layer] of side('shy', 3).entries()) {
      expect(sticksOut(whole(layer.regions), whole(side('shy', 0)[k].regions))).toBeNull();
    }
  });

  test('at levels that no post lies on, proud of a layer is shy of the one beneath, byte for byte', () => {
    const generic = rough(seed, false);
    const proud = slice(generic, { cut: 'proud', simplify: 0 }, [31.7]).layers;
    const shy = slice(generic, { cut: 'shy', simplify: 0 }, [31.7]).layers;
    expect(proud.slice(1).map(({ regions }) => regions)).toEqual(shy.map(({ regions }) => regions));
    // So the stacks differ by what the lowest proud layer covers.
    const difference = volume({ kind: 'flat', layers: proud }) - volume({ kind: 'flat', layers: shy });
    expect(difference).toBeCloseTo(31.7 * areaOf(proud[0].regions), 4);
  });

  test('shy is the rectangle less proud of the ground turned upside down', () => {
    const high = 300;
    const turned = { ...ground, heightsMm: ground.heightsMm.map((height) => high - height) };
    const shy = areas(slice(ground, { cut: 'shy', simplify: 0 }));
    const proud = areas(slice(turned, { cut: 'proud', simplify: 0 }));
    const rectangleMm2 = 14 * 20.4 * 10 * 17.3;
    // Shy of layer k is cut at 50 k, proud of layer 7 − k of the other at 300 − 50 k.
    for (const [k, area] of shy.entries()) expect(area).toBeCloseTo(rectangleMm2 - proud[5 - k], 1);
  });

  test('a cropped footprint is kept to, and layers still lie in one another', () => {
    const outline = Float64Array.from([0, 40.3, 133.1, 0, 266.8, 91.7, 201.2, 170.9, 77.7, 160.1]);
    const hole = Float64Array.from([100.1, 60.7, 90.3, 101.9, 141.7, 110.3]);
    const cropped = { ...ground, footprint: [[outline, hole]] };
    for (const cut of ['proud', 'shy', 'middle'] as const) {
      const stack = slice(cropped, { cut }, [27]).layers;
      for (const [k, { regions }] of stack.entries()) {
        // A slanting edge is met on the grid: half a thousandth to either side.
        const over = areaOf(regions) - areaOf([[outline, hole]]);
        expect(over).toBeLessThan(0.5);
        // Each of two outlines is rounded there by up to 0.0007 mm.
        if (k > 0) expect(cornersOut(regions, stack[k - 1].regions)).toBeLessThan(0.0015);
      }
    }
  });
});

/** How far corners of one area lie outside another at most. */
function cornersOut(inner: readonly Region[], outer: readonly Region[]): number {
  let most = 0;
  for (const ring of ringsOf(inner)) {
    for (let i = 0; i < ring.length; i += 2) {
      if (isInside(ring[i], ring[i + 1], outer)) continue;
      most = Math.max(most, distanceToRings(ring[i], ring[i + 1], ringsOf(outer)));
    }
  }
  return most;
}

describe('levels', () => {
  const plateau = heightfield(
    6,
    5,
    90,
    70,
    Float64Array.from([
      0, 0, 0, 0, 0, 0, 0, 100, 100, 100, 0, 0, 0, 100, 100, 100, 40, 0, 0, 100, 100, 100, 0, 0, 0, 0, 0, 0, 0, 0,
    ]),
  );

  test('flat ground exactly at a level costs no layer and loses none', () => {
    expect(areas(slice(plateau, { cut: 'proud' }))).toHaveLength(2);
    const shy = areas(slice(plateau, { cut: 'shy', simplify: 0 }));
    expect(shy).toHaveLength(2);
    expect(shy[1]).toBeCloseTo(2 * 90 * 2 * 70, 6);
    expect(slice(plateau).findings).toEqual([]);
  });

  test('the same in 32 bits, at a height that 32 bits cannot hold', () => {
    const scaled = { ...plateau, heightsMm: Float32Array.from(plateau.heightsMm, (height) => height * 1.001) };
    expect(areas(slice(scaled, { cut: 'proud' }, [50.05]))).toHaveLength(2);
    expect(areas(slice(scaled, { cut: 'shy' }, [50.05]))).toHaveLength(2);
  });

  test('middle: flat ground half way up counts as foam', () => {
    expect(areas(slice(plateau, { cut: 'middle', simplify: 0 }, [200]))).toEqual([25200]);
    expect(areas(slice(plateau, { cut: 'middle' }, [66.666]))).toHaveLength(2);
    expect(areas(slice(plateau, { cut: 'middle' }, [66.668]))).toHaveLength(1);
  });

  test('ground at 0 and -0 has no foam', () => {
    const low = heightfield(4, 3, 50, 40, Float64Array.from([-0, 0, 0, 0, 0, -0, 20, 0, 0, 0, 0, -0]));
    const [area] = areas(slice(low, { cut: 'proud', simplify: 0 }, [25]));
    expect(area).toBe(4 * 50 * 40);
  });

  test('boards of 12.7 mm stand on whole micrometres, however many', () => {
    const tall = heightfield(3, 3, 50, 40, new Float64Array(9).fill(400));
    const stack = slice(tall, {}, [12.7]).layers;
    expect(stack.map(({ bottomMm }) => Math.round(bottomMm * 1000) / 1000)).toEqual(
      stack.map(({ bottomMm }) => bottomMm),
    );
    expect(stack[21].bottomMm).toBe(266.7);
  });

  test('a single post, a pit and a cliff', () => {
    const heights = new Float64Array(63).fill(60);
    heights[31] = 170;
    heights[13] = 20;
    for (let row = 0; row < 7; row++) heights[row * 9 + 8] = 0;
    const ground = heightfield(9, 7, 40, 30, heights);
    const proud = slice(ground, { cut: 'proud' });
    expect(proud.layers).toHaveLength(4);
    expect(proud.layers[0].regions[0]).toHaveLength(1);
    const shy = slice(ground, { cut: 'shy' });
    expect(shy.layers).toHaveLength(3);
    expect(shy.layers[0].regions[0]).toHaveLength(2);
    for (const { regions } of proud.layers) expect(boxOf(ringsOf(regions))[2]).toBeLessThanOrEqual(320);
  });
});

describe('what is told', () => {
  const cone = heightfield(3, 3, 200, 150, Float64Array.from([0, 0, 0, 0, 130, 0, 0, 0, 0]));

  test('how far the stack ends above or below the ground', () => {
    expect(slice(cone).findings).toMatchObject([
      { level: 'note', code: 'slice/stack-height', message: 'The stack ends 20 mm above the highest ground.' },
    ]);
    expect(slice(cone, { cut: 'shy' }).findings).toMatchObject([
      { level: 'watch', message: 'The stack ends 30 mm below the highest ground.' },
    ]);
    expect(slice(cone, {}, [65]).findings).toEqual([]);
  });

  test('boards: one thickness needs no word, several do, and only those on offer count', () => {
    expect(slice(cone, {}, [40]).layers[0].thicknessMm).toBe(40);
    expect(slice(cone, { thickness: 30 }, [30, 50]).layers).toHaveLength(5);
    const several = refusal(() => slice(cone, {}, [30, 50]));
    expect(several).toMatchObject({ code: 'slice/which-board', where: { path: 'slice.layers.thickness' } });
    expect(several.message).toContain('30 mm, 50 mm');
    const none = refusal(() => slice(cone, { thickness: 45 }, [30, 50]));
    expect(none).toMatchObject({ code: 'slice/no-board', message: expect.stringContaining('30 mm, 50 mm') });
  });

  test('ground below 0, nothing to cut and far too many layers are refused', () => {
    const sunk = { ...cone, heightsMm: cone.heightsMm.map((height) => height - 0.5) };
    expect(refusal(() => slice(sunk))).toMatchObject({
      code: 'slice/below-zero',
      fix: expect.stringContaining('base'),
    });
    expect(refusal(() => slice(cone, { cut: 'shy' }, [140]))).toMatchObject({ code: 'slice/nothing' });
    const flat = { ...cone, heightsMm: new Float64Array(9) };
    expect(refusal(() => slice(flat))).toMatchObject({ code: 'slice/nothing' });
    expect(refusal(() => slice(cone, {}, [0.06]))).toMatchObject({ code: 'slice/too-many' });
  });

  test('ground below 0 outside the footprint does not matter', () => {
    const heightsMm = Float64Array.from([-9, 0, 0, 0, 0, 130, 70, 20, 0, 10, 10, 5]);
    const field = { ...heightfield(4, 3, 200, 150, heightsMm), footprint: [[rectangle(200, 0, 600, 300)]] };
    expect(slice(field).layers.length).toBeGreaterThan(0);
  });

  test('progress grows layer by layer', () => {
    const work = layers.run(rough(3), layers.options(makeKit('mm')).parse({}), {
      facts: boardFacts([20]),
      tell: () => {},
      random: stream(1, 'slice', 0),
    }) as Generator<number, LayerStack, unknown>;
    const seen: number[] = [];
    for (let step = work.next(); !step.done; step = work.next()) seen.push(step.value);
    expect(seen.length).toBeGreaterThan(10);
    expect(seen).toEqual([...seen].sort((a, b) => a - b));
    expect(seen.at(-1)).toBe(1);
  });
});

describe('solids', () => {
  test('a wedge gives rectangles, whichever cut', () => {
    const rounded = (written: object) =>
      areas(slice(wedge(), { ...written }, [10])).map((area) => Math.round(area * 1e6) / 1e6);
    expect(rounded({ cut: 'proud' })).toEqual([1000, 666.675, 333.325]);
    expect(rounded({ cut: 'shy' })).toEqual([666.675, 333.325]);
    expect(rounded({ cut: 'middle' })).toEqual([833.325, 500, 166.675]);
  });

  test('foam that floats is refused, a floor that floats is not hidden', () => {
    const up = { ...wedge(), positionsMm: wedge().positionsMm.map((value, i) => (i % 3 === 2 ? value + 70 : value)) };
    expect(refusal(() => slice(up))).toMatchObject({ code: 'slice/floating', where: { layer: 1 } });
  });

  test('a footprint cuts a solid', () => {
    const kept = { ...wedge(), footprint: [[rectangle(0, 0, 13, 25)]] };
    expect(areas(slice(kept, { cut: 'proud' }, [30]))).toEqual([13 * 25]);
  });
});
