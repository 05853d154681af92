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
