import { refuse } from '../../findings.ts';
import { type Gap, gapBetween } from '../../model/openings.ts';
import type { Edges } from './close.ts';
import { apart } from './fill.ts';

export interface Rim {
  /** Vertex numbers once round, in the sense in which the triangles that are missing would run it. */
  readonly corners: readonly number[];
  readonly gap: Gap;
}

/** A surface with more holes than this is a heap of triangles. */
const MOST_RIMS = 20_000;
/** Wide rims of more corners than this together are not looked through for pairs that run along each other. */
const MOST_PAIRED = 10_000;
/** Pairs of wide rims that are near each other are tried as seams no more often than this. */
const MOST_TRIED = 5_000;

/**
 * The rims of a surface's holes, chained by edges. Each vertex is passed once in a rim. Two rims too wide to be closed
 * that run along each other, as where two halves were never joined, become one: out along the first, over to the second
 * and back, so that what is closed is the seam between them.
 */
export function rimsOf(edges: Edges, positions: Float64Array, closeMm: number, file: string): Rim[] {
  const measured = (corners: readonly number[]): Rim => ({
    corners,
    gap: gapBetween(positions, corners, -Infinity, Infinity) as Gap,
  });
  const rims = loops(edges, file).map(measured);
  const wide = rims.filter(({ gap }) => gap.gapMm > closeMm);
  if (wide.length < 2 || wide.reduce((sum, { corners }) => sum + corners.length, 0) > MOST_PAIRED) return rims;
  const done = new Set<Rim>();
  const seams: Rim[] = [];
  let tried = 0;
  for (const [i, one] of wide.entries()) {
    for (const other of wide.slice(i + 1)) {
      if (done.has(one) || done.has(other) || tried >= MOST_TRIED) continue;
      const seam = seamOf(one.corners, other.corners, positions, closeMm);
      if (seam) tried++;
      const joined = seam && measured(seam);
      if (!joined || joined.gap.gapMm > closeMm) continue;
      seams.push(joined);
      done.add(one).add(other);
    }
  }
  return [...rims.filter((rim) => !done.has(rim)), ...seams];
}

/** Two rims as one, joined where they are nearest; null when they are nowhere near. */
function seamOf(one: readonly number[], other: readonly number[], positions: Float64Array, closeMm: number) {
  let nearest = closeMm;
  let at: readonly [number, number] | null = null;
  for (let i = 0; i < one.length; i++) {
    for (let j = 0; j < other.length; j++) {
      const far = apart(positions, one[i], other[j]);
      if (far > nearest || (at && far === nearest)) continue;
      nearest = far;
      at = [i, j];
    }
  }
  if (!at) return null;
  const [i, j] = at;
  return [...one.slice(i), ...one.slice(0, i + 1), ...other.slice(j), ...other.slice(0, j + 1)];
}

/** The open edges as closed walks that pass each vertex once, run the way that is missing. */
function loops({ pairs, net }: Edges, file: string): number[][] {
  /** The open edges that start at a vertex, as a linked list by edge number. */
  const first = new Map<number, number>();
  const next = new Map<number, number>();
  for (let edge = net.length - 1; edge >= 0; edge--) {
    if (net[edge] === 0) continue;
    const from = net[edge] > 0 ? pairs.secondOf(edge) : pairs.firstOf(edge);
    next.set(edge, first.get(from) ?? -1);
    first.set(from, edge);
  }
  const found: number[][] = [];
  for (const start of [...first.keys()].sort((a, b) => a - b)) {
    const path: number[] = [];
    const placeOf = new Map<number, number>();
    for (let vertex = start; ; ) {
      const place = placeOf.get(vertex);
      if (place !== undefined) {
        const loop = path.splice(place);
        for (const each of loop) placeOf.delete(each);
        if (found.push(loop) > MOST_RIMS) refuseHeap(file);
      }
      const edge = first.get(vertex) ?? -1;
      if (edge < 0) break;
      first.set(vertex, next.get(edge) ?? -1);
      placeOf.set(vertex, path.push(vertex) - 1);
      vertex = net[edge] > 0 ? pairs.firstOf(edge) : pairs.secondOf(edge);
    }
  }
  return found;
}

const refuseHeap = (file: string): never =>
  refuse(
    'source/not-closed',
    `This is not a closed solid: its surface has more than ${MOST_RIMS} holes.`,
    'Join its points and close its holes in the program it was drawn with; bare ground can be read as a height grid or height image.',
    { file },
  );
