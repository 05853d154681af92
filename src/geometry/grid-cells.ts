import { type Region, ringsOf } from './ring.ts';

/** Where the cells of a grid lie. */
export interface Cells {
  readonly across: number;
  readonly up: number;
  readonly stepX: number;
  readonly stepY: number;
  readonly originX: number;
  readonly originY: number;
}

/**
 * How much of each cell of a grid lies in the regions, row by row from the south: 0 nothing, 1 all of it, 2 it is cut by an
 * edge. What a cell shares only an edge or a corner with does not count. O(cells + Σ cells that an edge runs through + rows × crossings).
 *
 * @param slack how far an edge may stray into a cell and still count as running along its border.
 */
export function cellsUnder(regions: readonly Region[], grid: Cells, slack: number): Uint8Array {
  const { across, up } = grid;
  const cells = new Uint8Array(across * up);
  const slackX = slack / grid.stepX;
  const slackY = slack / grid.stepY;
  const crossings: number[][] = Array.from({ length: up }, () => []);
  for (const ring of ringsOf(regions)) {
    for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
      const ax = (ring[j] - grid.originX) / grid.stepX;
      const ay = (ring[j + 1] - grid.originY) / grid.stepY;
      const bx = (ring[i] - grid.originX) / grid.stepX;
      const by = (ring[i + 1] - grid.originY) / grid.stepY;
      markUnderEdge(ax, ay, bx, by);
    }
  }
  // A cell that no edge runs through is all in or all out: its middle tells.
  for (let row = 0; row < up; row++) {
    const line = crossings[row].sort((a, b) => a - b);
    for (let k = 0; k + 1 < line.length; k += 2) {
      const last = Math.min(across - 1, Math.floor(line[k + 1] - 0.5));
      for (let column = Math.max(0, Math.ceil(line[k] - 0.5)); column <= last; column++)
        cells[row * across + column] ||= 1;
    }
  }
  return cells;

  function markUnderEdge(ax: number, ay: number, bx: number, by: number): void {
    const low = Math.min(ay, by);
    const high = Math.max(ay, by);
    const last = Math.min(up - 1, Math.floor(high - slackY));
    for (let row = Math.max(0, Math.floor(low + slackY)); row <= last; row++) {
      const from = ay === by ? ax : ax + ((bx - ax) * (clamp(row, low, high) - ay)) / (by - ay);
      const to = ay === by ? bx : ax + ((bx - ax) * (clamp(row + 1, low, high) - ay)) / (by - ay);
      const end = Math.min(across - 1, Math.floor(Math.max(from, to) - slackX));
      for (let column = Math.max(0, Math.floor(Math.min(from, to) + slackX)); column <= end; column++) {
        cells[row * across + column] = 2;
      }
    }
    const lastMiddle = Math.min(up - 1, Math.ceil(high - 0.5) - 1);
    for (let row = Math.max(0, Math.ceil(low - 0.5)); row <= lastMiddle; row++) {
      crossings[row].push(ax + ((bx - ax) * (row + 0.5 - ay)) / (by - ay));
    }
  }
}

/** Posts at the corners of the marked cells: 1 for each, row by row, one more than the cells each way. */
export function cornersOf(cells: Uint8Array, across: number): Uint8Array {
  const up = cells.length / across;
  const columns = across + 1;
  const posts = new Uint8Array(columns * (up + 1));
  for (let row = 0; row < up; row++) {
    for (let column = 0; column < across; column++) {
      if (cells[row * across + column] === 0) continue;
      const post = row * columns + column;
      posts[post] = posts[post + 1] = posts[post + columns] = posts[post + columns + 1] = 1;
    }
  }
  return posts;
}

const clamp = (value: number, low: number, high: number): number => Math.max(low, Math.min(high, value));
