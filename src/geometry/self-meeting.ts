import type { Point, Ring } from './ring.ts';

/** Where a ring first crosses or touches itself, or null. No two points in a row may be the same. O(n²), by box first. */
export function crossingOf(ring: Ring): Point | null {
  const n = ring.length / 2;
  for (let i = 0; i < n; i++) {
    const a = pointAt(ring, i);
    const b = pointAt(ring, i + 1);
    for (let j = i + 1; j < n; j++) {
      const c = pointAt(ring, j);
      const d = pointAt(ring, j + 1);
      if (!boxesMeet(a, b, c, d)) continue;
      if (j === i + 1 || (i === 0 && j === n - 1)) {
        // Neighbours share a point; they overlap when one turns straight back.
        const [from, middle, to] = j === i + 1 ? [a, b, d] : [c, a, b];
        if (side(from, middle, to) === 0 && isBack(from, middle, to)) return middle;
      } else if (meet(a, b, c, d)) return [(c[0] + d[0]) / 2, (c[1] + d[1]) / 2];
    }
  }
  return null;
}

function pointAt(ring: Ring, i: number): Point {
  const at = (2 * i) % ring.length;
  return [ring[at], ring[at + 1]];
}

function meet(a: Point, b: Point, c: Point, d: Point): boolean {
  return (
    Math.sign(side(a, b, c)) * Math.sign(side(a, b, d)) <= 0 && Math.sign(side(c, d, a)) * Math.sign(side(c, d, b)) <= 0
  );
}

const side = (a: Point, b: Point, c: Point): number => (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);

const isBack = (from: Point, middle: Point, to: Point): boolean =>
  (middle[0] - from[0]) * (to[0] - middle[0]) + (middle[1] - from[1]) * (to[1] - middle[1]) < 0;

const boxesMeet = (a: Point, b: Point, c: Point, d: Point): boolean =>
  Math.max(a[0], b[0]) >= Math.min(c[0], d[0]) &&
  Math.max(c[0], d[0]) >= Math.min(a[0], b[0]) &&
  Math.max(a[1], b[1]) >= Math.min(c[1], d[1]) &&
  Math.max(c[1], d[1]) >= Math.min(a[1], b[1]);
