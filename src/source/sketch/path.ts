import { type Box, boxOf, type Point } from '../../geometry/ring.ts';
import type { Kit } from '../../plugin.ts';

/** A point of a path: `[x, y]`, or with values of its own, `{ at: [x, y], width: 300 }`. */
export type PathPoint<V extends string> = Point | ({ readonly at: Point } & { readonly [K in V]?: number | undefined });

/** The points that the middle of a path runs through. `own` are the lengths that each may have of its own. */
export const alongOption = <V extends string>({ z, point }: Kit, own: Record<V, ReturnType<Kit['length']>>) => {
  const values = Object.fromEntries(
    Object.entries(own).map(([key, form]) => [key, (form as (typeof own)[V]).optional()]),
  );
  const withValues = z.strictObject({ at: point(), ...values }) as unknown as ReturnType<
    typeof z.custom<{ at: Point } & { [K in V]?: number | undefined }>
  >;
  const keys = Object.keys(own).join(', ');
  return z
    .array(z.union([point(), withValues], { error: `A point is [x, y] or { at: [x, y] } with ${keys}.\nWrite it so.` }))
    .min(2)
    .describe(
      `the points its middle runs through, in straight runs: [x, y], or { at: [x, y] } with its own ${keys}, which then run evenly from point to point`,
    );
};

/** Where a point of a path is. */
export const placeOf = <V extends string>(point: PathPoint<V>): Point => (isBare(point) ? point : point.at);

/** Whether a point is nothing but its place. */
export const isBare = <V extends string>(point: PathPoint<V>): point is Point => Array.isArray(point);

/** The value of each point, the feature's where it has none of its own. */
export const valuesOf = <V extends string>(along: readonly PathPoint<V>[], key: V, otherwise: number): Float64Array =>
  Float64Array.from(along, (point) => (isBare(point) ? undefined : point[key]) ?? otherwise);

/** Straight runs, seen from points of a row. */
export interface Runs {
  readonly boxMm: Box;
  /** Numbers of the runs that may reach the row, and the span within which they do. */
  near(yMm: number): { readonly runs: readonly number[]; readonly minXMm: number; readonly maxXMm: number };
  /** The nearest point of a run: how far along it, 0…1. */
  share(run: number, xMm: number, yMm: number): number;
  /** Distance to the point at a share of a run. */
  distance(run: number, share: number, xMm: number, yMm: number): number;
}

/** Runs from place to place, each reaching so far to all sides. */
export function runsOf(places: readonly Point[], reachMm: number): Runs {
  const [minX, minY, maxX, maxY] = boxOf([Float64Array.from(places.flat())]);
  return {
    boxMm: [minX - reachMm, minY - reachMm, maxX + reachMm, maxY + reachMm],
    near(yMm) {
      const runs: number[] = [];
      let minXMm = Infinity;
      let maxXMm = -Infinity;
      for (let i = 0; i + 1 < places.length; i++) {
        const [[ax, ay], [bx, by]] = [places[i], places[i + 1]];
        if (Math.min(ay, by) - reachMm > yMm || Math.max(ay, by) + reachMm < yMm) continue;
        runs.push(i);
        minXMm = Math.min(minXMm, Math.min(ax, bx) - reachMm);
        maxXMm = Math.max(maxXMm, Math.max(ax, bx) + reachMm);
      }
      return { runs, minXMm, maxXMm };
    },
    share(run, xMm, yMm) {
      const a = places[run];
      const b = places[run + 1];
      const dx = b[0] - a[0];
      const dy = b[1] - a[1];
      const squared = dx * dx + dy * dy;
      return squared === 0 ? 0 : Math.min(1, Math.max(0, ((xMm - a[0]) * dx + (yMm - a[1]) * dy) / squared));
    },
    distance(run, share, xMm, yMm) {
      const a = places[run];
      const b = places[run + 1];
      const dx = xMm - (a[0] + share * (b[0] - a[0]));
      const dy = yMm - (a[1] + share * (b[1] - a[1]));
      return Math.sqrt(dx * dx + dy * dy);
    },
  };
}

/** A value between those at a run's ends. */
export const between = (values: Float64Array, run: number, share: number): number =>
  values[run] + share * (values[run + 1] - values[run]);
