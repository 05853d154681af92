import type { Surface } from './sections.ts';

/** Where an upright line is inside a closed surface: from, to, from, to … rising. */
export type Plumb = readonly number[];

/** Points are sorted into so many strips, so that a triangle looks at few. */
const STRIPS = 256;

/**
 * The stretches of upright lines through some points that lie inside a closed surface, or inside several that overlap. An edge
 * belongs to one of its two triangles, so that a line through it passes once. O(triangles × points in their strip of x).
 */
export function plumbs({ positions: p, triangles }: Surface, points: readonly (readonly [number, number])[]): Plumb[] {
  const found: Hit[][] = points.map(() => []);
  if (points.length === 0) return [];
  let [minX, maxX] = [Infinity, -Infinity];
  for (const [x] of points) {
    minX = Math.min(minX, x);
    maxX = Math.max(maxX, x);
  }
  const wide = (maxX - minX) / STRIPS || 1;
  const strips: number[][] = Array.from({ length: STRIPS }, () => []);
  for (const [i, [x]] of points.entries()) strips[stripOf(x, minX, wide)].push(i);
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [3 * triangles[t], 3 * triangles[t + 1], 3 * triangles[t + 2]];
    const low = Math.min(p[a], p[b], p[c]);
    const high = Math.max(p[a], p[b], p[c]);
    if (high < minX || low > maxX) continue;
    const last = stripOf(high, minX, wide);
    for (let strip = stripOf(low, minX, wide); strip <= last; strip++) {
      for (const i of strips[strip]) {
        const [x, y] = points[i];
        if (x < low || x > high || !isUnder(p, a, b, c, x, y)) continue;
        found[i].push(hitIn(p, a, b, c, x, y));
      }
    }
  }
  return found.map(insideOf);
}

interface Hit {
  readonly at: number;
  /** 1 from outside in on the way up, −1 from inside out; 0 where the triangle stands upright. */
  readonly into: number;
}

function insideOf(hits: readonly Hit[]): number[] {
  const runs: number[] = [];
  let depth = 0;
  // At one height in before out: bodies that touch are one.
  for (const { at, into } of [...hits].sort((a, b) => a.at - b.at || b.into - a.into)) {
    const before = depth;
    depth += into;
    if (depth > 0 !== before > 0) runs.push(at);
  }
  return runs;
}

const stripOf = (x: number, minX: number, wide: number): number =>
  Math.min(STRIPS - 1, Math.max(0, Math.floor((x - minX) / wide)));

/** Whether a point lies in a triangle seen from above: the even-odd rule, each edge judged from its western end. */
function isUnder(p: ArrayLike<number>, a: number, b: number, c: number, x: number, y: number): boolean {
  return (crosses(p, a, b, x, y) !== crosses(p, b, c, x, y)) !== crosses(p, c, a, x, y);
}

/** Whether an edge passes north of a point. */
function crosses(p: ArrayLike<number>, from: number, to: number, x: number, y: number): boolean {
  const [west, east] = p[from] < p[to] ? [from, to] : [to, from];
  if (p[west] > x || p[east] <= x) return false;
  return (p[east] - p[west]) * (y - p[west + 1]) < (p[east + 1] - p[west + 1]) * (x - p[west]);
}

function hitIn(p: ArrayLike<number>, a: number, b: number, c: number, x: number, y: number): Hit {
  const [ux, uy, uz] = [p[b] - p[a], p[b + 1] - p[a + 1], p[b + 2] - p[a + 2]];
  const [vx, vy, vz] = [p[c] - p[a], p[c + 1] - p[a + 1], p[c + 2] - p[a + 2]];
  const twice = ux * vy - uy * vx;
  if (twice === 0) return { at: p[a + 2], into: 0 };
  const [dx, dy] = [x - p[a], y - p[a + 1]];
  const at = p[a + 2] + ((dx * vy - dy * vx) * uz + (ux * dy - uy * dx) * vz) / twice;
  return { at, into: twice > 0 ? -1 : 1 };
}
