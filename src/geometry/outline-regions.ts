/**
 * The outlines of contour.ts as regions in whole units of the clipping grid (whole.ts): the same points that arrange.ts
 * makes of them, without looking at every edge again.
 *
 * Two things are known before a point is rounded. What is nested in what: from the first point that a hole has on a row
 * of posts, what is in lies to the left, so the point before it in that row is of the same region. And what can meet:
 * rounding keeps the order of coordinates, so what lies in a cell still lies in the cell, rounded, and points on its rim
 * stay on its rim. In a cell whose points all keep off the ends of their edges, pieces that share no point stay apart
 * by more than rounding moves them, and those that share one lie to either side of an edge. So outlines can only meet
 * where a cell has a point near a post or a centre; those pieces, and the border, are looked at as arrange.ts does.
 */
import { arrange } from './arrange.ts';
import { Chains } from './edge-grid.ts';
import { someMeet } from './meetings.ts';
import { LEFT_IN, ON_ROW } from './outline-cells.ts';
import { CLOSE, type InRule, NONE, ON_BORDER, OutlineScan, type Posts } from './outline-scan.ts';
import { type Region, type Ring, ringArea } from './ring.ts';
import { CLIP_UNITS } from './tolerance.ts';
import { isIdle } from './whole.ts';

/** Points nearer than this to the ends of their edges, in units, may be rounded into one another. 2 would do. */
const NEAR_UNITS = 8;

/**
 * Make ready to outline the same posts at many levels, as contours does. Regions come out in whole units, simple and
 * touching at corners at most, in order of their outer ring's lowest point.
 */
export function regionsOfPosts(posts: Posts): (level: number, rule: InRule) => Region[] {
  if (posts.columns < 2 || posts.rows < 2) return () => [];
  // A point on the way to a centre moves half as far along a side of the cell.
  const near = (2 * NEAR_UNITS) / (Math.min(posts.stepX, posts.stepY) * CLIP_UNITS);
  const outline = new OutlineScan(posts, near < 0.5 ? near : 1);
  return (level, rule) => {
    outline.scan(level, rule);
    return new WholeRings(outline).regions();
  };
}

class WholeRings {
  readonly #outline: OutlineScan;
  /** Some of them may have no area, or fewer than three points. */
  readonly #rings: Ring[] = [];
  /** Of each ring: its earliest point. */
  readonly #begin: number[] = [];
  /** Of each ring: x and y of its lowest point, the leftmost of them. */
  readonly #lowest: number[] = [];
  /** Rings that may meet others or themselves, and of each of their points: whether the edge that starts there may. */
  readonly #closeRings: Ring[] = [];
  readonly #closeEdges: Uint8Array[] = [];
  /** Whether any edge is close that does not run along the border: those alone meet nothing. */
  #isAnyClose = false;

  constructor(outline: OutlineScan) {
    this.#outline = outline;
    this.#walk();
  }

  regions(): Region[] {
    const rings = this.#rings;
    if (this.#meet()) return arrange(rings.filter((ring) => ring.length >= 6));
    const areas = rings.map(ringArea);
    const lowest = this.#lowest;
    const order = rings.map((_, i) => i).filter((i) => areas[i] !== 0);
    order.sort((a, b) => lowest[2 * a + 1] - lowest[2 * b + 1] || lowest[2 * a] - lowest[2 * b] || a - b);
    const regions = new Map<number, Ring[]>();
    for (const ring of order) if (areas[ring] > 0) regions.set(ring, [rings[ring]]);
    for (const ring of order) if (areas[ring] < 0) regions.get(this.#outerOf(ring, areas))?.push(rings[ring]);
    return [...regions.values()];
  }

  /** The outer ring of the region that a hole is in: from hole to hole towards the left, so that points fall. */
  #outerOf(hole: number, areas: readonly number[]): number {
    const { before, next, told, v } = this.#outline;
    let ring = hole;
    for (let point = this.#onRowOf(ring); point !== NONE; point = this.#onRowOf(ring)) {
      // A ring that was rounded away still says what it was.
      if (areas[ring] > 0 || (areas[ring] === 0 && (told[point] & LEFT_IN) === 0)) break;
      const left = before[point] === NONE ? this.#outline.onWestBorder(v[point]) : before[point];
      if (left === NONE) break;
      ring = -1 - next[left];
      if (before[point] === NONE) break;
    }
    return ring;
  }

  /** The point that a ring has first on a row of posts, or NONE: the leftmost on its lowest row, one cell above its first at most. */
  #onRowOf(ring: number): number {
    const { next, told, v, count } = this.#outline;
    const highest = Math.floor(v[this.#begin[ring]]) + 1;
    for (let point = this.#begin[ring]; point < count && v[point] <= highest; point++) {
      if (next[point] === -1 - ring && (told[point] & ON_ROW) !== 0) return point;
    }
    return NONE;
  }

  /** Walk every ring once, from its earliest point. What follows a point gives way to the number of its ring, as −1 − ring. */
  #walk(): void {
    const { posts, u, v, next, told, count } = this.#outline;
    const { stepX, stepY, originX, originY } = posts;
    const rings = this.#rings;
    const seen = CLOSE | ON_BORDER;
    const units = CLIP_UNITS;
    const all = new Float64Array(2 * count);
    const close = new Uint8Array(count);
    let end = 0;
    for (let begin = 0; begin < count; begin++) {
      if (next[begin] < 0) continue;
      const mark = -1 - rings.length;
      const start = end;
      let isClose = 0;
      let lowX = 0;
      let lowY = Infinity;
      for (let point = begin, after = next[begin]; after >= 0; after = next[point]) {
        // As whole.ts rounds what contour.ts gives. Adding 0 makes −0 into 0.
        const x = Math.round((originX + u[point] * stepX) * units) + 0;
        const y = Math.round((originY + v[point] * stepY) * units) + 0;
        const flags = told[point] & seen;
        all[end] = x;
        all[end + 1] = y;
        close[end / 2] = flags;
        isClose |= flags;
        end += 2;
        if (y < lowY || (y === lowY && x < lowX)) {
          lowX = x;
          lowY = y;
        }
        next[point] = mark;
        point = after;
      }
      this.#begin.push(begin);
      this.#lowest.push(lowX, lowY);
      const walked = all.subarray(start, end);
      this.#isAnyClose ||= (isClose & CLOSE) !== 0;
      if (isClose === 0) {
        rings.push(walked);
        continue;
      }
      const [tidy, edges] = tidied(walked, close.subarray(start / 2, end / 2));
      rings.push(tidy);
      if (tidy.length < 6) continue;
      this.#closeRings.push(tidy);
      this.#closeEdges.push(edges);
    }
  }

  /** Whether any outlines meet otherwise than corner to corner. */
  #meet(): boolean {
    if (!this.#isAnyClose) return false;
    const runs: Ring[] = [];
    const isClose: number[] = [];
    for (const [i, ring] of this.#closeRings.entries()) closeRuns(ring, this.#closeEdges[i], runs, isClose);
    return someMeet(new Chains(runs), Uint8Array.from(isClose));
  }
}

/** Put the runs of close edges of a ring, with one edge more at either end, into `runs`, and which of their edges are close. */
function closeRuns(ring: Ring, edges: Uint8Array, runs: Ring[], isClose: number[]): void {
  const n = edges.length;
  const open = edges.indexOf(0);
  if (open < 0) {
    runs.push(ring);
    for (let i = 0; i < n; i++) isClose.push(1);
    return;
  }
  for (let i = open + 1; i < open + n; i++) {
    if (edges[i % n] === 0) continue;
    let end = i + 1;
    while (edges[end % n] !== 0) end++;
    // From the point before to the one after: in a short ring some come twice, which does no harm.
    const run = new Float64Array(2 * (end - i + 3));
    for (let point = i - 1, at = 0; point <= end + 1; point++, at += 2) {
      run[at] = ring[2 * (point % n)];
      run[at + 1] = ring[2 * (point % n) + 1];
      isClose.push(point >= i && point < end ? 1 : 0);
    }
    runs.push(run);
    i = end;
  }
}

/** The same ring without repeats and spikes; the edges that come of taking out a point count as close too. */
function tidied(ring: Ring, isClose: Uint8Array): [ring: Ring, isClose: Uint8Array] {
  let end = 0;
  for (let i = 0; i < ring.length; i += 2) {
    ring[end] = ring[i];
    ring[end + 1] = ring[i + 1];
    isClose[end / 2] = isClose[i / 2];
    end += 2;
    while (end >= 4 && isIdle(ring, end - 6, end - 4, end - 2)) {
      ring[end - 4] = ring[end - 2];
      ring[end - 3] = ring[end - 1];
      isClose[end / 2 - 2] = isClose[end / 2 - 1];
      end -= 2;
      if (end >= 4) isClose[end / 2 - 2] = CLOSE;
    }
  }
  // The same across the ring's beginning.
  let start = 0;
  for (let isDone = false; !isDone && end - start >= 6; ) {
    if (isIdle(ring, end - 4, end - 2, start)) end -= 2;
    else if (isIdle(ring, end - 2, start, start + 2)) start += 2;
    else isDone = true;
    if (!isDone) isClose[end / 2 - 1] = CLOSE;
  }
  return [ring.subarray(start, end), isClose.subarray(start / 2, end / 2)];
}
