import { type Point, type Ring, squaredDistanceToSegment } from '../geometry/ring.ts';
import { SNAP } from '../geometry/tolerance.ts';
import type { Layer } from './layer.ts';
import type { Piece } from './piece.ts';

/**
 * How far seams of neighbouring layers keep from one another, in thicknesses. Masons lap stones by 1 to 1½ courses, builders
 * of foam fill by 6 in (150 mm) whatever the course (City of Everett, geofoam notes, as quoted in trade literature); three
 * thicknesses are 150 mm for boards of 50 and stay in proportion for others.
 */
export const STAGGER = 3;

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
