import simplify from 'simplify-js';
import type { Ring } from './ring.ts';

/**
 * A ring with fewer points, nowhere further than `tolerance` from the one given (Douglas, Peucker 1973). Its lowest
 * leftmost point and the point furthest from that stay. It may touch or cross itself where the ring comes near itself.
 * A ring that would fall below three points comes back as it is.
 */
export function simplified(ring: Ring, tolerance: number): Ring {
  const n = ring.length / 2;
  let first = 0;
  for (let i = 1; i < n; i++) {
    if (ring[2 * i] < ring[2 * first] || (ring[2 * i] === ring[2 * first] && ring[2 * i + 1] < ring[2 * first + 1]))
      first = i;
  }
  let far = first;
  let most = 0;
  const points = new Array<{ x: number; y: number }>(n + 1);
  for (let i = 0; i <= n; i++) {
    const at = 2 * ((first + i) % n);
    points[i] = { x: ring[at], y: ring[at + 1] };
    const dx = points[i].x - points[0].x;
    const dy = points[i].y - points[0].y;
    if (dx * dx + dy * dy <= most) continue;
    most = dx * dx + dy * dy;
    far = i;
  }
  // Two halves, since the library takes its input for an open line and its two ends here are one point.
  const there = simplify(points.slice(0, far + 1), tolerance, true);
  const back = simplify(points.slice(far), tolerance, true);
  const kept = [...there.slice(0, -1), ...back.slice(0, -1)];
  return kept.length < 3 ? ring : Float64Array.from(kept.flatMap(({ x, y }) => [x, y]));
}

/** An open line with fewer points, none of it further than `tolerance` from the one given. Its ends stay. */
export function simplifiedLine(line: Float64Array, tolerance: number): Float64Array {
  const points = Array.from({ length: line.length / 2 }, (_, i) => ({ x: line[2 * i], y: line[2 * i + 1] }));
  return Float64Array.from(simplify(points, tolerance, true).flatMap(({ x, y }) => [x, y]));
}
