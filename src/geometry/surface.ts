import { addCell, emptyPlate, multiply, type Plate } from './surface/plate.ts';
import { eachGiven, heldPoints, weightsAt } from './surface/rows.ts';

/** What is known of a surface. */
export interface Given {
  /** x, y, z of single points. */
  readonly spots: Float64Array;
  /** Lines along which the height is known: flat x, y, z; straight between points; a closed line repeats its first point. */
  readonly lines: readonly Float64Array[];
  /** Lines in plan (flat x, y) across which the surface may bend sharply but not tear: ridge, stream. */
  readonly creases: readonly Float64Array[];
  /** Lines in plan (flat x, y) across which it may tear: cliff edges. */
  readonly tears: readonly Float64Array[];
}

/** Posts as in contour.ts: (column, row) stands at origin + (column × stepX, row × stepY); at least 2 × 2. */
export interface PostGrid {
  readonly columns: number;
  readonly rows: number;
  readonly stepX: number;
  readonly stepY: number;
  readonly originX: number;
  readonly originY: number;
}

export interface SurfaceOptions {
  /** How far the ground may miss what is given before more is tried. */
  readonly within?: number;
}

/** A surface at posts, and where the ground between them misses most what is given. */
export interface Surface {
  readonly values: Float64Array;
  readonly worst: { readonly off: number; readonly x: number; readonly y: number };
}

/** The smooth surface through lines and spots. What lies off the grid is not seen. Yields its progress. */
export function* surfaceThrough(
  given: Given,
  grid: PostGrid,
  _options: SurfaceOptions = {},
): Generator<number, Surface, unknown> {
  const { columns, rows } = grid;
  const held = heldPoints(given, grid);
  const plate = bendingOf(columns, rows, 1e-4);
  const values = new Float64Array(columns * rows);
  const right = new Float64Array(columns * rows);
  const weights = new Float64Array(4);
  for (let k = 0; k < held.z.length; k++) {
    const x = Math.min(columns - 2, Math.floor(held.columns[k]));
    const y = Math.min(rows - 2, Math.floor(held.rows[k]));
    weightsAt(held.columns[k] - x, held.rows[k] - y, weights);
    const sw = y * columns + x;
    const [a, b, c, d] = weights;
    addCell(plate, sw, 1e4, a, b, c, d);
    right[sw] += 1e4 * a * held.z[k];
    right[sw + 1] += 1e4 * b * held.z[k];
    right[sw + columns] += 1e4 * c * held.z[k];
    right[sw + columns + 1] += 1e4 * d * held.z[k];
  }
  // Conjugate gradients with the diagonal before them.
  const rest = right.slice();
  const ahead = new Float64Array(values.length);
  const image = new Float64Array(values.length);
  let product = 0;
  const steps = 4000;
  for (let step = 0; step < steps; step++) {
    let now = 0;
    for (let i = 0; i < rest.length; i++) now += (rest[i] * rest[i]) / (plate.self[i] || 1);
    if (now < 1e-16) break;
    const keep = step === 0 ? 0 : now / product;
    product = now;
    for (let i = 0; i < rest.length; i++) ahead[i] = rest[i] / (plate.self[i] || 1) + keep * ahead[i];
    multiply(plate, ahead, image);
    let curve = 0;
    for (let i = 0; i < rest.length; i++) curve += ahead[i] * image[i];
    if (!(curve > 0)) break;
    const far = now / curve;
    for (let i = 0; i < rest.length; i++) {
      values[i] += far * ahead[i];
      rest[i] -= far * image[i];
    }
    if (step % 16 === 0) yield step / steps;
  }
  return { values, worst: worstOf(given, grid, values) };
}

function bendingOf(columns: number, rows: number, tension: number): Plate {
  const plate = emptyPlate(columns, rows);
  const { self, east, east2, north, north2 } = plate;
  for (let y = 0; y < rows; y++) {
    for (let x = 0; x < columns; x++) {
      const i = y * columns + x;
      if (x > 0 && x + 1 < columns) {
        self[i - 1] += 1;
        self[i] += 4;
        self[i + 1] += 1;
        east[i - 1] -= 2;
        east[i] -= 2;
        east2[i - 1] += 1;
      }
      if (y > 0 && y + 1 < rows) {
        self[i - columns] += 1;
        self[i] += 4;
        self[i + columns] += 1;
        north[i - columns] -= 2;
        north[i] -= 2;
        north2[i - columns] += 1;
      }
      if (x + 1 < columns && y + 1 < rows) addCell(plate, i, 2, 1, -1, -1, 1);
      if (x + 1 < columns) {
        self[i] += tension;
        self[i + 1] += tension;
        east[i] -= tension;
      }
      if (y + 1 < rows) {
        self[i] += tension;
        self[i + columns] += tension;
        north[i] -= tension;
      }
    }
  }
  return plate;
}

/** The place where the ground between posts is farthest in height from what is given: 0 at the origin when nothing is. */
function worstOf(given: Given, grid: PostGrid, values: Float64Array): Surface['worst'] {
  const { columns, rows, stepX, stepY, originX, originY } = grid;
  const weights = new Float64Array(4);
  let [off, x, y] = [0, originX, originY];
  eachGiven(given, grid, {
    take(column, row, z) {
      const left = Math.min(columns - 2, Math.floor(column));
      const low = Math.min(rows - 2, Math.floor(row));
      const sw = low * columns + left;
      weightsAt(column - left, row - low, weights);
      const south = weights[0] * values[sw] + weights[1] * values[sw + 1];
      const miss = Math.abs(south + weights[2] * values[sw + columns] + weights[3] * values[sw + columns + 1] - z);
      if (miss > off) [off, x, y] = [miss, originX + column * stepX, originY + row * stepY];
    },
  });
  return { off, x, y };
}
