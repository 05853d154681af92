import type { Ring } from './ring.ts';

/** Evenly spaced parallel lines { p : p · (nx, ny) = from + k step }, k from 0 below `count`. */
export interface Lines {
  readonly nx: number;
  readonly ny: number;
  readonly from: number;
  readonly step: number;
  readonly count: number;
}

/** Where lines run inside rings. */
export interface Scan {
  /** Of each line: where in `along` its crossings start; one more for the end. Their number is even. */
  readonly starts: Int32Array;
  /** Places along the lines (p · (−ny, nx)), rising on each: in, out, in, out … */
  readonly along: Float64Array;
  /** Sine of the angle between line and outline there. */
  readonly sines: Float64Array;
}

/**
 * Cross rings with many parallel lines at once. Edges are open at their upper end, so each line crosses a ring an even number
 * of times. O(points + crossings).
 */
export function scanOf(rings: readonly Ring[], { nx, ny, from, step, count }: Lines): Scan {
  const starts = new Int32Array(count + 1);
  const lineUnder = (x: number, y: number) =>
    Math.max(-1, Math.min(count - 1, Math.floor((x * nx + y * ny - from) / step)));
  for (const ring of rings) {
    let before = lineUnder(ring[ring.length - 2], ring[ring.length - 1]);
    for (let i = 0; i < ring.length; i += 2) {
      const here = lineUnder(ring[i], ring[i + 1]);
      for (let k = Math.min(before, here) + 1; k <= Math.max(before, here); k++) starts[k + 1]++;
      before = here;
    }
  }
  for (let k = 0; k < count; k++) starts[k + 1] += starts[k];
  const along = new Float64Array(starts[count]);
  const sines = new Float64Array(starts[count]);
  const filled = starts.slice();
  for (const ring of rings) {
    let [px, py] = [ring[ring.length - 2], ring[ring.length - 1]];
    let before = lineUnder(px, py);
    for (let i = 0; i < ring.length; i += 2) {
      const [qx, qy] = [ring[i], ring[i + 1]];
      const here = lineUnder(qx, qy);
      if (here !== before) {
        const high = px * nx + py * ny;
        const rise = qx * nx + qy * ny - high;
        const side = py * nx - px * ny;
        const run = qy * nx - qx * ny - side;
        const sine = Math.abs(rise) / Math.sqrt(rise * rise + run * run);
        for (let k = Math.min(before, here) + 1; k <= Math.max(before, here); k++) {
          const t = (from + k * step - high) / rise;
          place(along, sines, starts[k], filled[k]++, side + (t < 0 ? 0 : t > 1 ? 1 : t) * run, sine);
        }
      }
      [px, py, before] = [qx, qy, here];
    }
  }
  return { starts, along, sines };
}

/** Put a crossing where it belongs among those of its line: there are few. */
function place(along: Float64Array, sines: Float64Array, first: number, end: number, value: number, sine: number) {
  let at = end;
  for (; at > first && along[at - 1] > value; at--) {
    along[at] = along[at - 1];
    sines[at] = sines[at - 1];
  }
  along[at] = value;
  sines[at] = sine;
}

/** Length that stretches of one line have in common with those of the same line in another scan. */
export function commonLength(a: Scan, b: Scan, k: number): number {
  let sum = 0;
  let j = b.starts[k];
  for (let i = a.starts[k]; i < a.starts[k + 1]; i += 2) {
    while (j < b.starts[k + 1] && b.along[j + 1] <= a.along[i]) j += 2;
    for (let m = j; m < b.starts[k + 1] && b.along[m] < a.along[i + 1]; m += 2) {
      sum += Math.min(a.along[i + 1], b.along[m + 1]) - Math.max(a.along[i], b.along[m]);
    }
  }
  return sum;
}
