import { addFace } from './face.ts';

/** How far a rim's corners may lie off a plane to be filled as a flat face. */
const FLAT_MM = 0.005;
/** Longer flat rims are filled like crooked ones: cutting ears takes the square of their length. */
const LONGEST_FLAT = 20_000;

/**
 * Fill a hole with triangles that run its rim as given; every corner is used, so that the surface is closed by number. A
 * flat rim is filled flat. Any other is drawn together like a seam: whichever two corners next but one to each other are
 * nearest are joined first, so that a slit is stitched across and a seam round a body becomes a ribbon. O(n log n). (By
 * least area it would take the cube: 20 s for a rim of 2,000.)
 */
export function fillRim(rim: readonly number[], positions: Float64Array, triangles: number[]): void {
  if (rim.length <= LONGEST_FLAT && new Set(rim).size === rim.length && isFlat(rim, positions)) {
    addFace(rim, positions, triangles);
    return;
  }
  const n = rim.length;
  const before = Int32Array.from({ length: n }, (_, i) => (i + n - 1) % n);
  const after = Int32Array.from({ length: n }, (_, i) => (i + 1) % n);
  const stamp = new Int32Array(n);
  const queue = new Queue();
  const span = (i: number) => apart(positions, rim[before[i]], rim[after[i]]);
  for (let i = 0; i < n; i++) queue.push(span(i), i, 0);
  let left = n;
  while (left > 2) {
    const [corner, stamped] = queue.pop();
    if (stamp[corner] !== stamped) continue;
    const a = before[corner];
    const b = after[corner];
    if (rim[a] !== rim[b] && rim[a] !== rim[corner] && rim[corner] !== rim[b]) {
      triangles.push(rim[a], rim[corner], rim[b]);
    }
    after[a] = b;
    before[b] = a;
    stamp[corner] = -1;
    left--;
    for (const i of [a, b]) queue.push(span(i), i, ++stamp[i]);
  }
}

function isFlat(rim: readonly number[], p: Float64Array): boolean {
  // Newell's normal, about the first corner.
  const first = 3 * rim[0];
  const normal = [0, 0, 0];
  for (let i = 1; i + 1 < rim.length; i++) {
    const [a, b] = [3 * rim[i], 3 * rim[i + 1]];
    for (let axis = 0; axis < 3; axis++) {
      const [u, v] = [(axis + 1) % 3, (axis + 2) % 3];
      normal[axis] +=
        (p[a + u] - p[first + u]) * (p[b + v] - p[first + v]) - (p[a + v] - p[first + v]) * (p[b + u] - p[first + u]);
    }
  }
  const length = Math.sqrt(normal[0] * normal[0] + normal[1] * normal[1] + normal[2] * normal[2]);
  if (length === 0) return true;
  return rim.every((v) => {
    let off = 0;
    for (let axis = 0; axis < 3; axis++) off += (p[3 * v + axis] - p[first + axis]) * normal[axis];
    return Math.abs(off) <= FLAT_MM * length;
  });
}

export function apart(p: Float64Array, v: number, w: number): number {
  const x = p[3 * v] - p[3 * w];
  const y = p[3 * v + 1] - p[3 * w + 1];
  const z = p[3 * v + 2] - p[3 * w + 2];
  return Math.sqrt(x * x + y * y + z * z);
}

/** Corners by length, the least first, equal ones by number: a binary heap. */
class Queue {
  readonly #held: (readonly [length: number, corner: number, stamp: number])[] = [];

  push(length: number, corner: number, stamp: number): void {
    const held = this.#held;
    const entry = [length, corner, stamp] as const;
    let at = held.push(entry) - 1;
    while (at > 0) {
      const up = (at - 1) >> 1;
      if (!isBefore(entry, held[up])) break;
      held[at] = held[up];
      at = up;
    }
    held[at] = entry;
  }

  pop(): [corner: number, stamp: number] {
    const held = this.#held;
    const [, corner, stamp] = held[0];
    const last = held.pop() as (typeof held)[number];
    if (held.length === 0) return [corner, stamp];
    let at = 0;
    for (;;) {
      let down = 2 * at + 1;
      if (down >= held.length) break;
      if (down + 1 < held.length && isBefore(held[down + 1], held[down])) down++;
      if (!isBefore(held[down], last)) break;
      held[at] = held[down];
      at = down;
    }
    held[at] = last;
    return [corner, stamp];
  }
}

const isBefore = (a: readonly [number, number, number], b: readonly [number, number, number]): boolean =>
  a[0] < b[0] || (a[0] === b[0] && a[1] < b[1]);
