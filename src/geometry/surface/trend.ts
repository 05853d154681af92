import type { Held } from './given-points.ts';

/** z = level + slopeX · (x − x0) + slopeY · (y − y0), places in steps. */
export interface Trend {
  readonly x0: number;
  readonly y0: number;
  readonly level: number;
  readonly slopeX: number;
  readonly slopeY: number;
}

/** A spread across the line of best fit below this part of the spread along it says nothing of a slope. */
const THIN = 1e-9;

/**
 * The plane of least squares through points: level when all lie in one place (at 0 when there are none), and level across
 * the line when all lie on one. `stretch` is the step in x over the step in y.
 */
export function trendOf({ columns, rows, z }: Held, stretch: number): Trend {
  let [x0, y0, level] = [0, 0, 0];
  for (let k = 0; k < z.length; k++) {
    x0 += columns[k] / z.length;
    y0 += rows[k] / z.length;
    level += z[k] / z.length;
  }
  let [xx, xy, yy, xz, yz] = [0, 0, 0, 0, 0];
  for (let k = 0; k < z.length; k++) {
    const x = (columns[k] - x0) * stretch;
    const y = rows[k] - y0;
    xx += x * x;
    xy += x * y;
    yy += y * y;
    xz += x * (z[k] - level);
    yz += y * (z[k] - level);
  }
  const spread = xx + yy;
  const determinant = xx * yy - xy * xy;
  if (spread === 0) return { x0, y0, level, slopeX: 0, slopeY: 0 };
  if (determinant > THIN * spread * spread) {
    const slopeX = ((xz * yy - yz * xy) / determinant) * stretch;
    return { x0, y0, level, slopeX, slopeY: (yz * xx - xz * xy) / determinant };
  }
  // All on one line: the direction of most spread is the longer row of the matrix of spreads.
  const [dx, dy] = xx >= yy ? [xx, xy] : [xy, yy];
  const slope = (xz * dx + yz * dy) / (xx * dx * dx + 2 * xy * dx * dy + yy * dy * dy);
  return { x0, y0, level, slopeX: slope * dx * stretch, slopeY: slope * dy };
}

export const trendAt = ({ x0, y0, level, slopeX, slopeY }: Trend, x: number, y: number): number =>
  level + slopeX * (x - x0) + slopeY * (y - y0);
