import type { Given } from '../surface.ts';

/** What is told of each point at which a height is given: its place in steps from the first post, and the height. */
export interface Taker {
  take(column: number, row: number, z: number): void;
}

/** Points at which the surface is held, in steps from the first post. */
export interface Held {
  readonly columns: Float64Array;
  readonly rows: Float64Array;
  readonly z: Float64Array;
}

interface Frame {
  readonly columns: number;
  readonly rows: number;
  readonly stepX: number;
  readonly stepY: number;
  readonly originX: number;
  readonly originY: number;
}

/**
 * Tell every point at which what is given and the ground between posts can differ most: the spots, the lines' points, and
 * where a line crosses an edge of a triangle. Between two of them both are straight. What lies off the grid is left out.
 */
export function eachGiven({ spots, lines }: Given, frame: Frame, taker: Taker, firstOfLine?: () => void): void {
  const { columns, rows, stepX, stepY, originX, originY } = frame;
  const [right, top] = [columns - 1, rows - 1];
  for (let i = 0; i + 2 < spots.length; i += 3) {
    const x = (spots[i] - originX) / stepX;
    const y = (spots[i + 1] - originY) / stepY;
    if (x >= 0 && x <= right && y >= 0 && y <= top) taker.take(x, y, spots[i + 2]);
  }
  for (const line of lines) {
    firstOfLine?.();
    for (let i = 0; i + 5 < line.length; i += 3) {
      const ax = (line[i] - originX) / stepX;
      const ay = (line[i + 1] - originY) / stepY;
      const dx = (line[i + 3] - line[i]) / stepX;
      const dy = (line[i + 4] - line[i + 1]) / stepY;
      alongSegment(ax, ay, line[i + 2], dx, dy, line[i + 5] - line[i + 2], right, top, taker);
    }
  }
}

/** Both ends of a segment and its crossings, in order, of the grid's lines and the cells' diagonals, cut to the grid. */
function alongSegment(
  ax: number,
  ay: number,
  az: number,
  dx: number,
  dy: number,
  dz: number,
  right: number,
  top: number,
  taker: Taker,
): void {
  let from = 0;
  let to = 1;
  for (let side = 0; side < 4; side++) {
    const speed = side < 2 ? dx : dy;
    const start = side < 2 ? ax : ay;
    const bound = side === 1 ? right : side === 3 ? top : 0;
    const isLow = side % 2 === 0;
    if (speed === 0) {
      if (isLow ? start < bound : start > bound) return;
    } else if (speed > 0 === isLow) from = Math.max(from, (bound - start) / speed);
    else to = Math.min(to, (bound - start) / speed);
  }
  if (!(from <= to)) return;
  takeAt(from);
  // Four families of lines: x, y, x + y and x − y whole. Each is walked from where the segment enters.
  const starts = [ax, ay, ax + ay, ax - ay];
  const speeds = [dx, dy, dx + dy, dx - dy];
  const lines = starts.map((start, k) => nextWhole(start + speeds[k] * from, speeds[k]));
  for (;;) {
    let next = to;
    let which = -1;
    for (let k = 0; k < 4; k++) {
      if (speeds[k] === 0) continue;
      const at = (lines[k] - starts[k]) / speeds[k];
      if (at < next) {
        next = at;
        which = k;
      }
    }
    if (which < 0) break;
    lines[which] += speeds[which] > 0 ? 1 : -1;
    if (next > from) takeAt(next);
  }
  if (to > from) takeAt(to);

  function takeAt(at: number): void {
    const x = Math.min(right, Math.max(0, ax + at * dx));
    const y = Math.min(top, Math.max(0, ay + at * dy));
    taker.take(x, y, at === 1 ? az + dz : az + at * dz);
  }
}

const nextWhole = (value: number, speed: number): number => (speed > 0 ? Math.floor(value) + 1 : Math.ceil(value) - 1);

/** The points at which the surface is held, the spots first: all that eachGiven tells, less those of a line that stand nearer than `apart` steps to the one before. */
export function heldPoints(given: Given, frame: Frame, apart: number): { held: Held; spots: number } {
  let [columns, rows, z] = [new Float64Array(1024), new Float64Array(1024), new Float64Array(1024)];
  let count = 0;
  let [lastX, lastY] = [-1, -1];
  const taker: Taker = {
    take(x, y, height) {
      if (Math.abs(x - lastX) < apart && Math.abs(y - lastY) < apart) return;
      if (count === z.length) [columns, rows, z] = [grown(columns), grown(rows), grown(z)];
      columns[count] = x;
      rows[count] = y;
      z[count++] = height;
      if (isOnLine) [lastX, lastY] = [x, y];
    },
  };
  let isOnLine = false;
  let spots = 0;
  eachGiven(given, frame, taker, () => {
    if (!isOnLine) spots = count;
    isOnLine = true;
    [lastX, lastY] = [-1, -1];
  });
  const held = { columns: columns.slice(0, count), rows: rows.slice(0, count), z: z.slice(0, count) };
  return { held, spots: isOnLine ? spots : count };
}

function grown(array: Float64Array): Float64Array<ArrayBuffer> {
  const more = new Float64Array(array.length * 2);
  more.set(array);
  return more;
}

/** How much of each post of its cell (SW, SE, NW, NE) the ground takes at (x, y) within the cell, 0…1 both. */
export function weightsAt(x: number, y: number, weights: Float64Array): void {
  const near = Math.min(x, y, 1 - x, 1 - y);
  weights.fill(near / 2);
  if (near === y) {
    weights[0] += 1 - x - y;
    weights[1] += x - y;
  } else if (near === x) {
    weights[0] += 1 - x - y;
    weights[2] += y - x;
  } else if (near === 1 - y) {
    weights[2] += y - x;
    weights[3] += x + y - 1;
  } else {
    weights[1] += x - y;
    weights[3] += x + y - 1;
  }
}
