import { edgeRuns, isWithin } from './edge-runs.ts';
import { type Box, boxOf, type Ring } from './ring.ts';
import { snappedDown, snappedUp } from './snap.ts';

/** Cells along the longer side of the box. */
const CELLS = 72;

/**
 * A large upright rectangle inside some rings (even-odd), on the grid of SNAP; null where none as large as a cell is found. The
 * largest one of whole cells of a raster is found exactly (rectangle under a histogram, row by row), then its sides are moved
 * out until they touch an edge: so what is found is never less than the largest of the raster, and for a rectangle all of it.
 * O(cells × edges).
 */
export function largestRectangle(rings: readonly Ring[]): Box | null {
  const [minX, minY, maxX, maxY] = boxOf(rings);
  const step = Math.max(maxX - minX, maxY - minY) / CELLS;
  if (!(step > 0)) return null;
  const columns = Math.max(1, Math.floor((maxX - minX) / step));
  const rows = Math.max(1, Math.floor((maxY - minY) / step));
  const [across, up] = [(maxX - minX) / columns, (maxY - minY) / rows];
  const cell = (x: number, y: number): Box => [
    minX + x * across,
    minY + y * up,
    minX + (x + 1) * across,
    minY + (y + 1) * up,
  ];
  const runs = edgeRuns(rings);
  const heights = new Int32Array(columns);
  let best: Box | null = null;
  let most = 0;
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const box = cell(column, row);
      const isFree = isWithin(runs, (box[0] + box[2]) / 2, (box[1] + box[3]) / 2) && !crosses(runs.edges, box);
      heights[column] = isFree ? heights[column] + 1 : 0;
    }
    for (const [from, to, height] of underHistogram(heights)) {
      const area = (to - from) * across * height * up;
      if (area <= most) continue;
      most = area;
      best = [minX + from * across, minY + (row + 1 - height) * up, minX + to * across, minY + (row + 1) * up];
    }
  }
  return best === null ? null : settled(grown(runs.edges, best));
}

/** Every rectangle under a histogram that cannot be widened at its height: from, to, height. A stack of rising bars, O(n). */
function* underHistogram(heights: Int32Array): Generator<[number, number, number]> {
  const open: { from: number; height: number }[] = [];
  for (let i = 0; i <= heights.length; i++) {
    const height = i < heights.length ? heights[i] : 0;
    let from = i;
    for (let last = open[open.length - 1]; last && last.height >= height; last = open[open.length - 1]) {
      open.pop();
      yield [last.from, i, last.height];
      from = last.from;
    }
    open.push({ from, height });
  }
}

/** Whether an edge has a point inside a box. */
function crosses(edges: Float64Array, [minX, minY, maxX, maxY]: Box): boolean {
  for (let i = 0; i < edges.length; i += 4) {
    const within = spanWithin(edges, i, 1, minY, maxY);
    if (within && within[0] < maxX && within[1] > minX) return true;
  }
  return false;
}

/** Each side in turn moved out to the next edge; both ways first is tried, and the larger taken. */
function grown(edges: Float64Array, box: Box): Box {
  const area = ([minX, minY, maxX, maxY]: Box) => (maxX - minX) * (maxY - minY);
  const wide = stretched(edges, stretched(edges, box, 0), 1);
  const high = stretched(edges, stretched(edges, box, 1), 0);
  return area(high) > area(wide) ? high : wide;
}

/** Both sides across an axis (0: x, 1: y) moved out to the next edge. */
function stretched(edges: Float64Array, box: Box, axis: 0 | 1): Box {
  const other = axis === 0 ? 1 : 0;
  let [least, most] = [-Infinity, Infinity];
  for (let i = 0; i < edges.length; i += 4) {
    const within = spanWithin(edges, i, other, box[other], box[other + 2]);
    if (!within) continue;
    const middle = (box[axis] + box[axis + 2]) / 2;
    if (within[1] <= middle) least = Math.max(least, within[1]);
    else most = Math.min(most, within[0]);
  }
  return axis === 0 ? [least, box[1], most, box[3]] : [box[0], least, box[2], most];
}

/** Where an edge runs along the other axis while it is strictly between two values of this one; null when it never is. */
function spanWithin(edges: Float64Array, i: number, axis: 0 | 1, low: number, high: number): [number, number] | null {
  const [a, b] = [edges[i + axis], edges[i + 2 + axis]];
  const [p, q] = [edges[i + 1 - axis], edges[i + 3 - axis]];
  if (Math.max(a, b) <= low || Math.min(a, b) >= high) return null;
  const at = (value: number) => (a === b ? p : p + ((q - p) * (Math.min(high, Math.max(low, value)) - a)) / (b - a));
  const [from, to] = [at(a), at(b)];
  // An edge along the axis is there with all of its length.
  return a === b ? [Math.min(p, q), Math.max(p, q)] : [Math.min(from, to), Math.max(from, to)];
}

/** Drawn in to the grid. */
const settled = ([minX, minY, maxX, maxY]: Box): Box => [
  // −0 would be read back as 0.
  snappedUp(minX) + 0,
  snappedUp(minY) + 0,
  snappedDown(maxX) + 0,
  snappedDown(maxY) + 0,
];
