import { orient } from '../whole.ts';
import type { Sight } from './sights.ts';

/** How many points to either side of what is seen are tried. More made no stations better on the samples. */
const WINDOW = 24;
/** Lines longer than so many times the longest that is seen from the same foot are not tried. */
const LONGER = 1.5;
/** Beyond this ratio of the two paces, length is dear. */
const EASY_PACE = 2;
/** What a unit of length too much costs, in units of length of the same lean. */
const HASTE = 3;

/** What ends that run square to each other cost, in the same units: a patch between them is twisted, and corners should meet. */
const TWIST = 4;

/** Steps: how many points of the foot, how many of the top. */
const FOOT = [1, 1, 1, 1, 2, 3, 0];
const TOP = [1, 0, 2, 3, 1, 1, 1];

/**
 * Match a foot and a top that see each other so that the lines between them are short, the two ends keep pace and run the
 * same way: the least sum over a path through the grid of pairs (Fuchs, Kedem and Uselton, "Optimal surface reconstruction from planar
 * contours", CACM 20, 1977; there each step passes one point of one contour, here up to three of one while one of the
 * other, so that both ends move). Only pairs near those that are seen are tried, and only steps whose quadrilateral is
 * convex: then the lines between its sides never cross, nor those of one step those of another, since the steps tile what
 * lies between the outlines. What is seen is itself such a path, so there always is one. Flat x, y of the foot, x, y of
 * the top for each station; corners passed over in a step have their stations, too. O(points × WINDOW).
 */
export function paced({ foot, top, pairs }: Sight): Float64Array {
  const rows = foot.length / 2;
  const { from, to } = windowOf(pairs, rows);
  const starts = new Int32Array(rows + 1);
  for (let i = 0; i < rows; i++) starts[i + 1] = starts[i] + to[i] - from[i] + 1;
  const least = new Float64Array(starts[rows]).fill(Infinity);
  const came = new Int8Array(starts[rows]).fill(-1);
  const footAt = lengthsOf(foot);
  const topAt = lengthsOf(top);
  const place = (i: number, j: number) => starts[i] + j - from[i];
  const limits = new Float64Array(rows);
  for (let k = 0; k < pairs.length; k += 2) {
    limits[pairs[k]] = Math.max(limits[pairs[k]], LONGER * LONGER * squared(pairs[k], pairs[k + 1]));
  }
  least[place(0, 0)] = 0;
  for (let i = 0; i < rows; i++) {
    for (let j = from[i]; j <= to[i]; j++) {
      const here = least[place(i, j)];
      if (here === Infinity) continue;
      const near = squared(i, j);
      for (let s = 0; s < FOOT.length; s++) {
        const a = i + FOOT[s];
        const b = j + TOP[s];
        if (a >= rows || b < from[a] || b > to[a]) continue;
        const far = squared(a, b);
        if (far > limits[a]) continue;
        const cost = here + stepCost(i, j, a, b, (near + far) / 2);
        const there = place(a, b);
        if (cost >= least[there] || !isClear(i, j, a, b)) continue;
        least[there] = cost;
        came[there] = s;
      }
    }
  }
  return stationsOf(pathTo(rows - 1, top.length / 2 - 1));

  function stepCost(i: number, j: number, a: number, b: number, lean: number): number {
    const onFoot = footAt[a] - footAt[i];
    const onTop = topAt[b] - topAt[j];
    const excess = Math.max(onFoot, onTop) - EASY_PACE * Math.min(onFoot, onTop);
    const ahead =
      (foot[2 * a] - foot[2 * i]) * (top[2 * b] - top[2 * j]) +
      (foot[2 * a + 1] - foot[2 * i + 1]) * (top[2 * b + 1] - top[2 * j + 1]);
    // A fan, one of whose ends rests, is flat.
    const twist = onFoot > 0 && onTop > 0 ? TWIST * (1 - ahead / (onFoot * onTop)) : 0;
    return lean * ((1 + twist) * ((onFoot + onTop) / 2) + (excess > 0 ? HASTE * excess : 0));
  }

  function squared(i: number, j: number): number {
    const dx = top[2 * j] - foot[2 * i];
    const dy = top[2 * j + 1] - foot[2 * i + 1];
    return dx * dx + dy * dy;
  }

  /** Whether every quadrilateral of a step is convex. */
  function isClear(i: number, j: number, a: number, b: number): boolean {
    let [px, py, qx, qy] = [foot[2 * i], foot[2 * i + 1], top[2 * j], top[2 * j + 1]];
    const count = Math.max(a - i, b - j);
    for (let n = 1; n <= count; n++) {
      const share = shareOf(i, j, a, b, n);
      const [rx, ry] = [pointAt(foot, i, a, n, share, 0), pointAt(foot, i, a, n, share, 1)];
      const [sx, sy] = [pointAt(top, j, b, n, share, 0), pointAt(top, j, b, n, share, 1)];
      if (!isConvex(px, py, rx, ry, sx, sy, qx, qy)) return false;
      px = rx;
      py = ry;
      qx = sx;
      qy = sy;
    }
    return true;
  }

  /** How far along a step its n-th corner stands, 0 … 1, on the outline that passes several. */
  function shareOf(i: number, j: number, a: number, b: number, n: number): number {
    return a - i >= b - j
      ? (footAt[i + n] - footAt[i]) / (footAt[a] - footAt[i])
      : (topAt[j + n] - topAt[j]) / (topAt[b] - topAt[j]);
  }

  function stationsOf(path: readonly number[]): Float64Array {
    const stations: number[] = [foot[0], foot[1], top[0], top[1]];
    for (let k = 2; k < path.length; k += 2) {
      const [i, j, a, b] = [path[k - 2], path[k - 1], path[k], path[k + 1]];
      for (let n = 1; n <= Math.max(a - i, b - j); n++) {
        const share = shareOf(i, j, a, b, n);
        stations.push(...wholePointAt(foot, i, a, n, share, 1), ...wholePointAt(top, j, b, n, share, -1));
      }
    }
    return Float64Array.from(stations);
  }

  /** The pairs of the best path, from the first to the last; what is seen where rounding has left none. */
  function pathTo(i: number, j: number): number[] {
    if (least[place(i, j)] === Infinity) return Array.from(pairs);
    const back = [j, i];
    while (i > 0 || j > 0) {
      const s = came[place(i, j)];
      i -= FOOT[s];
      j -= TOP[s];
      back.push(j, i);
    }
    return back.reverse();
  }
}

/** A coordinate of the n-th of a step's corners: a corner of the outline that passes several, or a share of the other's edge. */
function pointAt(line: Float64Array, from: number, to: number, n: number, share: number, axis: 0 | 1): number {
  if (to - from > 1) return line[2 * (from + n) + axis];
  const a = line[2 * from + axis];
  // The end exactly, not nearly.
  return share === 1 ? line[2 * to + axis] : a + share * (line[2 * to + axis] - a);
}

/** The same in whole units, and where it stands on an edge not beyond that: to its left (1) or right (−1), where the other end is. */
function wholePointAt(
  line: Float64Array,
  from: number,
  to: number,
  n: number,
  share: number,
  side: 1 | -1,
): readonly [number, number] {
  const x = pointAt(line, from, to, n, share, 0);
  const y = pointAt(line, from, to, n, share, 1);
  return wholeBeside(line[2 * from], line[2 * from + 1], line[2 * to], line[2 * to + 1], x, y, side);
}

/**
 * The whole point next to one on the edge a–b that lies on it or to one side of it: both sides of an edge may have such
 * points, and must not come to lie across one another. A whole point is given back as it is.
 */
export function wholeBeside(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  x: number,
  y: number,
  side: 1 | -1,
): readonly [number, number] {
  if (Number.isInteger(x) && Number.isInteger(y)) return [x, y];
  let best: readonly [number, number] = [Math.round(x) + 0, Math.round(y) + 0];
  let least = Infinity;
  for (const px of [Math.floor(x) + 0, Math.floor(x) + 1]) {
    for (const py of [Math.floor(y) + 0, Math.floor(y) + 1]) {
      const off = (px - x) * (px - x) + (py - y) * (py - y);
      if (off >= least || side * orient(ax, ay, bx, by, px, py) < 0) continue;
      least = off;
      best = [px, py];
    }
  }
  return best;
}

/** Whether p, r, s, q run counter-clockwise round a convex quadrilateral, which may have sides of no length or in line. */
export const isConvex = (
  px: number,
  py: number,
  rx: number,
  ry: number,
  sx: number,
  sy: number,
  qx: number,
  qy: number,
): boolean =>
  orient(px, py, rx, ry, sx, sy) >= 0 &&
  orient(rx, ry, sx, sy, qx, qy) >= 0 &&
  orient(sx, sy, qx, qy, px, py) >= 0 &&
  orient(qx, qy, px, py, rx, ry) >= 0;

/** Of each foot point: the first and last top point that are tried. Both only grow. */
function windowOf(pairs: Int32Array, rows: number): { from: Int32Array; to: Int32Array } {
  const first = new Int32Array(rows).fill(-1);
  const last = new Int32Array(rows);
  for (let k = 0; k < pairs.length; k += 2) {
    if (first[pairs[k]] < 0) first[pairs[k]] = pairs[k + 1];
    last[pairs[k]] = pairs[k + 1];
  }
  const most = last[rows - 1];
  const from = new Int32Array(rows);
  const to = new Int32Array(rows);
  for (let i = 0; i < rows; i++) {
    from[i] = Math.max(0, Math.min(first[i] - WINDOW, first[Math.max(0, i - WINDOW)]));
    to[i] = Math.min(most, Math.max(last[i] + WINDOW, last[Math.min(rows - 1, i + WINDOW)]));
  }
  return { from, to };
}

/** How far along a line each of its points is. */
function lengthsOf(line: Float64Array): Float64Array {
  const lengths = new Float64Array(line.length / 2);
  for (let k = 1; k < lengths.length; k++) {
    const dx = line[2 * k] - line[2 * k - 2];
    const dy = line[2 * k + 1] - line[2 * k - 1];
    lengths[k] = lengths[k - 1] + Math.sqrt(dx * dx + dy * dy);
  }
  return lengths;
}
