import { intersect, offset, subtract, unite } from '../../src/geometry/clip.ts';
import { stream } from '../../src/geometry/random.ts';
import type { Region, Ring } from '../../src/geometry/ring.ts';
import type { Facts } from '../../src/model/facts.ts';
import type { Layer, LayerStack } from '../../src/model/layer.ts';
import { NOT_SAID } from './board-facts.ts';

const onGrid = (value: number) => Math.round(value * 1000) / 1000;

/** A lopsided outline round a point, on the grid of a thousandth. */
export function blob(x: number, y: number, rx: number, ry: number, points: number, seed: number): Ring {
  const random = stream(seed, 'blob');
  const waves = [2, 3, 5, 7].map((turns) => ({ turns, shift: 6.3 * random(), size: (0.25 * random()) / turns }));
  const ring = new Float64Array(2 * points);
  for (let i = 0; i < points; i++) {
    const angle = (2 * Math.PI * i) / points;
    const reach = waves.reduce((sum, { turns, shift, size }) => sum + size * Math.sin(turns * angle + shift), 0.9);
    ring[2 * i] = onGrid(x + rx * reach * Math.cos(angle));
    ring[2 * i + 1] = onGrid(y + ry * reach * Math.sin(angle));
  }
  return ring;
}

export interface StackSize {
  readonly widthMm: number;
  readonly depthMm: number;
  readonly layers: number;
  readonly thicknessMm: number;
  readonly points: number;
}

/** A random hill of nested layers with a pit and, sometimes, a second summit. Each layer lies within the one beneath. */
export function randomStack(seed: number, size: Partial<StackSize> = {}): LayerStack {
  const { widthMm, depthMm, layers, thicknessMm, points } = {
    widthMm: 3700,
    depthMm: 2300,
    layers: 5,
    thicknessMm: 50,
    points: 90,
    ...size,
  };
  const random = stream(seed, 'stack');
  const at = (share: number, spread: number) => share + spread * (random() - 0.5);
  const [x, y] = [widthMm * at(0.47, 0.1), depthMm * at(0.52, 0.1)];
  const [sx, sy] = [widthMm * at(0.7, 0.15), depthMm * at(0.35, 0.15)];
  const pit = blob(widthMm * at(0.42, 0.2), depthMm * at(0.5, 0.2), widthMm * 0.11, depthMm * 0.13, 31, seed + 1);
  const found: Layer[] = [];
  let below: readonly Region[] | undefined;
  for (let number = 1; number <= layers; number++) {
    const share = 1 - (number - 1) / (layers + 0.7);
    const rings = [blob(x, y, (widthMm / 2) * share, (depthMm / 2) * share, points, seed)];
    if (seed % 2 === 1) rings.push(blob(sx, sy, widthMm * 0.28 * share, depthMm * 0.33 * share, points - 7, seed + 5));
    let regions: readonly Region[] = unite(rings.map((ring) => [ring]));
    if (seed % 3 !== 0) regions = subtract(regions, offset([[pit]], 17 * number));
    if (below) regions = intersect(regions, below);
    if (regions.length === 0) break;
    found.push({ number, bottomMm: (number - 1) * thicknessMm, thicknessMm, regions });
    below = regions;
  }
  return { kind: 'flat', layers: found };
}

/** What a splitter is told of the job, with boards of 2400 × 1200 × 50 unless said otherwise. */
export const splitFacts = (
  other: Partial<Pick<Facts, 'boardSizes' | 'tool' | 'carry' | 'way' | 'front' | 'zones'>> = {},
): Pick<Facts, 'boardSizes' | 'tool' | 'gapMm' | 'cover' | 'front' | 'carry' | 'way' | 'zones'> => ({
  boardSizes: [{ sizeMm: [2400, 1200], thicknessMm: 50, densityKgM3: 15, trimMm: 5 }],
  tool: { kind: 'hot wire', kerfMm: 2, ...NOT_SAID },
  gapMm: 12,
  cover: null,
  front: { side: 'south', word: 'AUDIENCE' },
  carry: { sizeMm: null, massKg: null },
  way: { door: null, stair: null, lift: null, van: null },
  zones: [],
  ...other,
});
