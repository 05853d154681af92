import type { Region, Ring } from './ring.ts';

/** East, north, west, south: a step along the grid lines in each direction, turning left from one to the next. */
const STEP_X = [1, 0, -1, 0];
const STEP_Y = [0, 1, 0, -1];

/**
 * Outlines of the marked cells of a grid, exactly on the grid lines: one region for each group of cells that share
 * edges, in order of their first cells. Cells that only touch at a corner stay apart; a hole that touches the outer ring, or
 * another hole, at a corner is a ring of its own. Corners only: no point lies in the middle of a straight run. O(cells).
 *
 * @param cells non-zero for a marked cell, row by row from the south, `across` of them in a row.
 */
export function outlineOfCells(cells: Uint8Array, across: number, stepX: number, stepY: number): Region[] {
  const group = groupsOf(cells, across);
  const up = cells.length / across;
  const groupAt = (x: number, y: number) => (x < 0 || y < 0 || x >= across || y >= up ? 0 : group[y * across + x]);
  // Every ring runs east somewhere, along the south edge of a marked cell: rings start there and are found by it.
  const done = new Uint8Array(cells.length);
  const outer: Ring[] = [];
  const holes: Ring[][] = [];
  for (let start = 0; start < cells.length; start++) {
    const startX = start % across;
    const startY = (start - startX) / across;
    if (group[start] === 0 || done[start] === 1 || groupAt(startX, startY - 1) !== 0) continue;
    const points: number[] = [];
    let x = startX;
    let y = startY;
    let heading = 0;
    let twice = 0;
    do {
      if (heading === 0) done[y * across + x] = 1;
      const fromX = x;
      const fromY = y;
      x += STEP_X[heading];
      y += STEP_Y[heading];
      twice += fromX * y - x * fromY;
      const next = turnAt(x, y, heading, groupAt);
      if (next !== heading) points.push(x * stepX, y * stepY);
      heading = next;
    } while (x !== startX || y !== startY || heading !== 0);
    const ring = new Float64Array(points);
    const number = group[start] - 1;
    holes[number] ??= [];
    if (twice > 0) outer[number] = ring;
    else holes[number].push(ring);
  }
  return outer.map((ring, number) => [ring, ...holes[number]]);
}

/** Where to go on at a corner, the marked cell on the left. */
function turnAt(x: number, y: number, heading: number, groupAt: (x: number, y: number) => number): number {
  // The cells ahead on the left and on the right: a corner's cells are named by their south-west points.
  const aheadLeft = groupAt(x - (heading === 1 || heading === 2 ? 1 : 0), y - (heading === 2 || heading === 3 ? 1 : 0));
  const aheadRight = groupAt(
    x - (heading === 2 || heading === 3 ? 1 : 0),
    y - (heading === 0 || heading === 3 ? 1 : 0),
  );
  const left = (heading + 1) % 4;
  const right = (heading + 3) % 4;
  if (aheadRight === 0) return aheadLeft === 0 ? left : heading;
  if (aheadLeft !== 0) return right;
  // Two marked cells that meet corner to corner. Of one group they enclose something: go round that alone.
  const behindLeft = groupAt(
    x - (heading === 0 || heading === 1 ? 1 : 0),
    y - (heading === 1 || heading === 2 ? 1 : 0),
  );
  return aheadRight === behindLeft ? right : left;
}

/** Numbers of the groups of marked cells that share edges, from 1 in order of their first cells; 0 where none is marked. */
function groupsOf(cells: Uint8Array, across: number): Int32Array {
  const group = new Int32Array(cells.length);
  const waiting: number[] = [];
  let count = 0;
  for (let start = 0; start < cells.length; start++) {
    if (cells[start] === 0 || group[start] !== 0) continue;
    group[start] = ++count;
    waiting.push(start);
    for (let cell = waiting.pop(); cell !== undefined; cell = waiting.pop()) {
      const x = cell % across;
      if (x > 0) visit(cell - 1);
      if (x < across - 1) visit(cell + 1);
      if (cell >= across) visit(cell - across);
      if (cell + across < cells.length) visit(cell + across);
    }
  }
  return group;

  function visit(cell: number): void {
    if (cells[cell] === 0 || group[cell] !== 0) return;
    group[cell] = count;
    waiting.push(cell);
  }
}
