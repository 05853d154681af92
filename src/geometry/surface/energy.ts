import { HINGE_CELL, HINGE_X, HINGE_Y, TORN_CELL, TORN_EAST, TORN_NORTH } from './breaks.ts';
import { type Held, weightsAt } from './given-points.ts';
import { addBend, addCell, addPull, emptyPlate, type Plate } from './plate.ts';

/** What the energy of a plate on posts depends on. */
export interface Energy {
  /** Step in x over the mean step √(stepX · stepY), squared: 1 on square cells. */
  readonly stretch: number;
  /** Marks of breaks.ts. */
  readonly marks: Uint8Array;
  /** How stiff the plate is at each post, 0…1. */
  readonly stiffness: Float64Array;
  /** The tension at each post: stiffness × (mean step ÷ the distance within which bending rules)². */
  readonly pulls: Float64Array;
  /** What a post of this grid counts of the finest: 1, 2, 4 … */
  readonly every: number;
}

/** So much of the tension is left across a tear: it levels ground that hangs on nothing else. */
const ACROSS_TEAR = 1e-4;

/**
 * The plate ½∫ stiffness·(z_xx² + 2·z_xy² + z_yy²) + pull·(z_x² + z_y²) in differences between posts, in units of the finest
 * step. A term that a crease bends, or that reaches over a tear, is left out. The rim is free.
 */
export function plateOf(columns: number, rows: number, energy: Energy): Plate {
  const { stretch, marks, stiffness, pulls, every } = energy;
  const plate = emptyPlate(columns, rows);
  const scale = 1 / (every * every);
  const alongX = scale / (stretch * stretch);
  const alongY = scale * stretch * stretch;
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const i = row * columns + column;
      const at = plate.pad + i;
      const mark = marks[i];
      const stiff = stiffness[i];
      if (column > 0 && column < columns - 1 && ((mark & (HINGE_X | TORN_EAST)) | (marks[i - 1] & TORN_EAST)) === 0) {
        addBend(plate, at, 1, alongX * stiff);
      }
      if (row > 0 && row < rows - 1 && ((mark & (HINGE_Y | TORN_NORTH)) | (marks[i - columns] & TORN_NORTH)) === 0) {
        addBend(plate, at, columns, alongY * stiff);
      }
      if (column < columns - 1) {
        const pull = (pulls[i] + pulls[i + 1]) / (2 * stretch);
        addPull(plate, at, 1, (mark & TORN_EAST) === 0 ? pull : pull * ACROSS_TEAR);
      }
      if (row < rows - 1) {
        const pull = (stretch * (pulls[i] + pulls[i + columns])) / 2;
        addPull(plate, at, columns, (mark & TORN_NORTH) === 0 ? pull : pull * ACROSS_TEAR);
      }
      if (column < columns - 1 && row < rows - 1 && (mark & (HINGE_CELL | TORN_CELL)) === 0) {
        const mean = (stiff + stiffness[i + 1] + (stiffness[i + columns] + stiffness[i + columns + 1])) / 4;
        addCell(plate, at, 2 * scale * mean, 1, -1, -1, 1);
      }
    }
  }
  return plate;
}

/** A slope that the tension of some posts wants, in steps: 0 is the slope of what has been taken off the heights. */
export interface Lean {
  /** The pulls of these posts, 0 at the others. */
  readonly pulls: Float64Array;
  readonly slopeX: number;
  readonly slopeY: number;
}

/** Add to the right side what makes the tension pull towards the slope of `lean`. */
export function addLean(right: Float64Array, plate: Plate, { stretch, marks }: Energy, lean: Lean): void {
  const { columns, rows, pad } = plate;
  const { pulls } = lean;
  for (let i = 0; i < pulls.length; i++) {
    if (i % columns < columns - 1) {
      const pull = ((pulls[i] + pulls[i + 1]) / (2 * stretch)) * lean.slopeX;
      push(pad + i, 1, (marks[i] & TORN_EAST) === 0 ? pull : pull * ACROSS_TEAR);
    }
    if (i < columns * (rows - 1)) {
      const pull = ((stretch * (pulls[i] + pulls[i + columns])) / 2) * lean.slopeY;
      push(pad + i, columns, (marks[i] & TORN_NORTH) === 0 ? pull : pull * ACROSS_TEAR);
    }
  }

  function push(at: number, along: number, pull: number): void {
    right[at] -= pull;
    right[at + along] += pull;
  }
}

/**
 * Tie the plate to the held points, each by a spring of strength `spring`; the springs of one cell together are at most
 * `most`: on coarse grids a cell holds many points.
 */
export function tie(plate: Plate, held: Held, { every, stiffness }: Energy, springs: Float64Array, most: number): void {
  const { columns, rows, pad } = plate;
  const counts = new Uint32Array(columns * rows);
  const weights = new Float64Array(4);
  for (let pass = 0; pass < 2; pass++) {
    for (let k = 0; k < held.z.length; k++) {
      const x = held.columns[k] / every;
      const y = held.rows[k] / every;
      const column = Math.min(columns - 2, Math.floor(x));
      const row = Math.min(rows - 2, Math.floor(y));
      const sw = row * columns + column;
      if (pass === 0) {
        counts[sw]++;
        continue;
      }
      weightsAt(x - column, y - row, weights);
      const south = Math.max(stiffness[sw], stiffness[sw + 1]);
      const stiffest = Math.max(south, stiffness[sw + columns], stiffness[sw + columns + 1]);
      const strength = Math.min(springs[k], (most * stiffest) / counts[sw]);
      addCell(plate, pad + sw, strength, weights[0], weights[1], weights[2], weights[3]);
    }
  }
}
