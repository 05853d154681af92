import { type Box, boxOf, squaredDistanceToSegment } from '../../geometry/ring.ts';

/** Distances to a line of straight runs, as far as `reachMm`. */
export interface Course {
  readonly boxMm: Box;
  /**
   * Along one row: the span that holds every point in reach of the line, and the exact distance of a point, or any larger
   * number than the reach where it is out of reach. The span is empty (minXMm above maxXMm) when the row is.
   */
  row(yMm: number): { readonly minXMm: number; readonly maxXMm: number; distance(xMm: number): number };
}

/** Measure from the line through the points (flat x, y …), and from the last back to the first if it is closed. */
export function courseOf(points: Float64Array, isClosed: boolean, reachMm: number): Course {
  const [minX, minY, maxX, maxY] = boxOf([points]);
  const count = points.length / 2 - (isClosed ? 0 : 1);
  return {
    boxMm: [minX - reachMm, minY - reachMm, maxX + reachMm, maxY + reachMm],
    row(yMm) {
      const near: number[] = [];
      let minXMm = Infinity;
      let maxXMm = -Infinity;
      for (let i = 0; i < count; i++) {
        const from = 2 * i;
        const to = (from + 2) % points.length;
        const ax = points[from];
        const ay = points[from + 1];
        const bx = points[to];
        const by = points[to + 1];
        if (Math.min(ay, by) - reachMm > yMm || Math.max(ay, by) + reachMm < yMm) continue;
        near.push(ax, ay, bx, by);
        // Only what of the run lies no further than the reach from the row, north or south, can be in reach of it.
        const xa = ay === by ? ax : ax + (bx - ax) * shareAt(yMm - reachMm, ay, by);
        const xb = ay === by ? bx : ax + (bx - ax) * shareAt(yMm + reachMm, ay, by);
        minXMm = Math.min(minXMm, Math.min(xa, xb) - reachMm);
        maxXMm = Math.max(maxXMm, Math.max(xa, xb) + reachMm);
      }
      const runs = new Float64Array(near);
      return { minXMm, maxXMm, distance: (xMm) => distanceToRuns(xMm, yMm, runs) };
    },
  };
}

/** How much of the way from a to b lies before y, 0…1. */
const shareAt = (y: number, a: number, b: number): number => Math.min(1, Math.max(0, (y - a) / (b - a)));

function distanceToRuns(x: number, y: number, runs: Float64Array): number {
  let least = Infinity;
  for (let i = 0; i < runs.length; i += 4) {
    const squared = squaredDistanceToSegment(x, y, runs[i], runs[i + 1], runs[i + 2], runs[i + 3]);
    if (squared < least) least = squared;
  }
  return Math.sqrt(least);
}
