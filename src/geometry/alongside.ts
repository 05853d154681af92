/** Lines nearer to parallel than this cosine of the angle between them can run over one another; others only cross. */
const PARALLEL = 0.7;

/** Where and for how long one straight line runs alongside others. */
export interface Alongside {
  readonly length: number;
  /** Middle of the longest stretch. */
  readonly x: number;
  readonly y: number;
}

/**
 * Length for which the segment a–b runs within a distance of other segments, at less than about 45° to them. A stretch beside
 * two of them counts once for each. O(segments).
 * @param segments x, y of one end, x, y of the other, segment by segment.
 */
export function alongside(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  segments: ArrayLike<number>,
  within: number,
): Alongside {
  const dx = bx - ax;
  const dy = by - ay;
  const length = Math.sqrt(dx * dx + dy * dy);
  let total = 0;
  let longest = 0;
  let middle = 0;
  for (let i = 0; i < segments.length; i += 4) {
    const sx = segments[i + 2] - segments[i];
    const sy = segments[i + 3] - segments[i + 1];
    const long = Math.sqrt(sx * sx + sy * sy);
    if (long === 0 || length === 0) continue;
    const along = (dx * sx + dy * sy) / long;
    if (Math.abs(along) < PARALLEL * length) continue;
    const across = (dy * sx - dx * sy) / long;
    const along0 = ((ax - segments[i]) * sx + (ay - segments[i + 1]) * sy) / long;
    const across0 = ((ay - segments[i + 1]) * sx - (ax - segments[i]) * sy) / long;
    const [from, to] = clip(across0, across, -within, within, ...clip(along0, along, -within, long + within, 0, 1));
    if (to <= from) continue;
    total += (to - from) * length;
    if (to - from <= longest) continue;
    longest = to - from;
    middle = (from + to) / 2;
  }
  return { length: total, x: ax + middle * dx, y: ay + middle * dy };
}

/** The part of from ≤ t ≤ to in which low ≤ start + t × slope ≤ high; empty when it ends before it starts. */
function clip(start: number, slope: number, low: number, high: number, from: number, to: number): [number, number] {
  if (slope === 0) return start < low || start > high ? [1, 0] : [from, to];
  const t0 = (low - start) / slope;
  const t1 = (high - start) / slope;
  return [Math.max(from, Math.min(t0, t1)), Math.min(to, Math.max(t0, t1))];
}
