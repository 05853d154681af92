/** Parallel lines of a grid: how many, how far apart in the array; posts on each, how far apart. */
export interface Lines {
  readonly count: number;
  readonly from: number;
  readonly length: number;
  readonly step: number;
}

/**
 * Means along lines: each value becomes the mean of itself and up to `reach` posts on either side, as many on the one as on
 * the other, within its unbroken run of ground. Running sums: O(posts). Leaves its input alone.
 */
export function smoothLines(
  values: Float64Array,
  ground: Uint8Array | null,
  { count, from, length, step }: Lines,
  reach: number,
): Float64Array<ArrayBuffer> {
  const result = Float64Array.from(values);
  const sums = new Float64Array(length + 1);
  for (let line = 0; line < count; line++) {
    const first = line * from;
    for (let start = 0; start < length; ) {
      if (ground?.[first + start * step] === 0) {
        start++;
        continue;
      }
      let end = start;
      // Sums of differences from the run's first value, so that a long run high up loses no digits.
      const zero = values[first + start * step];
      while (end < length && ground?.[first + end * step] !== 0) {
        sums[end + 1 - start] = sums[end - start] + values[first + end * step] - zero;
        end++;
      }
      const run = end - start;
      for (let i = 0; i < run; i++) {
        const half = Math.min(reach, i, run - 1 - i);
        if (half === 0) continue;
        result[first + (start + i) * step] = zero + (sums[i + half + 1] - sums[i - half]) / (2 * half + 1);
      }
      start = end;
    }
  }
  return result;
}
