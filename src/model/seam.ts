import { type Point, type Ring, squaredDistanceToSegment } from '../geometry/ring.ts';
import { SNAP } from '../geometry/tolerance.ts';
import type { Layer } from './layer.ts';
import type { Piece } from './piece.ts';

/**
 * How far seams of neighbouring layers keep from one another when the job does not say: builders of foam fill offset blocks by
 * 6 in (City of Everett, geofoam specification), masons lap a stone by 1 to 1½ courses (Cyclopedia of Architecture, Carpentry
 * and Building, "Bonding stone masonry") and a brick by a quarter of a brick (Construction for Landscape): 150 mm, or a
 * layer's height where that is more; less only where boards are so narrow that seams of two layers could not both keep it,
 * a quarter of the narrowest board.
 */
const STAGGER_MM = 150;
const OF_NARROWEST = 0.25;

/** In staggers: where seams cross askew they run together for about so long. */
export const LET_PASS = 1 / 3;

/**
 * The stagger of a layer's seams from those of the next.
 * @param said the job's own; undefined when it does not say.
 */
export function staggerMm(
  said: number | undefined,
  thicknessMm: number,
  boardSizes: readonly { readonly sizeMm: readonly [number, number]; readonly thicknessMm: number }[],
): number {
  if (said !== undefined) return said;
  const narrowest = boardSizes
    .filter((board) => board.thicknessMm === thicknessMm)
    .reduce((least, { sizeMm: [a, b] }) => Math.min(least, a, b), Infinity);
  return Math.max(thicknessMm, Math.min(STAGGER_MM, OF_NARROWEST * narrowest));
}

/** The stagger that a written job says in the options of its splitter, millimetres; undefined when it says none. */
export function saidStaggerMm(job: Readonly<Record<string, unknown>>): number | undefined {
  const [options] = Object.values((job.split ?? {}) as Record<string, { seams?: { stagger?: unknown } } | undefined>);
  const stagger = options?.seams?.stagger;
  return typeof stagger === 'number' ? stagger : undefined;
}

/** The seams of some pieces as straight segments: x, y of one end, x, y of the other. Each seam once, whichever sides are given. */
export function seamSegments(pieces: readonly Pick<Piece, 'joints'>[]): number[] {
  const lines = new Map(pieces.flatMap(({ joints }) => joints.map(({ label, line }) => [label, line])));
  const segments: number[] = [];
  for (const line of lines.values()) {
    for (let i = 2; i < line.length; i += 2) segments.push(line[i - 2], line[i - 1], line[i], line[i + 1]);
  }
  return segments;
}

/**
 * The layers with every point at which a seam meets a layer's ring put into that ring: pieces, laid together again, then
 * have no point that their layer lacks. A seam's end lies on the grid, and within millionths of a millimetre of the edge.
 */
export function withSeamPoints(layers: readonly Layer[], pieces: readonly Piece[]): Layer[] {
  return layers.map((layer) => {
    const joints = pieces.filter((piece) => piece.layer === layer.number).flatMap((piece) => piece.joints);
    const ends = joints.flatMap(({ line }): Point[] => [
      [line[0], line[1]],
      [line[line.length - 2], line[line.length - 1]],
    ]);
    if (ends.length === 0) return layer;
    return { ...layer, regions: layer.regions.map((region) => region.map((ring) => withPoints(ring, ends))) };
  });
}

/** A ring with those of the points put in that lie on its edges and are not its own already, in order along each edge. */
function withPoints(ring: Ring, points: readonly Point[]): Ring {
  const added = new Map<number, Point[]>();
  for (const point of points) {
    const edge = edgeUnder(point, ring);
    if (edge >= 0) added.set(edge, [...(added.get(edge) ?? []), point]);
  }
  if (added.size === 0) return ring;
  const result: number[] = [];
  for (let i = 0; i < ring.length; i += 2) {
    const j = (i + 2) % ring.length;
    const [ax, ay, bx, by] = [ring[i], ring[i + 1], ring[j], ring[j + 1]];
    const along = ([x, y]: Point) => (x - ax) * (bx - ax) + (y - ay) * (by - ay);
    result.push(ax, ay);
    let last: Point = [ax, ay];
    for (const point of (added.get(i) ?? []).sort((a, b) => along(a) - along(b) || a[0] - b[0] || a[1] - b[1])) {
      // Both sides of a joint bring the same end.
      if (point[0] !== last[0] || point[1] !== last[1]) result.push(...point);
      last = point;
    }
  }
  return new Float64Array(result);
}

/**
 * Where in the ring the edge starts on which a point lies; −1 when it lies on none or is a corner. The nearest one: beside
 * a sharp corner a point is within SNAP of both edges.
 */
function edgeUnder([x, y]: Point, ring: Ring): number {
  let edge = -1;
  let least = SNAP * SNAP;
  for (let i = 0; i < ring.length; i += 2) {
    if (ring[i] === x && ring[i + 1] === y) return -1;
    const j = (i + 2) % ring.length;
    const squared = squaredDistanceToSegment(x, y, ring[i], ring[i + 1], ring[j], ring[j + 1]);
    if (squared < least) {
      least = squared;
      edge = i;
    }
  }
  return edge;
}
