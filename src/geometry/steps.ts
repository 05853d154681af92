import { Chains, EdgeGrid } from './edge-grid.ts';
import { type Region, ringsOf } from './ring.ts';
import { orient, segmentEntersTriangle, segmentsMeet, segmentsOverlap } from './whole.ts';

/** Edges that nothing may be moved across; touching is allowed. */
export class Fence {
  readonly chains: Chains;
  readonly grid: EdgeGrid;

  constructor(regions: readonly Region[]) {
    this.chains = new Chains(ringsOf(regions));
    this.grid = new EdgeGrid(this.chains);
  }
}

/**
 * A step of simplifying: the points a, b, c, d that follow each other give way to a, (x, y), d. Where a point is dropped,
 * b, c and (x, y) are that point, and the outline goes from a straight to d.
 */
export interface Step {
  a: number;
  b: number;
  c: number;
  d: number;
  x: number;
  y: number;
  /** How far the outline moves at most. */
  moves: number;
}

/** Whether nothing of the outlines lies where a step would move over, and its new edges touch nothing of them. */
export function isClear(chains: Chains, grid: EdgeGrid, step: Step): boolean {
  const { x, y, next } = chains;
  const { a, b, c, d } = step;
  const isDrop = b === c;
  for (let half = 0; half < (isDrop ? 1 : 2); half++) {
    const isFirst = half === 0;
    const isLast = isDrop || half === 1;
    const startX = isFirst ? x[a] : step.x;
    const startY = isFirst ? y[a] : step.y;
    const endX = isLast ? x[d] : step.x;
    const endY = isLast ? y[d] : step.y;
    const found = grid.near(startX, startY, endX, endY, step.moves);
    for (let i = 0; i < found; i++) {
      const r = grid.found[i];
      if (r === a || r === b || r === c) continue;
      const s = next[r];
      // The neighbours share an end with the new edges; all they must not do is run along them.
      const test = (isFirst && s === a) || (isLast && r === d) ? segmentsOverlap : segmentsMeet;
      if (test(startX, startY, endX, endY, x[r], y[r], x[s], y[s])) return false;
      if (enters(x[r], y[r], x[s], y[s], chains, step)) return false;
    }
  }
  return true;
}

/**
 * Whether a step keeps to its side of a fence: no edge of the fence lies where it moves over, and none runs along what
 * moves. (What it moves over, if no edge lies there, is all inside the fence or all outside, like the edge that moves. One
 * that runs along the fence has the inside on one side only, so it is left where it is.)
 */
export function keepsOff(fence: Fence, outlines: Chains, step: Step): boolean {
  const { x, y } = outlines;
  const { a, b, c, d, x: px, y: py } = step;
  const { grid, chains } = fence;
  const isDrop = b === c;
  // An edge beside that is drawn out exactly stays where it is; one that swings to a rounded corner moves.
  const isBent = isDrop || orient(x[a], y[a], x[b], y[b], px, py) !== 0;
  const isBentAfter = isDrop || orient(px, py, x[c], y[c], x[d], y[d]) !== 0;
  for (let half = 0; half < (isDrop ? 1 : 2); half++) {
    const startX = half === 0 ? x[a] : px;
    const startY = half === 0 ? y[a] : py;
    const endX = half === 1 || isDrop ? x[d] : px;
    const endY = half === 1 || isDrop ? y[d] : py;
    const found = grid.near(startX, startY, endX, endY, step.moves);
    for (let i = 0; i < found; i++) {
      const r = grid.found[i];
      const s = chains.next[r];
      const rx = chains.x[r];
      const ry = chains.y[r];
      const sx = chains.x[s];
      const sy = chains.y[s];
      if (enters(rx, ry, sx, sy, outlines, step)) return false;
      if (isBent && segmentsOverlap(x[a], y[a], x[b], y[b], rx, ry, sx, sy)) return false;
      if (isBentAfter && segmentsOverlap(x[c], y[c], x[d], y[d], rx, ry, sx, sy)) return false;
      if (isDrop) continue;
      if (segmentsOverlap(x[b], y[b], x[c], y[c], rx, ry, sx, sy)) return false;
      // The lines that part the triangles of `enters` belong to none of them.
      if (isBent && segmentsOverlap(x[b], y[b], px, py, rx, ry, sx, sy)) return false;
      if (isBentAfter && segmentsOverlap(x[c], y[c], px, py, rx, ry, sx, sy)) return false;
    }
  }
  return true;
}

/** Whether the segment r–s has a point strictly between the old way and the new one. */
function enters(
  rx: number,
  ry: number,
  sx: number,
  sy: number,
  { x, y }: Chains,
  { a, b, c, d, x: px, y: py }: Step,
): boolean {
  if (b === c) return segmentEntersTriangle(rx, ry, sx, sy, x[a], y[a], px, py, x[d], y[d]);
  return (
    segmentEntersTriangle(rx, ry, sx, sy, x[b], y[b], x[c], y[c], px, py) ||
    segmentEntersTriangle(rx, ry, sx, sy, x[a], y[a], x[b], y[b], px, py) ||
    segmentEntersTriangle(rx, ry, sx, sy, x[c], y[c], x[d], y[d], px, py)
  );
}
