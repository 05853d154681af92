/** Layers cut with a leaning wire: `slice: { layers: { cut: sloped } }`. */
import { describe, expect, test } from 'vitest';
import type { Finding } from '../../src/findings.ts';
import { stream } from '../../src/geometry/random.ts';
import { areaOf, type Region, ringArea, ringLength, ringsOf } from '../../src/geometry/ring.ts';
import { ringAt, ruledVolume } from '../../src/geometry/ruled.ts';
import { makeKit } from '../../src/job/kit.ts';
import { groundBetween } from '../../src/model/ground-between.ts';
import { type Heightfield, heightfield, type Landform } from '../../src/model/landform.ts';
import type { Layer, LayerStack } from '../../src/model/layer.ts';
import { layers } from '../../src/slice/layers.ts';
import { walkNow } from '../../src/walk.ts';
import { deviationRaster } from '../../src/workshop/deviation/raster.ts';
import { deviationOf } from '../../src/workshop/deviation.ts';
import { boardFacts } from '../help/board-facts.ts';
import { refusal } from '../help/plugin-run.ts';
import { fieldSolid, MUSHROOM, prism, solid, turned } from '../help/solids.ts';
import { crossingOf, goesOnceRound, linesOf } from '../help/wire-laws.ts';

interface Sliced {
  readonly stack: readonly Layer[];
  readonly findings: readonly Finding[];
}

function slice(landform: Landform, thicknessMm: number, written: Record<string, unknown> = {}): Sliced {
  const findings: Finding[] = [];
  const context = {
    facts: boardFacts([thicknessMm]),
    tell: (finding: Finding) => void findings.push(finding),
    random: stream(1, 'slice', 0),
  };
  const options = layers.options(makeKit('mm')).parse({ cut: 'sloped', lean: 84, least: 0, ...written });
  return { stack: (walkNow(layers.run(landform, options, context)) as LayerStack).layers, findings };
}

const told = ({ findings }: Sliced, code: string) => findings.find((each) => each.code === `slice/sloped-${code}`);
const stationsOf = ({ slope }: Layer) => slope?.stations ?? [];
const wholeOf = (stations: readonly Float64Array[]) =>
  stations.map((each) => each.map((value) => Math.round(value * 1000)));
const ruled = (layer: Layer) => ruledVolume(stationsOf(layer), layer.thicknessMm);
const trueVolume = (landform: Landform, { bottomMm, thicknessMm }: Layer) =>
  groundBetween(landform, bottomMm, bottomMm + thicknessMm);
const leans = (layer: Layer) =>
  stationsOf(layer)
    .flatMap(linesOf)
    .map(([x, y, tx, ty]) => (Math.atan2(Math.hypot(tx - x, ty - y), layer.thicknessMm) * 180) / Math.PI);

/** Rough lopsided ground with pits, spurs and several summits. */
function rough(seed: number): Heightfield {
  const next = stream(seed, 'sloped');
  const [columns, rows] = [23, 17];
  const heights = Float64Array.from({ length: columns * rows }, (_, i) => {
    const x = (i % columns) / columns - 0.4;
    const y = Math.floor(i / columns) / rows - 0.55;
    const height = 160 - 420 * (x * x + y * y) + 70 * (next() - 0.5);
    return Math.max(4, seed % 2 === 0 ? 10 * Math.round(height / 10) : height);
  });
  return heightfield(columns, rows, 20.4, 17.3, heights);
}

/** The same ground on a footprint with slanting sides and a hole. */
function inFootprint(field: Heightfield): Heightfield {
  const footprint: Region[] = [
    [
      Float64Array.of(0, 41, 170, 0, 448.8, 60, 400, 276.8, 60, 250),
      Float64Array.of(190, 120, 201, 171, 260, 160, 241, 113),
    ],
  ];
  return { ...field, footprint };
}

const GROUNDS: readonly (readonly [string, Landform])[] = [1, 2, 3, 4].flatMap((seed) => [
  [`rough ground ${seed}`, rough(seed)] as const,
  [`rough ground ${seed} in a footprint`, inFootprint(rough(seed))] as const,
]);

describe.each([...GROUNDS, ['rough ground 7 as a solid', fieldSolid(rough(7))] as const])('%s', (_, ground) => {
  test.each([
    [20, 84, 0.5],
    [20, 45, 0],
    [31, 60, 2],
  ])('in %i mm boards, leaning to %i°, simplified by %d mm: the wire keeps its laws', (thickness, lean, simplify) => {
    const { stack } = slice(ground, thickness, { lean, simplify });
    for (const layer of stack) {
      const rings = ringsOf(layer.regions);
      const stations = stationsOf(layer);
      expect(stations.length).toBe(rings.length);
      expect(crossingOf(wholeOf(stations))).toBeNull();
      for (const [i, each] of stations.entries()) {
        expect(
          goesOnceRound(
            linesOf(each).map(([x, y]) => [x, y] as const),
            rings[i],
            0.003,
          ),
        ).toBe(true);
      }
      for (const each of leans(layer)) expect(each).toBeLessThanOrEqual(lean + 0.01);
      // Between what the underside holds and what the top does.
      const top = areaOf(layer.slope?.top ?? []);
      expect(ruled(layer)).toBeLessThanOrEqual(
        layer.thicknessMm * (areaOf(layer.regions) + 0.002 * rings.reduce((sum, ring) => sum + ringLength(ring), 0)),
      );
      expect(ruled(layer)).toBeGreaterThanOrEqual(layer.thicknessMm * top * (1 - 1e-4));
    }
  });
});

describe('solids with closed forms', () => {
  // Common school geometry: a frustum is h/3 (A + B + √(A B)); a cone with a polygon for a base is one.
  test.each([
    [
      'cone',
      turned(
        [
          [0, 0],
          [61, 0],
          [0, 154],
        ],
        64,
        70,
        66,
      ),
      22,
    ],
    [
      'pyramid',
      solid(
        [
          [0, 0, 0],
          [90, 0, 0],
          [96, 84, 0],
          [5, 80, 0],
          [41, 47, 132],
        ],
        [
          [3, 2, 1, 0],
          [0, 1, 4],
          [1, 2, 4],
          [2, 3, 4],
          [3, 0, 4],
        ],
      ),
      22,
    ],
  ] as const)('%s: every layer but the summit’s holds what the ground does', (_, ground, thickness) => {
    const { stack } = slice(ground, thickness, { simplify: 0 });
    expect(stack.length).toBeGreaterThan(5);
    for (const layer of stack.slice(0, -1)) {
      const [low, high] = [areaOf(layer.regions), areaOf(layer.slope?.top ?? [])];
      const frustum = (thickness / 3) * (low + high + Math.sqrt(low * high));
      expect(trueVolume(ground, layer) / frustum).toBeCloseTo(1, 4);
      // Tops shrink faster than 3 : 1 under the summit: there the edge is cut upright.
      if (Math.sqrt(low / high) < 1.9) expect(ruled(layer) / frustum).toBeCloseTo(1, 3);
      else expect(ruled(layer)).toBeGreaterThan(frustum * 0.999);
    }
  });

  test('ramp of 2.4 by 3.6 m rising 0.5 m, ten boards: each layer is an exact wedge', () => {
    // V = 2.16 m³ in all; layer k of 50 mm: 2.4 · 0.05 · 3.6 (1 − (k − ½)/10).
    const ramp = heightfield(
      13,
      10,
      200,
      400,
      Float64Array.from({ length: 130 }, (_, i) => 500 - (500 * Math.floor(i / 13)) / 9),
    );
    const { stack } = slice(ramp, 50);
    expect(stack.length).toBe(10);
    for (const layer of stack.slice(0, -1)) {
      const exact = 2.4 * 0.05 * 3.6 * (1 - (layer.number - 0.5) / 10);
      expect(ruled(layer) / 1e9).toBeCloseTo(exact, 5);
    }
  });

  test('crater ring: the way about the hole runs clockwise, and both edges lean', () => {
    const ring = turned(
      [
        [58, 0],
        [142, 0],
        [100, 90],
      ],
      80,
      150,
      150,
    );
    const { stack } = slice(ring, 15, { simplify: 0 });
    for (const layer of stack.slice(0, -2)) {
      expect(stationsOf(layer).map((each) => Math.sign(ringArea(ringAt(each, 0))))).toEqual([1, -1]);
      expect(ruled(layer) / trueVolume(ring, layer)).toBeCloseTo(1, 3);
    }
  });

  test('upright walls: every station is upright', () => {
    const block = prism(
      [
        [0, 0],
        [120, 9],
        [101, 88],
        [14, 70],
      ],
      0,
      90,
    );
    const { stack, findings } = slice(block, 30);
    for (const layer of stack) for (const lean of leans(layer)) expect(lean).toBe(0);
    for (const layer of stack) expect(ruled(layer) / trueVolume(block, layer)).toBeCloseTo(1, 5);
    expect(findings.map(({ code }) => code)).toEqual(['slice/sloped-templates', 'slice/sloped-volume']);
  });

  test('flat ground exactly at a level is not sloped away', () => {
    // A terrace at 50 mm between two slopes: what lies flat at layer 1’s top is whole in layer 1.
    const heights = [4, 50, 50, 50, 71, 96];
    const field = heightfield(
      6,
      4,
      60,
      45,
      Float64Array.from({ length: 24 }, (_, i) => heights[i % 6]),
    );
    const { stack } = slice(field, 25, { simplify: 0 });
    expect(areaOf(stack[1].slope?.top ?? [])).toBeCloseTo(240 * 135, 3);
    expect(ruled(stack[1]) / trueVolume(field, stack[1])).toBeCloseTo(1, 5);
  });
});

describe('what is told', () => {
  const gentle = heightfield(
    21,
    16,
    30,
    30,
    Float64Array.from({ length: 336 }, (_, i) => {
      const [x, y] = [(i % 21) - 9, Math.floor(i / 21) - 8];
      return Math.max(0, 130 - 1.4 * (x * x + 1.3 * y * y));
    }),
  );

  test('a bank that leans too far: layer, place, and how far; the wire stays at its limit', () => {
    const sliced = slice(gentle, 25, { lean: 45 });
    const finding = told(sliced, 'lean');
    expect(finding?.level).toBe('watch');
    expect(finding?.where.layer).toBeGreaterThan(0);
    expect(finding?.where.atMm?.length).toBe(2);
    expect(finding?.message).toMatch(/45°.*up to \d\d° from upright: layer 1 [\d.]+ m \(worst at \d+, \d+\)/);
    expect(Math.max(...sliced.stack.flatMap(leans))).toBeCloseTo(45, 2);
    expect(told(slice(gentle, 25, { lean: 85 }), 'lean')).toBeUndefined();
  });

  test('a wire that is too short holds the lean back', () => {
    const reach = 40;
    const { stack } = slice(gentle, 25, { lean: 85, reach });
    for (const layer of stack) {
      for (const [x, y, tx, ty] of stationsOf(layer).flatMap(linesOf)) {
        expect(Math.hypot(tx - x, ty - y, 25)).toBeLessThanOrEqual(reach + 0.01);
      }
    }
    const fault = refusal(() => slice(gentle, 25, { reach: 24 }));
    expect(fault).toMatchObject({ code: 'slice/short-wire', where: { path: 'slice.layers.reach' } });
  });

  test('a summit stands upright, a pit is left, and both are told', () => {
    const sliced = slice(gentle, 25, { lean: 85 });
    expect(told(sliced, 'no-top')?.where.layer).toBe(sliced.stack.length);
    const pitted = heightfield(
      21,
      16,
      30,
      30,
      gentle.heightsMm.map((h, i) => (i === 8 * 21 + 9 ? 110 : h)),
    );
    expect(told(slice(pitted, 25, { lean: 85 }), 'pit')?.where.layer).toBe(5);
  });

  test('a rim lower than the board is told as a wall, with its length', () => {
    const low = heightfield(
      21,
      16,
      30,
      30,
      gentle.heightsMm.map((h) => Math.max(h, 9)),
    );
    const wall = told(slice(low, 25, { lean: 85 }), 'wall');
    expect(wall?.where.layer).toBe(1);
    expect(wall?.message).toContain('layer 1 1.9 m');
    // Where it goes down to nothing all round there is none.
    const lower = heightfield(
      21,
      16,
      30,
      30,
      gentle.heightsMm.map((h) => Math.max(0, h - 45)),
    );
    expect(told(slice(lower, 25, { lean: 85 }), 'wall')).toBeUndefined();
  });

  test('two summits over a saddle: the top goes straight across', () => {
    const twin = heightfield(
      31,
      14,
      20,
      20,
      Float64Array.from({ length: 434 }, (_, i) => {
        const [x, y] = [i % 31, Math.floor(i / 31) - 6];
        const near = Math.min((x - 8) * (x - 8), (x - 22) * (x - 22) + 4);
        return Math.max(0, 100 - 1.3 * near - 2 * y * y);
      }),
    );
    const bridge = told(slice(twin, 25, { lean: 85 }), 'bridge');
    expect(bridge).toBeDefined();
    expect(bridge?.where.atMm?.[0]).toBeGreaterThan(200);
    expect(bridge?.where.atMm?.[0]).toBeLessThan(420);
  });

  test('paces: a top much shorter than its foot is cut upright, a little shorter has pauses', () => {
    const cone = turned(
      [
        [0, 0],
        [61, 0],
        [0, 122],
      ],
      64,
      70,
      66,
    );
    // The second layer's radius shrinks from 36.5 to 12 with boards of 49 mm, from 39 to 17 with boards of 44.
    const second = slice(cone, 49, { simplify: 0 });
    expect(told(second, 'too-fast')?.where.layer).toBe(2);
    // Only where the wire swings up and down it leans.
    expect(leans(second.stack[1]).filter((lean) => lean > 0).length).toBeLessThanOrEqual(4);
    expect(told(slice(cone, 44, { simplify: 0 }), 'pause')?.where.layer).toBe(2);
  });

  test('a cap that overhangs is cut upright, as wide as its widest', () => {
    const sliced = slice(MUSHROOM, 12);
    expect(told(sliced, 'overhang')).toBeDefined();
    const over = sliced.stack.filter(({ slope }) => !slope);
    expect(over.map(({ number }) => number)).toContain(3);
    expect(sliced.stack.some(({ slope }) => slope)).toBe(true);
  });

  test('how much foam the sloped layers hold, against ground and upright edges', () => {
    expect(told(slice(gentle, 25, { lean: 85 }), 'volume')?.message).toMatch(
      /layers hold [\d.]+ m³, the ground [\d.]+ m³; with upright edges they would hold [\d.]+ m³ proud or [\d.]+ m³ shy/,
    );
  });
});

test('regions are those of proud, and a top is the next underside where no ground lies flat between', () => {
  const ground = rough(3);
  const { stack } = slice(ground, 20);
  const proud = slice(ground, 20, { cut: 'proud' }).stack;
  expect(stack.map(({ regions }) => regions)).toEqual(proud.map(({ regions }) => regions));
  for (const [k, { slope }] of stack.slice(0, -1).entries()) expect(slope?.top).toEqual(stack[k + 1].regions);
});

describe('against upright edges of the same boards', () => {
  const dome = heightfield(
    41,
    38,
    15,
    15,
    Float64Array.from({ length: 41 * 38 }, (_, i) => {
      const [x, y] = [(i % 41) * 15 - 306, Math.floor(i / 41) * 15 - 281];
      return Math.max(0, Math.sqrt(Math.max(0, 300 * 300 - x * x - 1.2 * y * y)) - 40);
    }),
  );
  // Lopsided, steep enough to lean, and with a bay.
  const bay = heightfield(
    41,
    38,
    15,
    15,
    dome.heightsMm.map((h, i) =>
      Math.max(0, h - 90 * Math.exp(-(((i % 41) - 29) ** 2 + (Math.floor(i / 41) - 13) ** 2) / 40)),
    ),
  );

  test.each([
    ['a dome', dome],
    ['a dome with a bay', bay],
    ['the same as a solid', fieldSolid(bay)],
  ] as const)('%s: less to carve and fill than proud, shy or middle', async (_, ground) => {
    const off = async (cut: string) => {
      const deviation = await deviationOf(ground, { kind: 'flat', layers: slice(ground, 20, { cut }).stack });
      return (deviation?.carveMm3 ?? 0) + (deviation?.fillMm3 ?? 0);
    };
    const sloped = await off('sloped');
    for (const cut of ['proud', 'shy', 'middle']) expect(sloped).toBeLessThan(0.5 * (await off(cut)));
  });

  test('seen from above, the sloped stack is near the ground where upright steps are off by half a board', () => {
    const worst = (cut: string) => {
      const { heightsMm } = deviationRaster(bay, slice(bay, 20, { cut }).stack, 90);
      const off = Array.from(heightsMm, Math.abs).sort((a, b) => a - b);
      return off[Math.floor(off.length * 0.75)];
    };
    expect(worst('sloped')).toBeLessThan(0.25 * worst('proud'));
  });
});
