import type { Ring } from './ring.ts';

/**
 * The convex hull of one ring that does not cross itself (it may touch itself): counter-clockwise from its leftmost lowest
 * point, no points on straight sides. O(n) without sorting (Melkman 1987), for searches that ask it of every outline they
 * try; convexHull takes any points. Fewer than three points come back when all lie on a line.
 */
export function ringHull(ring: Ring): Ring {
  const n = ring.length / 2;
  // From a corner that is surely on the hull, so that the first straight run leads away from it.
  let first = 0;
  for (let i = 2; i < ring.length; i += 2) {
    if (ring[i] < ring[first] || (ring[i] === ring[first] && ring[i + 1] < ring[first + 1])) first = i;
  }
  const at = (k: number) => (first + 2 * k) % ring.length;
  const left = (a: number, b: number, c: number) =>
    (ring[b] - ring[a]) * (ring[c + 1] - ring[a + 1]) - (ring[b + 1] - ring[a + 1]) * (ring[c] - ring[a]);
  let start = 2;
  while (start < n && left(first, at(start - 1), at(start)) === 0) start++;
  if (start >= n) return n > 0 ? ring.slice(first, first + 2) : ring;
  // A deque that grows both ways from the middle; the point last taken stands at both ends.
  const deque = new Int32Array(2 * n + 4);
  let bottom = n;
  let top = n + 3;
  const [a, b, c] = [first, at(start - 1), at(start)];
  deque.set(left(a, b, c) > 0 ? [c, a, b, c] : [c, b, a, c], bottom);
  for (let k = start + 1; k < n; k++) {
    const i = at(k);
    if (left(deque[bottom], deque[bottom + 1], i) > 0 && left(deque[top - 1], deque[top], i) > 0) continue;
    while (left(deque[bottom], deque[bottom + 1], i) <= 0 && bottom < top - 1) bottom++;
    deque[--bottom] = i;
    while (left(deque[top - 1], deque[top], i) <= 0 && bottom < top - 1) top--;
    deque[++top] = i;
  }
  return fromCorner(ring, deque.subarray(bottom, top), first);
}

/** The points of a hull, run from its first corner. */
function fromCorner(ring: Ring, hull: Int32Array, first: number): Ring {
  const start = hull.indexOf(first);
  const result = new Float64Array(2 * hull.length);
  for (let k = 0; k < hull.length; k++) {
    const i = hull[(start + k) % hull.length];
    result[2 * k] = ring[i];
    result[2 * k + 1] = ring[i + 1];
  }
  return result;
}
