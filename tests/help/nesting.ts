import { regionsFromRings } from '../../src/geometry/clip.ts';
import { type Random, stream } from '../../src/geometry/random.ts';
import { moved, type Region, type Ring, regionArea } from '../../src/geometry/ring.ts';
import type { Facts } from '../../src/model/facts.ts';
import type { Layout } from '../../src/model/layout.ts';
import type { Blank, Piece } from '../../src/model/piece.ts';
import type { Plan } from '../../src/model/plan.ts';
import type { Offcut, StockBoard } from '../../src/model/stock.ts';
import { NOTHING_SAID } from '../../src/model/work.ts';
import { boardFacts, NOT_SAID } from './board-facts.ts';

/** A piece from its outline; everything that nesting does not read is empty. */
export function piece(name: string, region: Region, thicknessMm = 50): Piece {
  const none = { joints: [], pins: [], slits: [], placing: [] };
  return {
    name,
    layer: Number.parseInt(name, 10),
    bottomMm: 0,
    thicknessMm,
    region,
    areaMm2: regionArea(region),
    ...none,
  };
}

export const blank = (name: string, region: Region, thicknessMm = 50): Blank => ({
  pieces: [piece(name, region, thicknessMm)],
  sharedCuts: [],
});

export const board = (sizeMm: readonly [number, number], more: Partial<StockBoard> = {}): StockBoard => ({
  name: `foam ${sizeMm[0]}`,
  sizeMm,
  thicknessMm: 50,
  densityKgM3: 15,
  price: null,
  count: null,
  trimMm: 0,
  faced: true,
  ...more,
});

export const offcut = (name: string, rings: readonly Ring[], thicknessMm = 50): Offcut => ({
  name,
  material: 'EPS',
  thicknessMm,
  densityKgM3: 15,
  rings,
  from: 'an earlier job',
});

/** The facts of a nest, and of a plan around it. */
export function factsOf(
  boards: readonly StockBoard[],
  gapMm: number,
  offcuts: readonly Offcut[] = [],
  kerfMm = 2,
): Facts {
  return {
    stock: { boards, offcuts },
    ...boardFacts([...new Set(boards.map(({ thicknessMm }) => thicknessMm))].sort((a, b) => a - b)),
    boardSizes: boards,
    tool: { kind: 'hot wire', kerfMm, ...NOT_SAID },
    gapMm,
    cover: null,
    front: { side: 'south', word: 'AUDIENCE' },
    carry: { sizeMm: null, massKg: null },
    way: { door: null, stair: null, lift: null, van: null },
    zones: [],
    pieces: [],
    work: NOTHING_SAID,
  };
}

/** As much of a plan as a check of its layout reads. */
export const planOf = (blanks: readonly Blank[], layout: Layout, facts: Facts): Plan =>
  ({ facts, blanks, pieces: blanks.flatMap(({ pieces }) => pieces), ...layout, findings: [] }) as unknown as Plan;

/**
 * A lopsided outline about the origin: a wobbly closed line of 20 to 200 points. A third are rings with a hole off their
 * middle, a third are bent like a banana, the rest are blobs; sizes differ by a factor of five.
 */
export function lopsided(random: Random, largestMm: number, points = 20 + Math.floor(random() * 181)): Region {
  const radius = (largestMm / 2) * (0.2 + 0.75 * random());
  const squash = 0.45 + 0.5 * random();
  const waves = [2, 3, 5, 7].map((count) => ({
    count,
    phase: 7 * random(),
    depth: (0.16 * random()) / Math.sqrt(count),
  }));
  const sort = Math.floor(random() * 3);
  const bend = sort === 1 ? 1.2 + random() : 0;
  const ring = (scale: number, dx: number, dy: number) => {
    const flat = new Float64Array(2 * points);
    for (let i = 0; i < points; i++) {
      const angle = (2 * Math.PI * i) / points;
      const wobble = waves.reduce((sum, { count, phase, depth }) => sum + depth * Math.sin(count * angle + phase), 0.8);
      const x = radius * scale * wobble * Math.cos(angle) + dx;
      const y = radius * scale * squash * wobble * Math.sin(angle) * (bend > 0 ? 0.5 : 1) + dy;
      flat[2 * i] = x;
      flat[2 * i + 1] = y + (bend * x * x) / (2 * radius);
    }
    return flat;
  };
  const rings =
    sort === 0 ? [ring(1, 0, 0), ring(0.55 + 0.2 * random(), 0.04 * radius, 0.03 * radius)] : [ring(1, 0, 0)];
  return regionsFromRings(rings).sort((a, b) => regionArea(b) - regionArea(a))[0];
}

/** Lopsided pieces that stand anywhere in a landform, by a seed. */
export function lopsidedBlanks(seed: number, count: number, largestMm: number, points?: number): Blank[] {
  const random = stream(seed, 'lopsided');
  return Array.from({ length: count }, (_, i) => {
    const [dx, dy] = [Math.round(random() * 9e6) / 1000, Math.round(random() * 7e6) / 1000];
    const region = lopsided(random, largestMm, points).map((ring) =>
      moved(ring, dx, dy).map((v) => Math.round(v * 1000) / 1000),
    );
    return blank(`${1 + Math.floor(i / 5)}${'ACDEF'[i % 5]}`, region);
  });
}
