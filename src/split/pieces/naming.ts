import type { Point } from '../../geometry/ring.ts';
import type { Front } from '../../model/facts.ts';

/**
 * The order in which a crew that stands at the front reads a layer: row by row from the front to the back, each from left to
 * right. Gives the numbers of the points in that order. Two in one place keep the order in which they came.
 * @param rowMm depth of a row.
 */
export function readingOrder(points: readonly Point[], side: Front['side'], rowMm: number): number[] {
  const seen = points.map((point) => fromFront(point, side));
  const nearest = seen.reduce((least, [, depth]) => Math.min(least, depth), Infinity);
  const row = ([, depth]: Point) => Math.floor((depth - nearest) / rowMm);
  return seen
    .map((_, i) => i)
    .sort((i, k) => row(seen[i]) - row(seen[k]) || seen[i][0] - seen[k][0] || seen[i][1] - seen[k][1] || i - k);
}

/** How far to the right and how deep a point lies for who looks from a side. */
export function fromFront([x, y]: Point, side: Front['side']): Point {
  if (side === 'south') return [x, y];
  if (side === 'north') return [-x, -y];
  if (side === 'west') return [-y, x];
  return [y, -x];
}
