/** The edge to the next post east, north is torn; the cell to the north-east is touched by a tear. */
export const [TORN_EAST, TORN_NORTH, TORN_CELL] = [1, 2, 4];
/** The surface may bend sharply at this post from west to east, from south to north; within the cell to the north-east. */
export const [HINGE_X, HINGE_Y, HINGE_CELL] = [8, 16, 32];

/** Lines stand this far east of where they are, in steps: one that ran through a post from corner to corner would leave it joined to both sides. */
const ASIDE = 1e-6;

/** Flat x, y in steps from the first post of the finest grid. */
export type PlanLine = Float64Array;

/**
 * Mark where a plate on every `every`-th post is creased or torn. A crease sits at the post nearest to where it crosses an edge
 * between posts: freed at one post only, the plate bends there and still holds together. A post on a line lies
 * west or south of it. O(posts + length of the lines in steps).
 */
export function breaksOf(
  creases: readonly PlanLine[],
  tears: readonly PlanLine[],
  columns: number,
  rows: number,
  every: number,
): Uint8Array {
  const marks = new Uint8Array(columns * rows);
  for (const line of creases) mark(line, false);
  for (const line of tears) mark(line, true);
  return marks;

  function mark(line: PlanLine, isTear: boolean): void {
    for (let i = 0; i + 3 < line.length; i += 2) {
      const ax = (line[i] + ASIDE) / every;
      const ay = line[i + 1] / every;
      const bx = (line[i + 2] + ASIDE) / every;
      const by = line[i + 3] / every;
      for (let y = firstWhole(ay, by, rows); ay !== by && y <= lastWhole(ay, by, rows); y++) {
        const x = ax + ((y - ay) / (by - ay)) * (bx - ax);
        if (x >= 0 && x < columns - 1) markEdge(Math.floor(x), y, x - Math.floor(x), true, isTear);
      }
      for (let x = firstWhole(ax, bx, columns); ax !== bx && x <= lastWhole(ax, bx, columns); x++) {
        const y = ay + ((x - ax) / (bx - ax)) * (by - ay);
        if (y >= 0 && y < rows - 1) markEdge(x, Math.floor(y), y - Math.floor(y), false, isTear);
      }
    }
  }

  function markEdge(column: number, row: number, share: number, isEast: boolean, isTear: boolean): void {
    const post = row * columns + column;
    const next = isEast ? 1 : columns;
    if (isTear) marks[post] |= isEast ? TORN_EAST : TORN_NORTH;
    else marks[share < 0.5 ? post : post + next] |= isEast ? HINGE_X : HINGE_Y;
    const cell = isTear ? TORN_CELL : HINGE_CELL;
    marks[post] |= cell;
    const across = isEast ? columns : 1;
    if (isEast ? row > 0 : column > 0) marks[post - across] |= cell;
  }
}

const firstWhole = (a: number, b: number, count: number): number =>
  Math.min(count, Math.max(0, Math.ceil(Math.min(a, b))));
const lastWhole = (a: number, b: number, count: number): number => Math.min(count - 1, Math.floor(Math.max(a, b)));
