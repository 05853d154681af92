import { regionsWherePositive } from '../geometry/clip.ts';
import { leftEdges } from '../geometry/left-edges.ts';
import { type Region, type Ring, regionArea, reversed, ringLength, ringsOf } from '../geometry/ring.ts';
import { SNAP } from '../geometry/tolerance.ts';
import type { Layer } from '../model/layer.ts';
import type { Piece } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';

/** A lying layer with its pieces, and how these differ from it when they are put together again. */
export interface Course {
  readonly layer: Layer;
  readonly pieces: readonly Piece[];
  /** What lies in no piece: voids, and room for decks. */
  readonly missing: readonly Region[];
  /** What lies in two pieces, or in one and not in the layer. */
  readonly over: readonly Region[];
}

/** Difference in area that is none: what the sum of many areas may lose. */
const CLOSED_MM2 = 0.01;

/** The layers of a plan, from the ground up, laid against their pieces. */
export function coursesOf({ stack, pieces }: Plan): Course[] {
  const byLayer = new Map<number, Piece[]>(stack.layers.map(({ number }) => [number, []]));
  for (const piece of pieces) byLayer.get(piece.layer)?.push(piece);
  return stack.layers.map((layer) => {
    const own = byLayer.get(layer.number) ?? [];
    const left = leftEdges(ringsOf(layer.regions), ringsOf(own.map(({ region }) => region)));
    return { layer, pieces: own, missing: areas(left.map(reversed)), over: areas(left) };
  });
}

/** What rings wind round, but for slivers that the grid explains: no wider, on the whole, than two of its steps. */
const areas = (rings: readonly Ring[]): Region[] =>
  regionsWherePositive(rings).filter((region) => {
    const around = region.reduce((sum, ring) => sum + ringLength(ring), 0);
    return regionArea(region) > CLOSED_MM2 + SNAP * around;
  });
