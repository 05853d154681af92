import { PI, sin } from './exact-math.ts';

/** A change below this part of the range of the known values ends the relaxation. */
const STILL = 1e-7;
/** Enough for the slowest shape tried (a spiral bay): rounds per post of the hole's depth. */
const ROUNDS_PER_DEPTH = 40;

/**
 * Values of a grid where those that are not known are taken from a nearest known post (steps along the grid lines; among
 * equals west, east, south, north). Leaves its input alone. At least one must be known. O(posts).
 */
export function fillNearest(values: Float64Array, known: Uint8Array, columns: number): Float64Array {
  return nearest(values, known, columns).filled;
}

/**
 * Values of a grid where those that are not known are stretched like a soap film from the rim of the known: each is the
 * mean of its neighbours on the grid (Laplace's equation; the grid's own border is free). So no hump or pit is invented, and
 * every filled value lies between the lowest and the highest known one. Yields its progress.
 * Successive over-relaxation from the nearest values (D. M. Young, Trans. AMS 76, 1954).
 */
export function* fillMembrane(
  values: Float64Array,
  known: Uint8Array,
  columns: number,
): Generator<number, Float64Array> {
  const { filled, order, depth } = nearest(values, known, columns);
  let low = Infinity;
  let high = -Infinity;
  for (let i = 0; i < values.length; i++) {
    if (known[i] === 0) continue;
    if (values[i] < low) low = values[i];
    if (values[i] > high) high = values[i];
  }
  // Row by row: over-relaxation wants a sweep in which each post comes after its western and southern neighbours.
  const holes = order.sort();
  const over = 2 / (1 + sin(PI / (2 * depth + 2)));
  const rounds = ROUNDS_PER_DEPTH * (depth + 1);
  for (let round = 0; round < rounds; round++) {
    let largest = 0;
    for (let k = 0; k < holes.length; k++) {
      const i = holes[k];
      const x = i % columns;
      const west = x > 0 ? i - 1 : i;
      const east = x < columns - 1 ? i + 1 : i;
      const south = i >= columns ? i - columns : i;
      const north = i + columns < filled.length ? i + columns : i;
      // Beyond the grid's border the post itself stands in: no pull from there.
      const mean = (filled[west] + filled[east] + filled[south] + filled[north]) / 4;
      const change = over * (mean - filled[i]);
      filled[i] += change;
      if (Math.abs(change) > largest) largest = Math.abs(change);
    }
    if (largest <= STILL * (high - low)) break;
    yield round / rounds;
  }
  for (let k = 0; k < holes.length; k++) filled[holes[k]] = Math.max(low, Math.min(high, filled[holes[k]]));
  return filled;
}

/** The nearest known value everywhere, the posts filled, and how many steps the farthest lies from a known one. */
function nearest(values: Float64Array, known: Uint8Array, columns: number) {
  const filled = values.slice();
  const isSet = known.slice();
  let missing = 0;
  for (let i = 0; i < known.length; i++) if (known[i] === 0) missing++;
  const order = new Uint32Array(missing);
  let end = 0;
  for (let i = 0; i < known.length; i++) {
    if (known[i] !== 0) continue;
    const from = neighbour(i, known, columns);
    if (from >= 0) take(i, from);
  }
  let depth = 0;
  for (let start = 0, wave = end; start < end; depth++, wave = end) {
    for (; start < wave; start++) {
      const i = order[start];
      const x = i % columns;
      if (x > 0) spread(i - 1, i);
      if (x < columns - 1) spread(i + 1, i);
      if (i >= columns) spread(i - columns, i);
      if (i + columns < filled.length) spread(i + columns, i);
    }
  }
  return { filled, order, depth };

  function spread(to: number, from: number): void {
    if (isSet[to] === 0) take(to, from);
  }
  function take(to: number, from: number): void {
    filled[to] = filled[from];
    isSet[to] = 1;
    order[end++] = to;
  }
}

function neighbour(i: number, known: Uint8Array, columns: number): number {
  const x = i % columns;
  if (x > 0 && known[i - 1] !== 0) return i - 1;
  if (x < columns - 1 && known[i + 1] !== 0) return i + 1;
  if (i >= columns && known[i - columns] !== 0) return i - columns;
  if (i + columns < known.length && known[i + columns] !== 0) return i + columns;
  return -1;
}
