/** Parallel lines of a grid: how many, how far apart in the array; posts on each, how far apart. */
export interface Lines {
  readonly count: number;
  readonly from: number;
  readonly length: number;
  readonly step: number;
}

/** Least posts whose sums are taken in one go. */
const BLOCK = 64;

/**
 * Fit a parabola by least squares to each value and up to `reach` posts on either side, as many on the one as on the other,
 * within its unbroken run of ground; its middle, kept within the range of those values, is the new value. The weights are
 * Savitzky's and Golay's for 2n + 1 points: 3 (3n² + 3n − 1 − 5i²) / ((2n − 1) (2n + 1) (2n + 3)) at i from the middle.
 * Running sums, and a queue each for the lowest and the highest: O(posts), whatever the reach. Leaves its input alone.
 */
export function fitLines(
  values: Float64Array,
  ground: Uint8Array | null,
  { count, from, length, step }: Lines,
  reach: number,
): Float64Array<ArrayBuffer> {
  const result = Float64Array.from(values);
  const line = new Float64Array(length);
  const fitted = new Float64Array(length);
  const work = workFor(length, reach);
  for (let number = 0; number < count; number++) {
    const first = number * from;
    for (let start = 0; start < length; ) {
      if (ground?.[first + start * step] === 0) {
        start++;
        continue;
      }
      let run = 0;
      while (start + run < length && ground?.[first + (start + run) * step] !== 0) {
        line[run] = values[first + (start + run) * step];
        run++;
      }
      fitRun(line, fitted, run, reach, work);
      for (let i = 0; i < run; i++) result[first + (start + i) * step] = fitted[i];
      start += run;
    }
  }
  return result;
}

interface Work {
  readonly sums: Float64Array;
  readonly firsts: Float64Array;
  readonly seconds: Float64Array;
  readonly lows: Int32Array;
  readonly highs: Int32Array;
}

function workFor(length: number, reach: number): Work {
  const block = 1 + Math.min(length, 2 * reach + Math.max(2 * reach, BLOCK));
  return {
    sums: new Float64Array(block),
    firsts: new Float64Array(block),
    seconds: new Float64Array(block),
    lows: new Int32Array(length),
    highs: new Int32Array(length),
  };
}

function fitRun(line: Float64Array, fitted: Float64Array, run: number, reach: number, work: Work): void {
  const { sums, firsts, seconds, lows, highs } = work;
  let [lowFirst, lowEnd, highFirst, highEnd, seen] = [0, 0, 0, 0, 0];
  const block = Math.max(2 * reach, BLOCK);
  for (let begin = 0; begin < run; begin += block) {
    const end = Math.min(run, begin + block);
    const west = Math.max(0, begin - reach);
    const east = Math.min(run, end + reach);
    // Sums over this stretch alone, about its middle and from its first value: a long run high up loses no digits.
    const middle = (west + east) >> 1;
    const zero = line[begin];
    for (let i = west; i < east; i++) {
      const value = line[i] - zero;
      const at = i - middle;
      sums[i + 1 - west] = sums[i - west] + value;
      firsts[i + 1 - west] = firsts[i - west] + at * value;
      seconds[i + 1 - west] = seconds[i - west] + at * at * value;
    }
    for (let i = begin; i < end; i++) {
      const half = Math.min(reach, i, run - 1 - i);
      // The window's ends only move on, so each value enters and leaves the queues once.
      for (; seen <= i + half; seen++) {
        while (lowEnd > lowFirst && line[lows[lowEnd - 1]] >= line[seen]) lowEnd--;
        lows[lowEnd++] = seen;
        while (highEnd > highFirst && line[highs[highEnd - 1]] <= line[seen]) highEnd--;
        highs[highEnd++] = seen;
      }
      while (lows[lowFirst] < i - half) lowFirst++;
      while (highs[highFirst] < i - half) highFirst++;
      if (half < 2) {
        fitted[i] = line[i];
        continue;
      }
      const [a, b] = [i - half - west, i + half + 1 - west];
      const at = i - middle;
      const sum = sums[b] - sums[a];
      const second = seconds[b] - seconds[a] - 2 * at * (firsts[b] - firsts[a]) + at * at * sum;
      const scale = 3 / ((2 * half - 1) * (2 * half + 1) * (2 * half + 3));
      const value = zero + scale * ((3 * half * half + 3 * half - 1) * sum - 5 * second);
      fitted[i] = Math.max(line[lows[lowFirst]], Math.min(line[highs[highFirst]], value));
    }
  }
}
