/** Counts, masses, volumes, cut lengths and prices, against worked figures. */
import { describe, expect, test } from 'vitest';
import { type Region, type Ring, rectangle, regionArea, reversed } from '../../src/geometry/ring.ts';
import type { Cover, Facts } from '../../src/model/facts.ts';
import { heightfield, type Landform } from '../../src/model/landform.ts';
import type { LayerStack } from '../../src/model/layer.ts';
import type { LayoutBoard } from '../../src/model/layout.ts';
import type { Joint, Piece } from '../../src/model/piece.ts';
import type { Deviation } from '../../src/model/plan.ts';
import type { StockBoard } from '../../src/model/stock.ts';
import { deviationOf } from '../../src/workshop/deviation.ts';
import { type Built, cutLengthMm, pieceMasses, tally } from '../../src/workshop/quantities.ts';
import { smallPlan } from '../help/small-plan.ts';
import { polygonArea, turned } from '../help/solids.ts';

const piece = (name: string, region: Region, thicknessMm: number, more: Partial<Piece> = {}): Piece => ({
  name,
  layer: 1,
  bottomMm: 0,
  thicknessMm,
  region,
  areaMm2: regionArea(region),
  joints: [],
  pins: [],
  slits: [],
  placing: [],
  ...more,
});

const board = (
  number: number,
  stock: string,
  densityKgM3: number,
  pieces: readonly string[],
  more = {},
): LayoutBoard => ({
  number,
  stock,
  sizeMm: [2400, 1200],
  thicknessMm: 50,
  densityKgM3,
  trimMm: 0,
  placed: pieces.map((name, i) => ({ piece: name, blank: i + 1, turnDeg: 0, mirrored: false, xMm: 0, yMm: 0 })),
  offcuts: [],
  ...more,
});

const stockBoard = (name: string, price: number | null): StockBoard => ({
  name,
  sizeMm: [2400, 1200],
  thicknessMm: 50,
  densityKgM3: 15,
  price,
  count: null,
  trimMm: 0,
  faced: true,
});

const FLAT = heightfield(3, 2, 4000, 2500, new Float64Array(6).fill(50));

interface Given {
  readonly cover?: Cover | null;
  readonly landform?: Landform;
  readonly layers?: LayerStack['layers'];
  readonly deviation?: Deviation | null;
  readonly pieces?: readonly Piece[];
  readonly boards?: readonly LayoutBoard[];
  readonly stock?: readonly StockBoard[];
}

/** Ground 8 × 2.5 m, flat, one layer of 50 mm, unless it is said otherwise. */
function told({
  cover = null,
  landform = FLAT,
  layers,
  deviation = null,
  pieces = [],
  boards = [],
  stock = [],
}: Given) {
  const { facts: usual, bound, unusedOffcuts, evaluations } = smallPlan();
  const facts: Facts = { ...usual, cover, stock: { boards: stock, offcuts: [] } };
  const whole = [{ number: 1, bottomMm: 0, thicknessMm: 50, regions: [[rectangle(0, 0, 8000, 2500)]] }];
  const built: Built = {
    name: 'Tern bar',
    unit: 'mm',
    job: {},
    facts,
    landform,
    stack: { kind: 'flat', layers: layers ?? whole },
    deviation,
    blanks: pieces.map((each) => ({ pieces: [each], sharedCuts: [] })),
    layout: { boards, bound, unusedOffcuts, evaluations, wishes: [] },
    findings: [],
  };
  return tally(built);
}

describe('foam', () => {
  test.each([
    // A block of 2.88 m³ (1.0 × 1.2 × 2.4 m, a size on a maker's data sheet) at EN 13163's usual 15 and 20 kg/m³.
    ['a block', [2400, 1200, 1000], 15, 43.2],
    ['a block', [2400, 1200, 1000], 20, 57.6],
    // A board of 0.144 m³.
    ['a board', [2400, 1200, 50], 15, 2.16],
    ['a board', [2400, 1200, 50], 20, 2.88],
  ])('%s of %j mm at %d kg/m³ weighs %d kg', (_, [wide, deep, thick], densityKgM3, massKg) => {
    const whole = piece('1A', [rectangle(0, 0, wide, deep)], thick);
    expect(pieceMasses([whole], [board(1, 'EPS', densityKgM3, ['1A'])]).get('1A')).toBeCloseTo(massKg, 9);
  });

  test('each piece weighs by the board it lies on; one that lies on none has no weight', () => {
    const pieces = [
      piece('1A', [rectangle(0, 0, 700, 300)], 50),
      piece('1C', [rectangle(0, 0, 410, 90)], 50),
      piece('1D', [rectangle(0, 0, 20, 90)], 50),
    ];
    const boards = [board(1, 'EPS 70', 15, ['1A']), board(2, 'EPS 200', 30, ['1C'])];
    const masses = pieceMasses(pieces, boards);
    expect([...masses.keys()]).toEqual(['1A', '1C']);
    expect(masses.get('1A')).toBeCloseTo(0.1575, 12);
    expect(masses.get('1C')).toBeCloseTo(0.05535, 12);
    const { quantities } = told({ pieces, boards });
    expect(quantities.foamMassKg).toBeCloseTo(0.1575 + 0.05535, 12);
    expect(quantities.foamVolumeM3).toBeCloseTo((700 * 300 + 410 * 90 + 20 * 90) * 50e-9, 12);
  });
});

describe('cover', () => {
  test.each([
    // 20 m² by 10 mm are 0.2 m³; densities EngineeringToolbox, "Dirt and Mud – Densities".
    ['dry sand', 10, null, 0.2, 311],
    ['wet sand', 10, null, 0.2, 381],
    // 5 mm at a density of one's own.
    ['gritty coating', 5, 1600, 0.1, 160],
    // A density that is said wins over the table.
    ['dry sand', 10, 1600, 0.2, 320],
  ])('20 m² of %s, %d mm deep, density said: %s', (material, depthMm, densityKgM3, volumeM3, massKg) => {
    const { quantities, findings } = told({ cover: { material, depthMm, densityKgM3 } });
    expect(quantities.surfaceAreaM2).toBeCloseTo(20, 9);
    expect(quantities.coverVolumeM3).toBeCloseTo(volumeM3, 9);
    expect(quantities.stepFillM3).toBeCloseTo(0, 9);
    expect(quantities.coverMassKg).toBeCloseTo(massKg, 6);
    expect(findings).toEqual([]);
  });

  test('it is laid on the slope, not on its plan', () => {
    // Rises 3 m over 4: a 3-4-5 slope.
    const slope = heightfield(3, 2, 4000, 2500, Float64Array.of(0, 3000, 6000, 0, 3000, 6000));
    const { quantities } = told({ landform: slope, cover: { material: 'dry sand', depthMm: 10, densityKgM3: null } });
    expect(quantities.planAreaM2).toBeCloseTo(20, 9);
    expect(quantities.surfaceAreaM2).toBeCloseTo(25, 9);
    expect(quantities.coverVolumeM3).toBeCloseTo(0.25, 9);
  });

  test('sand fills the steps of a cone cut shy in ten layers: 0.0759 m³, 118.1 kg', async () => {
    // Closed form: V = πR²H/3, inner stack = πR²H(N − 1)(2N − 1)/(6N²); R = 1 m, H = 0.5 m, N = 10: 0.075922 m³ between
    // them. A polygon of the circle's area stands for the circle: the volumes are then the same.
    const sides = 41;
    const radius = 1000 * Math.sqrt(Math.PI / polygonArea(1, sides));
    const cone = turned(
      [
        [0, 0],
        [radius, 0],
        [0, 500],
      ],
      sides,
      radius,
      radius,
    );
    const outline = (share: number): Ring =>
      Float64Array.from({ length: 2 * sides }, (_, i) => {
        const turn = (2 * Math.PI * Math.floor(i / 2)) / sides;
        return radius + share * radius * (i % 2 === 0 ? Math.cos(turn) : Math.sin(turn));
      });
    const layers = Array.from({ length: 9 }, (_, k) => ({
      number: k + 1,
      bottomMm: 50 * k,
      thicknessMm: 50,
      regions: [[outline(0.9 - k / 10)]],
    }));
    const { quantities } = told({
      landform: cone,
      layers,
      deviation: await deviationOf(cone, { kind: 'flat', layers }),
      cover: { material: 'dry sand', depthMm: 10, densityKgM3: null },
    });
    expect(quantities.groundVolumeM3).toBeCloseTo(0.523599, 6);
    expect(quantities.stepFillM3).toBeCloseTo(0.075922, 6);
    const { coverMassKg, coverVolumeM3 } = quantities;
    expect((coverMassKg as number) - 1555 * (coverVolumeM3 as number)).toBeCloseTo(118.06, 2);
  });

  test('a stack that stands out of the ground needs no filling, but carving', async () => {
    const layers = [{ number: 1, bottomMm: 0, thicknessMm: 60, regions: [[rectangle(0, 0, 8000, 2500)]] }];
    const { quantities } = told({ layers, deviation: await deviationOf(FLAT, { kind: 'flat', layers }) });
    expect(quantities.stepFillM3).toBe(0);
    // 8 × 2.5 m, 10 mm too high.
    expect(quantities.carveM3).toBe(0.2);
    expect(quantities.largestStepMm).toBeCloseTo(10, 3);
  });

  test('a cover whose weight is not known is told, with the way out, and its volume all the same', () => {
    const { quantities, findings } = told({ cover: { material: 'coir matting', depthMm: 20, densityKgM3: null } });
    expect(quantities.coverVolumeM3).toBeCloseTo(0.4, 9);
    expect(quantities.coverMassKg).toBeNull();
    expect(findings).toHaveLength(1);
    expect(findings[0]).toMatchObject({
      level: 'note',
      code: 'workshop/cover-density',
      where: { path: 'cover.material' },
    });
    expect(findings[0].message).toContain('coir matting');
    expect(findings[0].fix).toContain('cover.density');
  });

  test('without a cover there is none, and nothing is told', () => {
    const { quantities, findings } = told({});
    expect([quantities.coverVolumeM3, quantities.coverMassKg, findings]).toEqual([null, null, []]);
  });
});

test('a piece is cut along its outline, its holes and its slits', () => {
  const region: Region = [rectangle(0, 0, 400, 250), reversed(rectangle(60, 50, 150, 170))];
  // A slit with a bend: 3-4-5 and 5-12-13.
  const slit = Float64Array.from([0, 0, 30, 40, 35, 52]);
  const around = 2 * (400 + 250) + 2 * (90 + 120);
  expect(cutLengthMm(piece('1A', region, 50))).toBe(around);
  expect(cutLengthMm(piece('1A', region, 50, { slits: [slit] }))).toBe(around + 50 + 13);
  expect(
    told({ pieces: [piece('1A', region, 50), piece('1C', region, 50, { slits: [slit] })] }).quantities.cutLengthM,
  ).toBeCloseTo((2 * around + 63) / 1000, 12);
});

describe('prices', () => {
  const boards = (count: number, stock: string) => Array.from({ length: count }, (_, i) => board(i + 1, stock, 15, []));

  test.each([
    // Each sum comes out otherwise when doubles are added up.
    [10, 14.1, 141],
    [3, 0.1, 0.3],
    [7, 19.99, 139.93],
    [23, 8.05, 185.15],
  ])('%d boards at %d cost %d', (count, price, total) => {
    expect(Array.from({ length: count }, () => price).reduce((sum, each) => sum + each, 0)).not.toBe(total);
    expect(told({ boards: boards(count, 'EPS 70'), stock: [stockBoard('EPS 70', price)] }).quantities.price).toBe(
      total,
    );
  });

  test('a saved offcut costs nothing; a board without a price makes the sum unknown', () => {
    const kept = board(3, 'kept K3', 15, [], { rings: [rectangle(0, 0, 700, 300)] });
    const stock = [stockBoard('EPS 70', 14.5), stockBoard('EPS 100', null)];
    const { quantities } = told({ boards: [...boards(2, 'EPS 70'), kept], stock });
    expect([quantities.price, quantities.boards, quantities.boardsBought]).toEqual([29, 3, 2]);
    expect(told({ boards: boards(1, 'EPS 100'), stock }).quantities.price).toBeNull();
    expect(told({ boards: [kept], stock }).quantities.price).toBe(0);
  });
});

test('a pin through two layers, and a joint of two pieces, are counted once; offcuts by their area', () => {
  const joint = (neighbour: string): Joint => ({
    label: '1/A',
    neighbour,
    line: Float64Array.of(400, 0, 400, 250),
    matches: [],
  });
  const pieces = [
    piece('1A', [rectangle(0, 0, 400, 250)], 50, {
      joints: [joint('1C')],
      pins: [
        [31, 40],
        [200, 77.5],
      ],
    }),
    piece('1C', [rectangle(400, 0, 510, 250)], 50, { joints: [joint('1A')] }),
    piece('2A', [rectangle(0, 0, 300, 110)], 50, {
      layer: 2,
      bottomMm: 50,
      pins: [
        [31, 40],
        [200, 77.5],
      ],
    }),
  ];
  const offcuts = [{ name: 'K1', rings: [rectangle(0, 0, 900, 400), reversed(rectangle(100, 100, 200, 330))] }];
  const layers = [1, 2].map((number) => ({
    number,
    bottomMm: 50 * (number - 1),
    thicknessMm: 50,
    regions: [[rectangle(0, 0, 8000, 2500)]],
  }));
  const { quantities, stack } = told({
    pieces,
    layers,
    boards: [board(1, 'EPS 70', 15, ['1A', '1C', '2A'], { offcuts })],
  });
  expect([quantities.pieces, quantities.pins, quantities.joints]).toEqual([3, 2, 1]);
  expect(quantities.offcutAreaM2).toBeCloseTo(0.36 - 0.023, 12);
  // The seam's end on the layer's edge is a point of the layer.
  expect([...stack.layers[0].regions[0][0].slice(2, 4)]).toEqual([400, 0]);
});
