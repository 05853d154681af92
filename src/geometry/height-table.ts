/** What lies above and under rising levels. */
export interface HeightTable {
  /** Area strictly above each level. */
  readonly above: Float64Array;
  /** Area at or above each level: more where ground lies flat exactly at it. */
  readonly atLeast: Float64Array;
  /** Volume between height 0 and each level. */
  readonly under: Float64Array;
}

/**
 * Adds up flat triangles in space by height: how much area lies above each level, and how much volume under it. With signed
 * areas the faces of a closed surface give its sections, for what is above a level looks up by as much more than it looks
 * down. Exact; O(levels that it spans + 1) a triangle, without allocation.
 */
export class HeightSums {
  readonly #levels: Float64Array;
  readonly #perUnit: number;
  /** Area that ends, and volume that is whole, from a level on; area that lies flat at it; what lies in between. */
  readonly #ending: Float64Array;
  readonly #whole: Float64Array;
  readonly #flat: Float64Array;
  readonly #above: Float64Array;
  readonly #under: Float64Array;

  /** @param levels from 0 up, evenly spaced but for rounding; at least two. */
  constructor(levels: Float64Array) {
    this.#levels = levels;
    this.#perUnit = (levels.length - 1) / levels[levels.length - 1];
    this.#ending = new Float64Array(levels.length + 1);
    this.#whole = new Float64Array(levels.length + 1);
    this.#flat = new Float64Array(levels.length + 1);
    this.#above = new Float64Array(levels.length);
    this.#under = new Float64Array(levels.length);
  }

  /** Add a triangle by its plan area and the heights of its corners, none below 0. */
  add(area: number, a: number, b: number, c: number): void {
    const low = a < b ? (a < c ? a : c) : b < c ? b : c;
    const high = a > b ? (a > c ? a : c) : b > c ? b : c;
    const middle = a + b + c - low - high;
    const first = this.#firstFrom(low);
    const last = this.#firstFrom(high);
    const volume = (area * (a + b + c)) / 3;
    this.#ending[first] += area;
    this.#whole[last] += volume;
    if (low === high && this.#levels[first] === low) this.#flat[first] += area;
    for (let i = first; i < last; i++) {
      const level = this.#levels[i];
      if (level < middle) {
        const depth = level - low;
        const share = (depth * depth) / ((middle - low) * (high - low));
        this.#above[i] += area * (1 - share);
        this.#under[i] += area * (level - (share * depth) / 3);
      } else {
        const rise = high - level;
        const share = high > middle ? (rise * rise) / ((high - low) * (high - middle)) : 0;
        this.#above[i] += area * share;
        this.#under[i] += volume - (area * share * rise) / 3;
      }
    }
  }

  /** Everything that was added. */
  table(): HeightTable {
    const levels = this.#levels;
    const above = new Float64Array(levels.length);
    const atLeast = new Float64Array(levels.length);
    const under = new Float64Array(levels.length);
    let whole = 0;
    for (let i = 0; i < levels.length; i++) under[i] = this.#under[i] + (whole += this.#whole[i]);
    let higher = this.#ending[levels.length];
    for (let i = levels.length - 1; i >= 0; i--) {
      above[i] = this.#above[i] + higher;
      atLeast[i] = above[i] + this.#flat[i];
      under[i] += higher * levels[i];
      higher += this.#ending[i];
    }
    return { above, atLeast, under };
  }

  /** The first level that is not below a height; one past the last when all are. */
  #firstFrom(height: number): number {
    const levels = this.#levels;
    let i = Math.min(levels.length, Math.ceil(height * this.#perUnit));
    while (i > 0 && levels[i - 1] >= height) i--;
    while (i < levels.length && levels[i] < height) i++;
    return i;
  }
}
