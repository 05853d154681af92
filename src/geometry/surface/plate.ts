/**
 * The energy of a plate under tension on posts, as a symmetric matrix with seven diagonals: each post and its neighbours
 * at (1,0) (2,0) (0,1) (0,2) (1,1) (−1,1); the other six are the same seen from there.
 */
export interface Plate {
  readonly columns: number;
  readonly rows: number;
  readonly self: Float64Array;
  readonly east: Float64Array;
  readonly east2: Float64Array;
  readonly north: Float64Array;
  readonly north2: Float64Array;
  readonly northEast: Float64Array;
  readonly northWest: Float64Array;
}

export function emptyPlate(columns: number, rows: number): Plate {
  const room = () => new Float64Array(columns * rows);
  return {
    columns,
    rows,
    self: room(),
    east: room(),
    east2: room(),
    north: room(),
    north2: room(),
    northEast: room(),
    northWest: room(),
  };
}

/** Add the energy weight × (a·SW + b·SE + c·NW + d·NE)² of one cell. */
export function addCell(plate: Plate, sw: number, weight: number, a: number, b: number, c: number, d: number): void {
  const { columns, self, east, north, northEast, northWest } = plate;
  const [se, nw] = [sw + 1, sw + columns];
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

/** into = plate × values. */
export function multiply(plate: Plate, values: Float64Array, into: Float64Array): void {
  const { columns, rows, self, east, east2, north, north2, northEast, northWest } = plate;
  const count = columns * rows;
  for (let i = 0; i < count; i++) into[i] = self[i] * values[i];
  pair(east, 1, values, into, count);
  pair(east2, 2, values, into, count);
  pair(north, columns, values, into, count);
  pair(north2, 2 * columns, values, into, count);
  pair(northEast, columns + 1, values, into, count);
  pair(northWest, columns - 1, values, into, count);
}

function pair(diagonal: Float64Array, offset: number, values: Float64Array, into: Float64Array, count: number): void {
  for (let i = 0, j = offset; j < count; i++, j++) {
    const weight = diagonal[i];
    into[i] += weight * values[j];
    into[j] += weight * values[i];
  }
}
