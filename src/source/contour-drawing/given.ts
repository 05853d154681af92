import { ln, pow } from '../../geometry/exact-math.ts';
import type { Given, PostGrid } from '../../geometry/surface.ts';
import type { PostLayout } from '../../model/post-layout.ts';
import type { Doubts } from './checks.ts';
import type { Placed } from './place.ts';
import type { Line } from './sort.ts';

type Place = { readonly x: number; readonly y: number };

/** What the surface must pass through. A spot that is given twice counts once. */
export function givenOf({ contours, spots, creases, tears }: Placed, { repeated }: Doubts): Given {
  const lines = contours.map(({ points, zMm }) => {
    const line = new Float64Array((points.length / 2) * 3).fill(zMm);
    for (let i = 0, at = 0; i < points.length; i += 2, at += 3) {
      line[at] = points[i];
      line[at + 1] = points[i + 1];
    }
    return line;
  });
  const once = spots.filter((spot) => !repeated.has(spot));
  const pointsOf = ({ points }: Line) => points;
  return {
    spots: Float64Array.from(once.flatMap(({ x, y, zMm }) => [x, y, zMm])),
    lines,
    creases: creases.map(pointsOf),
    tears: tears.map(pointsOf),
  };
}

export const postsAt = ({ columns, rows, stepXMm, stepYMm }: PostLayout): PostGrid => ({
  ...{ columns, rows, stepX: stepXMm, stepY: stepYMm },
  ...{ originX: 0, originY: 0 },
});

/** Whether it was told already that the drawing cannot be right near a place. */
export function isInDoubt({ meetings, contradictions }: Doubts, { x, y }: Place, reachMm: number): boolean {
  const places = [...meetings, ...contradictions.map(({ spot }) => spot)];
  return places.some((other) => Math.max(Math.abs(other.x - x), Math.abs(other.y - y)) <= reachMm);
}

/** The spacing that would hold what is given at a place: two steps between lines of different heights, and half of what is. */
export function finer({ contours, contourIndex }: Placed, { x, y }: Place, spacingMm: number): number {
  const near = contourIndex.near(x, y, 2 * spacingMm).sort((a, b) => a.distance - b.distance);
  const other = near.find(({ line }) => contours[line].zMm !== contours[near[0].line].zMm);
  const wantedMm = Math.min(spacingMm / 2, other ? other.distance / 2 : Infinity);
  // Two figures are enough to say.
  const unit = pow(10, Math.floor(ln(wantedMm) / ln(10)) - 1);
  return Math.max(0.01, Math.floor(wantedMm / unit) * unit);
}

/** How many steps from post to post all lines make together, as far as they run over the ground. */
export function stepsOf({ contours, creases, tears, sizeMm }: Placed, { stepXMm, stepYMm }: PostLayout): number {
  const over = (at: number, i: 0 | 1) => Math.min(Math.max(at, 0), sizeMm[i]);
  let steps = 0;
  for (const { points } of [...contours, ...creases, ...tears]) {
    for (let i = 2; i < points.length; i += 2) {
      steps += Math.abs(over(points[i], 0) - over(points[i - 2], 0)) / stepXMm;
      steps += Math.abs(over(points[i + 1], 1) - over(points[i - 1], 1)) / stepYMm;
    }
  }
  return steps;
}
