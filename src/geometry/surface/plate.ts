/**
 * A symmetric matrix on posts that joins each post to twelve others: what the energy of a bent plate comes to.
 *
 *             n2          Seven diagonals are kept, the post itself and the six towards east and north; the other
 *         nw  n  ne       six are the same numbers seen from there. Every array, and every vector that the matrix
 *     w2  w   ·  e  e2    meets, begins and ends with `pad` zeros, so that no loop asks where the grid ends. Across
 *         sw  s  se       the border the diagonals are zero.
 *             s2
 */
export interface Plate {
  readonly columns: number;
  readonly rows: number;
  readonly pad: number;
  readonly self: Float64Array;
  readonly east: Float64Array;
  readonly east2: Float64Array;
  readonly north: Float64Array;
  readonly north2: Float64Array;
  readonly northEast: Float64Array;
  readonly northWest: Float64Array;
}

/** Room before and after the posts in each array. */
export const padOf = (columns: number): number => 2 * columns + 2;

export const vectorOf = (columns: number, rows: number): Float64Array =>
  new Float64Array(columns * rows + 2 * padOf(columns));

export function emptyPlate(columns: number, rows: number): Plate {
  const room = () => vectorOf(columns, rows);
  return {
    columns,
    rows,
    pad: padOf(columns),
    self: room(),
    east: room(),
    east2: room(),
    north: room(),
    north2: room(),
    northEast: room(),
    northWest: room(),
  };
}

/** Add the energy weight × (a·SW + b·SE + c·NW + d·NE)² of the cell whose south-west post has the index `sw`. */
export function addCell(plate: Plate, sw: number, weight: number, a: number, b: number, c: number, d: number): void {
  const { columns, self, east, north, northEast, northWest } = plate;
  const se = sw + 1;
  const nw = sw + columns;
  self[sw] += weight * a * a;
  self[se] += weight * b * b;
  self[nw] += weight * c * c;
  self[nw + 1] += weight * d * d;
  east[sw] += weight * a * b;
  east[nw] += weight * c * d;
  north[sw] += weight * a * c;
  north[se] += weight * b * d;
  northEast[sw] += weight * a * d;
  northWest[se] += weight * b * c;
}

/** Add the energy weight × (before − 2·middle + after)² of three posts in a row, `along` the stride between them. */
export function addBend(plate: Plate, middle: number, along: number, weight: number): void {
  const next = along === 1 ? plate.east : plate.north;
  const afterNext = along === 1 ? plate.east2 : plate.north2;
  plate.self[middle - along] += weight;
  plate.self[middle] += 4 * weight;
  plate.self[middle + along] += weight;
  next[middle - along] -= 2 * weight;
  next[middle] -= 2 * weight;
  afterNext[middle - along] += weight;
}

/** Add the energy weight × (after − before)² of two neighbours. */
export function addPull(plate: Plate, before: number, along: number, weight: number): void {
  plate.self[before] += weight;
  plate.self[before + along] += weight;
  (along === 1 ? plate.east : plate.north)[before] -= weight;
}

/** into = right − plate × values. */
export function residual(plate: Plate, values: Float64Array, right: Float64Array, into: Float64Array): void {
  const { columns: c, rows, pad, self, east, east2, north, north2, northEast, northWest } = plate;
  for (let i = pad, end = pad + c * rows; i < end; i++) {
    into[i] =
      right[i] -
      (self[i] * values[i] +
        (east[i] * values[i + 1] + east[i - 1] * values[i - 1]) +
        (north[i] * values[i + c] + north[i - c] * values[i - c]) +
        (east2[i] * values[i + 2] + east2[i - 2] * values[i - 2]) +
        (north2[i] * values[i + 2 * c] + north2[i - 2 * c] * values[i - 2 * c]) +
        (northEast[i] * values[i + c + 1] + northEast[i - c - 1] * values[i - c - 1]) +
        (northWest[i] * values[i + c - 1] + northWest[i - c + 1] * values[i - c + 1]));
  }
}

/** One sweep of Gauss and Seidel over all posts, from the first or, `isBack`, from the last. */
export function sweep(plate: Plate, values: Float64Array, right: Float64Array, isBack: boolean): void {
  const { columns: c, rows, pad, self, east, east2, north, north2, northEast, northWest } = plate;
  const count = c * rows;
  const step = isBack ? -1 : 1;
  for (let k = 0, i = isBack ? pad + count - 1 : pad; k < count; k++, i += step) {
    values[i] =
      (right[i] -
        (east[i] * values[i + 1] +
          east[i - 1] * values[i - 1] +
          (north[i] * values[i + c] + north[i - c] * values[i - c]) +
          (east2[i] * values[i + 2] + east2[i - 2] * values[i - 2]) +
          (north2[i] * values[i + 2 * c] + north2[i - 2 * c] * values[i - 2 * c]) +
          (northEast[i] * values[i + c + 1] + northEast[i - c - 1] * values[i - c - 1]) +
          (northWest[i] * values[i + c - 1] + northWest[i - c + 1] * values[i - c + 1]))) /
      self[i];
  }
}
