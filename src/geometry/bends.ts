import { atan2, length, PI } from './exact-math.ts';
import { type Ring, ringLength } from './ring.ts';

/**
 * The length of a closed ring where it bends more tightly than a radius: there the directions before and behind a stretch
 * of one radius differ by more than a radian. Corners count, with the stretch about them. Walked in steps of a quarter
 * radius; cost: length over step. A ring shorter than the stretch is all bend.
 */
export function bendLength(ring: Ring, radius: number): number {
  const points = stepped(ring, radius / 4);
  const n = points.length / 2;
  if (n < 2 * REACH + 1) return ringLength(points);
  const directions = new Float64Array(n);
  const lengths = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const j = (i + 1) % n;
    const [dx, dy] = [points[2 * j] - points[2 * i], points[2 * j + 1] - points[2 * i + 1]];
    directions[i] = atan2(dy, dx);
    lengths[i] = length(dx, dy);
  }
  let total = 0;
  for (let i = 0; i < n; i++) {
    let turned = 0;
    for (let k = -REACH; k < REACH; k++) {
      turned += between(directions[(i + k + n) % n], directions[(i + k + 1 + n) % n]);
    }
    if (Math.abs(turned) > 1) total += lengths[i];
  }
  return total;
}

/** Steps before and behind: with a quarter radius each, one radius in all. */
const REACH = 2;

/** From one direction to another, −π…π. */
function between(a: number, b: number): number {
  const turn = b - a;
  return turn > PI ? turn - 2 * PI : turn < -PI ? turn + 2 * PI : turn;
}

/** Points along a ring, at most about a step apart, evenly. */
function stepped(ring: Ring, step: number): Float64Array {
  const around = ringLength(ring);
  const count = Math.max(3, Math.round(around / step));
  const pace = around / count;
  const points = new Float64Array(2 * count);
  let at = 0;
  let made = 0;
  for (let i = 0; i < ring.length && made < count; i += 2) {
    const j = (i + 2) % ring.length;
    const [dx, dy] = [ring[j] - ring[i], ring[j + 1] - ring[i + 1]];
    const side = length(dx, dy);
    while (made < count && made * pace <= at + side) {
      const share = side === 0 ? 0 : (made * pace - at) / side;
      points[2 * made] = ring[i] + share * dx;
      points[2 * made + 1] = ring[i + 1] + share * dy;
      made++;
    }
    at += side;
  }
  return points.subarray(0, 2 * made);
}
