import { intersect, subtract } from '../../src/geometry/clip.ts';
import { turn } from '../../src/geometry/exact-math.ts';
import { type Placement, type Point, placed, type Region, type Ring, regionArea } from '../../src/geometry/ring.ts';
import { heightfield } from '../../src/model/landform.ts';
import type { LayoutBoard, Placed } from '../../src/model/layout.ts';
import type { Joint, Piece } from '../../src/model/piece.ts';
import type { Plan } from '../../src/model/plan.ts';
import { NOTHING_SAID } from '../../src/model/work.ts';
import { boardFacts, NOT_SAID } from './board-facts.ts';

const snap = (value: number) => Math.round(value * 1000) / 1000;

/** A lumpy, lopsided outline round a middle: nothing about it is symmetric. */
function lump(x: number, y: number, wide: number, deep: number, lumps: number, points: number): Ring {
  const ring: number[] = [];
  for (let i = 0; i < points; i++) {
    const deg = (360 * i) / points;
    const grow = 1 + 0.09 * turn(lumps * deg + 20).sin + 0.05 * turn((lumps + 3) * deg + 75).cos;
    ring.push(snap(x + wide * grow * turn(deg).cos), snap(y + deep * grow * turn(deg).sin));
  }
  return new Float64Array(ring);
}

const ring = (...points: number[]): Ring => new Float64Array(points);

/** The parts of a region left and right of the line x = at. */
function cutAt(region: Region, at: number): [Region, Region] {
  const far = 1e4;
  const left = [ring(-far, -far, at, -far, at, far, -far, far)];
  return [intersect([region], [left])[0], subtract([region], [left])[0]];
}

/** The joint that a straight seam x = at makes between two pieces. */
function seam(label: string, neighbour: string, region: Region, at: number): Joint {
  const on: number[] = [];
  for (let i = 0; i < region[0].length; i += 2) if (region[0][i] === at) on.push(region[0][i + 1]);
  on.sort((a, b) => a - b);
  const [low, high] = [on[0], on[on.length - 1]];
  const matches: Point[] = [
    [at, snap(low + (high - low) * 0.3)],
    [at, snap(low + (high - low) * 0.72)],
  ];
  return { label, neighbour, line: ring(at, low, at, high), matches };
}

const FAR_BOARD: readonly Ring[] = [ring(0, 0, 830, 0, 830, 340, 562, 470, 562, 610, 0, 610)];

/**
 * An invented little plan: a gull ledge of two layers, six pieces with joints, pins, a slit, a hole and placing lines, on
 * one bought board and one saved offcut.
 */
export function smallPlan(changes: Partial<Plan> = {}): Plan {
  const low = lump(760, 470, 640, 400, 3, 90);
  const hole = lump(1010, 480, 170, 150, 2, 41).slice().reverse();
  for (let i = 0; i < hole.length; i += 2) [hole[i], hole[i + 1]] = [hole[i + 1], hole[i]];
  const lowRegion: Region = [low, hole];
  const [a, c] = cutAt(lowRegion, 701.25);
  const spit: Region = [ring(1480, 60, 1610, 70, 1650, 210, 1612, 640, 1553, 633, 1588, 213, 1563, 128, 1484, 121)];
  const high: Region = [lump(700, 500, 380, 260, 4, 71)];
  const [highA, highC] = cutAt(high, 812.5);
  const chip: Region = [ring(1583, 250, 1613, 246, 1609, 301)];

  const layerTwo = [highA, highC, chip];
  const pins: Point[] = [
    [430, 520],
    [612.5, 410.5],
    [900, 700],
    [1597, 262],
  ];
  const make = (name: string, layer: number, region: Region, joints: Joint[], slits: Float64Array[] = []): Piece => ({
    name,
    layer,
    bottomMm: (layer - 1) * 50,
    thicknessMm: 50,
    region,
    areaMm2: regionArea(region),
    joints,
    pins: pins.filter(([x, y]) => intersect([region], [[ring(x, y, x + 0.01, y, x, y + 0.01)]]).length > 0),
    slits,
    placing: layer === 1 ? intersect([region], layerTwo) : [],
  });
  const rim = 2;
  const slit = ring(hole[0], hole[1], low[rim], low[rim + 1]);
  const pieces = [
    make('1A', 1, a, [seam('1/A', '1C', a, 701.25)]),
    make('1C', 1, c, [seam('1/A', '1A', c, 701.25)], [slit]),
    make('1D', 1, spit, []),
    make('2A', 2, highA, [seam('2/A', '2C', highA, 812.5)]),
    make('2C', 2, highC, [seam('2/A', '2A', highC, 812.5)]),
    make('2D', 2, chip, []),
  ];
  const at = (piece: string, blank: number, place: Placement): Placed => ({ piece, blank, ...place });
  const place = (turnDeg: number, mirrored: boolean, xMm: number, yMm: number) => ({ turnDeg, mirrored, xMm, yMm });
  const boards: LayoutBoard[] = [
    {
      number: 1,
      stock: 'EPS 70',
      sizeMm: [2400, 1200],
      thicknessMm: 50,
      densityKgM3: 15,
      trimMm: 5,
      placed: [
        at('1A', 1, place(0, false, -78.5, -25)),
        at('1C', 2, place(0, false, 20, -25)),
        at('1D', 3, place(180, false, 3211.25, 850)),
        at('2C', 4, place(90, true, 2340, 1908.5)),
      ],
      offcuts: [{ name: 'K7', rings: [ring(1820, 20, 2380, 20, 2380, 150, 1820, 150)] }],
    },
    {
      number: 2,
      stock: 'kept K3',
      sizeMm: [830, 610],
      thicknessMm: 50,
      densityKgM3: 15,
      trimMm: 0,
      rings: FAR_BOARD,
      placed: [at('2A', 1, place(0, false, -272.25, -222.5)), at('2D', 2, place(37.5, false, -390, -890))],
      offcuts: [],
    },
  ];
  const blanks = pieces.map((piece) => ({ pieces: [piece], sharedCuts: [] }));
  return {
    name: 'Gull ledge',
    unit: 'mm',
    job: {},
    facts: {
      stock: { boards: [], offcuts: [] },
      ...boardFacts([50]),
      boardSizes: [{ sizeMm: [2400, 1200], thicknessMm: 50, densityKgM3: 15, trimMm: 5 }],
      tool: { kind: 'hot wire', kerfMm: 2, ...NOT_SAID, throatMm: 1300 },
      gapMm: 12,
      cover: null,
      front: { side: 'south', word: 'AUDIENCE' },
      carry: { sizeMm: null, massKg: null },
      way: { door: null, stair: null, lift: null, van: null },
      zones: [],
      pieces: [],
      work: NOTHING_SAID,
    },
    landform: heightfield(3, 2, 850, 960, new Float64Array([60, 90, 40, 80, 100, 55])),
    stack: {
      kind: 'flat',
      layers: [
        { number: 1, bottomMm: 0, thicknessMm: 50, regions: [lowRegion, spit] },
        { number: 2, bottomMm: 50, thicknessMm: 50, regions: [high, chip] },
      ],
    },
    deviation: null,
    blanks,
    pieces,
    pins: pins.map((at) => ({ at, fromLayer: 1, toLayer: 2, bottomMm: 10, lengthMm: 60, isPulled: false })),
    rests: [],
    boards,
    bound: { boards: 1, why: 'total area' },
    unusedOffcuts: [],
    evaluations: 0,
    quantities: {
      layers: 2,
      pieces: 6,
      boards: 2,
      boardsBought: 1,
      price: 14.5,
      planAreaM2: 0.87,
      surfaceAreaM2: 0.9,
      groundVolumeM3: 0.05,
      foamVolumeM3: 0.055,
      foamMassKg: 0.8,
      coverVolumeM3: null,
      coverMassKg: null,
      coveringM2: null,
      carveM3: 0,
      stepFillM3: 0,
      largestStepMm: null,
      cutLengthM: 12.3,
      pins: 4,
      pinLengths: [{ lengthMm: 60, isPulled: false, count: 4 }],
      pinStock: [{ soldMm: 100, sticks: 4, pins: 4, pulled: 0, leastMm: 60, mostMm: 60 }],
      glueM2: 0.2,
      joints: 2,
      offcutAreaM2: 0.07,
    },
    findings: [],
    ...changes,
  };
}

/** A piece's rings as they lie on a board, board coordinates. */
export const lying = (plan: Plan, { piece, ...placement }: Placed): Ring[] => {
  const found = plan.pieces.find(({ name }) => name === piece);
  return found ? found.region.map((ring) => placed(ring, placement)) : [];
};
