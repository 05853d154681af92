/** Lines nearer to parallel than this cosine of the angle between them can run over one another; others only cross. */
const PARALLEL = 0.72;

/** Where and for how long one straight line runs alongside others. */
export interface Alongside {
  readonly length: number;
  /** Middle of the longest stretch. */
  readonly x: number;
  readonly y: number;
}

/**
 * Length for which the segment a–b runs within a distance of other segments, at less than 44° to them: diagonal seams cross those square to the axes. A stretch beside
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
    // Within the ends of the other, then within the distance on either side of it.
    const start = (-within - along0) / along;
    const stop = (long + within - along0) / along;
    let from = Math.max(0, Math.min(start, stop));
    let to = Math.min(1, Math.max(start, stop));
    if (across === 0) {
      if (across0 < -within || across0 > within) continue;
    } else {
      const low = (-within - across0) / across;
      const high = (within - across0) / across;
      from = Math.max(from, Math.min(low, high));
      to = Math.min(to, Math.max(low, high));
    }
    if (to <= from) continue;
    total += (to - from) * length;
    if (to - from <= longest) continue;
    longest = to - from;
    middle = (from + to) / 2;
  }
  return { length: total, x: ax + middle * dx, y: ay + middle * dy };
}
