/**
 * Landform jobs of our own for packing: rings, sectors of rings bent like bananas, islands, as stacked contours give them;
 * outlines of 100 to 600 points. All follow from a seed.
 */
import { stream } from '../../src/geometry/random.ts';
import { type Region, reversed } from '../../src/geometry/ring.ts';
import type { Facts } from '../../src/model/facts.ts';
import type { Blank } from '../../src/model/piece.ts';
import { blank, board, factsOf, offcut } from './nesting.ts';

export interface ContourJob {
  readonly name: string;
  readonly blanks: readonly Blank[];
  readonly facts: Facts;
}

interface Shape {
  readonly name: string;
  readonly seed: number;
  /** Contours of each hill, and into how many sectors their rings are cut: 1 leaves them whole. */
  readonly hills: number;
  readonly contours: number;
  readonly sectors: number;
  readonly islands: number;
  /** Radius of the lowest contour, and points of each. */
  readonly radiusMm: number;
  readonly points: number;
  readonly gapMm: number;
  readonly kept?: boolean;
}

const SHAPES: readonly Shape[] = [
  {
    name: 'one hill in rings',
    seed: 1,
    hills: 1,
    contours: 20,
    sectors: 1,
    islands: 0,
    radiusMm: 580,
    points: 300,
    gapMm: 12,
  },
  {
    name: 'two hills in rings',
    seed: 2,
    hills: 2,
    contours: 16,
    sectors: 1,
    islands: 6,
    radiusMm: 520,
    points: 240,
    gapMm: 10,
  },
  { name: 'bananas', seed: 3, hills: 1, contours: 14, sectors: 5, islands: 0, radiusMm: 1500, points: 600, gapMm: 12 },
  {
    name: 'bananas of two hills',
    seed: 4,
    hills: 2,
    contours: 12,
    sectors: 4,
    islands: 0,
    radiusMm: 1100,
    points: 480,
    gapMm: 12,
  },
  { name: 'islands', seed: 5, hills: 0, contours: 0, sectors: 1, islands: 60, radiusMm: 420, points: 120, gapMm: 8 },
  {
    name: 'islands and rings',
    seed: 6,
    hills: 2,
    contours: 10,
    sectors: 1,
    islands: 40,
    radiusMm: 500,
    points: 160,
    gapMm: 10,
  },
  {
    name: 'bananas with offcuts',
    seed: 7,
    hills: 1,
    contours: 16,
    sectors: 6,
    islands: 10,
    radiusMm: 1400,
    points: 500,
    gapMm: 12,
    kept: true,
  },
  {
    name: 'rings with offcuts',
    seed: 8,
    hills: 1,
    contours: 18,
    sectors: 1,
    islands: 12,
    radiusMm: 560,
    points: 260,
    gapMm: 10,
    kept: true,
  },
  {
    name: 'a long bank',
    seed: 9,
    hills: 3,
    contours: 9,
    sectors: 3,
    islands: 0,
    radiusMm: 900,
    points: 360,
    gapMm: 12,
  },
  {
    name: 'many small',
    seed: 10,
    hills: 6,
    contours: 10,
    sectors: 2,
    islands: 80,
    radiusMm: 300,
    points: 110,
    gapMm: 6,
  },
  {
    name: 'three hundred',
    seed: 11,
    hills: 5,
    contours: 12,
    sectors: 4,
    islands: 60,
    radiusMm: 420,
    points: 140,
    gapMm: 6,
    kept: true,
  },
  {
    name: 'broad sectors',
    seed: 12,
    hills: 1,
    contours: 12,
    sectors: 8,
    islands: 0,
    radiusMm: 2200,
    points: 600,
    gapMm: 12,
  },
];

/** Every job of the set. */
export const contourJobs = (): ContourJob[] =>
  SHAPES.map((shape) => ({ name: shape.name, blanks: blanksOf(shape), facts: stockOf(shape) }));

function stockOf({ gapMm, kept }: Shape): Facts {
  const offcuts = kept
    ? [
        offcut('ell', [new Float64Array([0, 0, 1100, 0, 1100, 420, 560, 420, 560, 900, 0, 900])]),
        offcut('strip', [new Float64Array([0, 0, 1800, 0, 1760, 310, 0, 340])]),
        offcut('with a hole', [
          new Float64Array([0, 0, 900, 0, 900, 700, 0, 700]),
          reversed(new Float64Array([400, 300, 520, 310, 480, 430])),
        ]),
      ]
    : [];
  return factsOf(
    [board([2400, 1200], { trimMm: 5, price: 14.5 }), board([1250, 600], { name: 'small', trimMm: 5, price: 4.2 })],
    gapMm,
    offcuts,
  );
}

function blanksOf({ seed, hills, contours, sectors, islands, radiusMm, points, ...rest }: Shape): Blank[] {
  const random = stream(seed, 'contours', rest.name);
  const regions: Region[] = [];
  for (let hill = 0; hill < hills; hill++) {
    const at = wobble(random);
    const scale = (k: number) => radiusMm * (1 - k / (contours + 2)) * (1 - 0.15 * (hill % 3));
    for (let k = 0; k < contours; k++) {
      const [out, inn] = [scale(k), scale(k + 2)];
      if (sectors === 1) regions.push([ring(at, out, points), reversed(ring(at, inn, points))]);
      else
        for (let s = 0; s < sectors; s++)
          regions.push([sector(at, out, inn, (s + (k % 2) / 2) / sectors, 1 / sectors, points)]);
    }
  }
  for (let i = 0; i < islands; i++)
    regions.push([ring(wobble(random), radiusMm * (0.12 + 0.4 * random() * random()), points)]);
  const snap = (region: Region): Region => region.map((one) => one.map((v) => Math.round(v * 1000) / 1000));
  return regions.map((region, i) => blank(`${1 + Math.floor(i / 5)}${'ACDEF'[i % 5]}`, snap(region)));
}

type Wobble = (turn: number) => number;

function wobble(random: () => number): Wobble {
  const waves = [2, 3, 5, 9].map((count) => ({
    count,
    phase: 7 * random(),
    depth: (0.2 * random()) / Math.sqrt(count),
  }));
  return (turn) =>
    waves.reduce((sum, { count, phase, depth }) => sum + depth * Math.sin(2 * Math.PI * count * turn + phase), 1);
}

const point = (at: Wobble, radius: number, turn: number): [number, number] => [
  radius * at(turn) * Math.cos(2 * Math.PI * turn),
  0.7 * radius * at(turn) * Math.sin(2 * Math.PI * turn),
];

const ring = (at: Wobble, radius: number, points: number): Float64Array =>
  Float64Array.from(Array.from({ length: points }, (_, i) => point(at, radius, i / points)).flat());

function sector(at: Wobble, out: number, inn: number, from: number, share: number, points: number): Float64Array {
  const half = Math.ceil((points * share) / 2) + 40;
  const arc = (radius: number) =>
    Array.from({ length: half }, (_, i) => point(at, radius, from + (share * i) / (half - 1)));
  return Float64Array.from([...arc(out), ...arc(inn).reverse()].flat());
}
