import { turn } from '../../geometry/exact-math.ts';
import type { Box, Point } from '../../geometry/ring.ts';
import type { Kit } from '../../plugin.ts';

/** Where an oval lies: lengths in millimetres, one of radius and radii. */
export interface OvalOptions {
  readonly at: Point;
  readonly radius?: number | undefined;
  readonly radii?: readonly [number, number] | undefined;
  readonly turn: number;
}

/** What mounds, basins and `within` say of their oval. */
export const ovalOptions = ({ z, length, point, size }: Kit) => ({
  at: point().describe('the middle'),
  radius: length({ above: 0 }).optional().describe('from the middle to the foot'),
  radii: size().optional().describe('of an oval: the radius along x and the one along y, before it is turned'),
  turn: z.number().min(-360).max(360).default(0).describe('degrees, counter-clockwise'),
});

/** An oval is round, with a radius, or has radii. */
export const hasOneRadius = ({ radius, radii }: Pick<OvalOptions, 'radius' | 'radii'>): boolean =>
  (radius === undefined) !== (radii === undefined);
export const ONE_RADIUS = 'An oval has one of radius and radii.\nWrite one of the two.';

/** An oval: its distance ratio is 0 in the middle and 1 on the outline. */
export interface Oval {
  readonly boxMm: Box;
  readonly leastRadiusMm: number;
  row(yMm: number): { readonly minXMm: number; readonly maxXMm: number; ratio(xMm: number): number };
}

/** With the axes u, v of the oval, the ratio is √((u / a)² + (v / b)²). Quarter turns are exact. */
export function ovalOf({
  at: [atX, atY],
  radius = 0,
  radii: [a, b] = [radius, radius],
  turn: turnDeg,
}: OvalOptions): Oval {
  const { cos, sin } = turn(turnDeg);
  const halfWidth = Math.sqrt(a * cos * (a * cos) + b * sin * (b * sin));
  const halfDepth = Math.sqrt(a * sin * (a * sin) + b * cos * (b * cos));
  // At dy off the middle the outline stands at slant × dy ± √(1 − (dy / halfDepth)²) × a b / halfDepth.
  const slant = ((a - b) * (a + b) * cos * sin) / (halfDepth * halfDepth);
  return {
    boxMm: [atX - halfWidth, atY - halfDepth, atX + halfWidth, atY + halfDepth],
    leastRadiusMm: Math.min(a, b),
    row(yMm) {
      const dy = yMm - atY;
      const share = dy / halfDepth;
      const half = (Math.sqrt(Math.max(0, 1 - share * share)) * a * b) / halfDepth;
      const middle = atX + slant * dy;
      return {
        minXMm: middle - half,
        maxXMm: middle + half,
        ratio(xMm) {
          const dx = xMm - atX;
          const u = (dx * cos + dy * sin) / a;
          const v = (dy * cos - dx * sin) / b;
          return Math.sqrt(u * u + v * v);
        },
      };
    },
  };
}
