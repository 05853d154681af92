import type { Ring } from './ring.ts';

/**
 * The mean of max(0, z − level) over a flat triangle whose corners have the heights a, b, c in any order: what of it rises
 * over the level, per unit of its plan area. Exact: over the part above, a smaller triangle, or the whole less the part
 * below, z grows straight from the level to the corner, and the mean of such a pyramid is a third of its height.
 */
export function meanOver(a: number, b: number, c: number, level: number): number {
  const low = Math.min(a, b, c);
  const high = Math.max(a, b, c);
  if (level >= high) return 0;
  const over = (a + b + c) / 3 - level;
  if (level <= low) return over;
  const middle = Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
  if (level <= middle) {
    const below = level - low;
    return over + (below * below * below) / (3 * (middle - low) * (high - low));
  }
  const above = high - level;
  return (above * above * above) / (3 * (high - low) * (high - middle));
}

/** The same between two levels: the mean of z cut to low … high, less low. */
export const meanBetween = (a: number, b: number, c: number, low: number, high: number): number =>
  meanOver(a, b, c, low) - meanOver(a, b, c, high);

/**
 * The volume over a ring in plan, of either sense and possibly in several pieces hung together, between the levels low and
 * high, under the plane z = z0 + slopeX · x + slopeY · y. Signed like the ring's area.
 */
export function ringBetween(ring: Ring, z0: number, slopeX: number, slopeY: number, low: number, high: number): number {
  let volume = 0;
  const first = ring.length < 6 ? 0 : z0 + slopeX * ring[0] + slopeY * ring[1];
  for (let i = 2; i + 3 < ring.length; i += 2) {
    const twice = (ring[i] - ring[0]) * (ring[i + 3] - ring[1]) - (ring[i + 2] - ring[0]) * (ring[i + 1] - ring[1]);
    const second = z0 + slopeX * ring[i] + slopeY * ring[i + 1];
    const third = z0 + slopeX * ring[i + 2] + slopeY * ring[i + 3];
    volume += (twice / 2) * meanBetween(first, second, third, low, high);
  }
  return volume;
}
