import { type Region, regionArea } from '../../src/geometry/ring.ts';
import type { Layer } from '../../src/model/layer.ts';
import type { LayoutBoard } from '../../src/model/layout.ts';
import type { Joint, Piece } from '../../src/model/piece.ts';
import type { Plan } from '../../src/model/plan.ts';
import { smallPlan } from './small-plan.ts';

export const THICK_MM = 50;

/** A lying layer of boards of 50. */
export const layerOf = (number: number, ...regions: Region[]): Layer => ({
  number,
  bottomMm: (number - 1) * THICK_MM,
  thicknessMm: THICK_MM,
  regions,
});

/** A piece of such a layer, by its name. */
export const pieceOf = (name: string, region: Region, more: Partial<Piece> = {}): Piece => {
  const layer = Number.parseInt(name, 10);
  const bottomMm = (layer - 1) * THICK_MM;
  const bare = { joints: [], pins: [], slits: [], placing: [] };
  return { name, layer, bottomMm, thicknessMm: THICK_MM, region, areaMm2: regionArea(region), ...bare, ...more };
};

/** One side of a joint. */
export const jointOf = (label: string, neighbour: string, ...line: number[]): Joint => ({
  label,
  neighbour,
  line: Float64Array.from(line),
  matches: [],
});

/** Every piece on one board of some density, nowhere in particular. */
export const boardOf = (pieces: readonly Piece[], densityKgM3 = 15): LayoutBoard => ({
  number: 1,
  stock: 'EPS',
  sizeMm: [2400, 1200],
  thicknessMm: THICK_MM,
  densityKgM3,
  trimMm: 0,
  placed: pieces.map(({ name }, i) => ({ piece: name, blank: i, turnDeg: 0, mirrored: false, xMm: 0, yMm: 0 })),
  offcuts: [],
});

/** A plan of such layers and pieces, and as much else as checks read. */
export function piecedPlan(
  layers: readonly Layer[],
  pieces: readonly Piece[],
  { facts, ...more }: { facts?: Partial<Plan['facts']> } & Partial<Omit<Plan, 'facts'>> = {},
): Plan {
  const plan = smallPlan({ stack: { kind: 'flat', layers }, pieces, boards: [boardOf(pieces)], ...more });
  return { ...plan, facts: { ...plan.facts, ...facts } };
}
