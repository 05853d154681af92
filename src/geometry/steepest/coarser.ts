import type { PostGrid } from './posts.ts';

/** Every other post, each the mean of those of the ground round it (¼ ½ ¼ both ways). An odd cell at the far sides is left. */
export function halved(
  h: Float64Array,
  { columns, rows, stepX, stepY }: PostGrid,
  cells: Uint8Array | null,
  steep: Uint8Array,
  weights: Float64Array,
) {
  const across = Math.floor((columns - 1) / 2);
  const along = Math.floor((rows - 1) / 2);
  const grid: PostGrid = { columns: across + 1, rows: along + 1, stepX: 2 * stepX, stepY: 2 * stepY };
  const heights = new Float64Array(grid.columns * grid.rows);
  for (let row = 0; row <= along; row++) {
    for (let column = 0; column <= across; column++) {
      let sum = 0;
      let parts = 0;
      for (let y = Math.max(0, 2 * row - 1); y <= Math.min(rows - 1, 2 * row + 1); y++) {
        for (let x = Math.max(0, 2 * column - 1); x <= Math.min(columns - 1, 2 * column + 1); x++) {
          if (weights[y * columns + x] === 0) continue;
          const part = (y === 2 * row ? 2 : 1) * (x === 2 * column ? 2 : 1);
          sum += part * h[y * columns + x];
          parts += part;
        }
      }
      heights[row * grid.columns + column] = parts === 0 ? 0 : sum / parts;
    }
  }
  const coarseSteep = new Uint8Array(across * along);
  const coarseCells = cells && new Uint8Array(across * along).fill(1);
  for (let row = 0; row < 2 * along; row++) {
    for (let column = 0; column < 2 * across; column++) {
      const from = row * (columns - 1) + column;
      const to = (row >> 1) * across + (column >> 1);
      if (steep[from] === 1) coarseSteep[to] = 1;
      if (cells !== null && coarseCells !== null && cells[from] === 0) coarseCells[to] = 0;
    }
  }
  return { grid, heights, cells: coarseCells, steep: coarseSteep };
}

/** Move each post as the coarse ones round it moved. What rises is then scaled to what falls, so that the volume is kept. */
export function movedBy(
  before: Float64Array,
  moved: Float64Array,
  grid: PostGrid,
  coarse: PostGrid,
  weights: Float64Array,
) {
  const by = new Float64Array(before.length);
  let up = 0;
  let down = 0;
  for (let row = 0; row <= 2 * (coarse.rows - 1); row++) {
    const south = (row >> 1) * coarse.columns;
    const north = ((row + 1) >> 1) * coarse.columns;
    for (let column = 0; column <= 2 * (coarse.columns - 1); column++) {
      const west = column >> 1;
      const east = (column + 1) >> 1;
      const i = row * grid.columns + column;
      if (weights[i] === 0) continue;
      by[i] = (moved[south + west] + moved[south + east] + moved[north + west] + moved[north + east]) / 4;
      if (by[i] > 0) up += weights[i] * by[i];
      else down -= weights[i] * by[i];
    }
  }
  const scale = up > 0 ? down / up : 0;
  for (let i = 0; i < by.length; i++) {
    const move = by[i] > 0 ? by[i] * scale : up > 0 ? by[i] : 0;
    by[i] = before[i] + move;
  }
  return by;
}
