import type { Band, FootRing } from './band.ts';
import { wholeBeside } from './pacing.ts';

/** Why a wire stands upright at a point of the underside. */
export const COINCIDES = 1;
export const NO_TOP = 2;

/** A way round a part of a ring along which every point sees the top outline, matched corner by corner. */
export interface Sight {
  /** Points of the underside in turn, flat x, y; the last is the first again when it goes once round. */
  readonly foot: Float64Array;
  /** Points of the top outline in turn, flat x, y. */
  readonly top: Float64Array;
  /** Pairs of a foot point and a top point, flat, both only growing: no two of the lines between them cross. */
  readonly pairs: Int32Array;
}

/** A point at which the wire stands upright. */
export interface Upright {
  readonly x: number;
  readonly y: number;
  readonly why: typeof COINCIDES | typeof NO_TOP;
}

/** A straight run of the top end where the outline itself turns away, to a bay of it or to another top. */
export interface Bridge {
  readonly x: number;
  readonly y: number;
  readonly length: number;
}

export interface Round {
  readonly stretches: readonly (Sight | Upright)[];
  readonly bridges: readonly Bridge[];
}

/** A foot point with a point of the top that it sees, or alone. */
interface Mark {
  readonly at: number;
  readonly id: number;
  readonly top: number;
  readonly why: typeof COINCIDES | typeof NO_TOP;
}

/**
 * Walk round a ring of the underside. From each point the triangles to the left show what of the top outline it sees, in
 * order; where the underside turns away from the top (the tip of a spur, between two undersides), it sees none.
 */
export function sightsOf(band: Band, ring: FootRing, spacing: number): Round {
  const marks = marksOf(band, ring);
  const count = ring.ids.length;
  const bridges: Bridge[] = [];
  const stretches: (Sight | Upright)[] = [];
  const breaksAfter = (m: number): boolean => {
    const mark = marks[m];
    const next = marks[(m + 1) % marks.length];
    return mark.top < 0 || next.top < 0 || (mark.at !== next.at && !ring.isBank[mark.at]);
  };
  const start = marks.findIndex((_, m) => breaksAfter(m));
  if (start < 0) {
    stretches.push(sightOf(band, ring, closed(band, marks, count), spacing, bridges));
    return { stretches, bridges };
  }
  let run: Mark[] = [];
  for (let step = 1; step <= marks.length; step++) {
    const m = (start + step) % marks.length;
    run.push(marks[m]);
    if (!breaksAfter(m)) continue;
    if (run.length > 1) stretches.push(sightOf(band, ring, run, spacing, bridges));
    else {
      const [x, y] = [ring.points[2 * run[0].at], ring.points[2 * run[0].at + 1]];
      if (run[0].top < 0 || run[0].top === run[0].id) stretches.push({ x, y, why: run[0].why });
      else stretches.push(sightOf(band, ring, run, spacing, bridges));
    }
    run = [];
  }
  return { stretches, bridges };
}

/** Once round from the mark with the shortest sight, back to itself. */
function closed({ x, y }: Band, marks: readonly Mark[], count: number): Mark[] {
  let first = 0;
  let least = Infinity;
  for (let m = 0; m < marks.length; m++) {
    const { id, top } = marks[m];
    const squared = (x[id] - x[top]) * (x[id] - x[top]) + (y[id] - y[top]) * (y[id] - y[top]);
    if (squared >= least) continue;
    least = squared;
    first = m;
  }
  const turned = [...marks.slice(first), ...marks.slice(0, first)];
  return [...turned, { ...turned[0], at: turned[0].at + count }];
}

function marksOf({ triangles, isTop }: Band, { ids, isBank }: FootRing): Mark[] {
  const count = ids.length;
  const marks: Mark[] = [];
  for (let at = 0; at < count; at++) {
    const id = ids[at];
    const next = ids[(at + 1) % count];
    const last = ids[(at + count - 1) % count];
    const hasNext = triangles !== null && isBank[at] === 1;
    const hasLast = triangles !== null && isBank[(at + count - 1) % count] === 1;
    const ahead = hasNext ? triangles.cornersAfter(id, next) : [];
    // All the way round to the edge that came: one fan, unless something of the underside stands in it.
    if (hasNext && hasLast && ahead.at(-1) === last) {
      const seen = ahead.slice(0, -1).reverse();
      if (seen.length > 0 && seen.every((top) => isTop[top])) {
        for (const top of seen) marks.push({ at, id, top, why: NO_TOP });
        continue;
      }
    }
    const behind = hasLast ? triangles.cornersBefore(id, last) : [];
    // Where a wall stands on one side, its end there may be a top; between two banks the neighbours are none.
    const isBetween = hasNext && hasLast;
    const before = behind.slice(0, firstNot(isTop, behind, isBetween ? next : -1));
    const after = ahead.slice(0, firstNot(isTop, ahead, isBetween ? last : -1)).reverse();
    for (const top of before) marks.push({ at, id, top, why: NO_TOP });
    const why = isBank[at] && isBank[(at + count - 1) % count] && !isTop[id] ? NO_TOP : COINCIDES;
    marks.push({ at, id, top: id >= 0 && isTop[id] ? id : -1, why });
    for (const top of after) marks.push({ at, id, top, why: NO_TOP });
  }
  return marks;
}

/** How many corners are of the top, before the first that is not, or that is the neighbour. */
function firstNot(isTop: Uint8Array, corners: readonly number[], neighbour: number): number {
  const end = corners.findIndex((corner) => !isTop[corner] || corner === neighbour);
  return end < 0 ? corners.length : end;
}

function sightOf(
  { x, y, triangles }: Band,
  { points }: FootRing,
  marks: readonly Mark[],
  spacing: number,
  bridges: Bridge[],
): Sight {
  const foot: number[] = [];
  const top: number[] = [];
  const pairs: number[] = [];
  let at = -1;
  let id = -1;
  for (const mark of marks) {
    if (mark.at !== at) foot.push(points[(2 * mark.at) % points.length], points[(2 * mark.at + 1) % points.length]);
    if (mark.top !== id) {
      if (id >= 0 && triangles && !triangles.isFixed(id, mark.top)) {
        const [dx, dy] = [x[mark.top] - x[id], y[mark.top] - y[id]];
        const length = Math.sqrt(dx * dx + dy * dy);
        bridges.push({ x: x[id] + dx / 2, y: y[id] + dy / 2, length });
        for (let n = Math.ceil(length / spacing), i = 1; i < n; i++) {
          const [px, py] = [x[id] + (dx * i) / n, y[id] + (dy * i) / n];
          top.push(...wholeBeside(x[id], y[id], x[mark.top], y[mark.top], px, py, -1));
          pairs.push(foot.length / 2 - 1, top.length / 2 - 1);
        }
      }
      top.push(x[mark.top], y[mark.top]);
    }
    at = mark.at;
    id = mark.top;
    pairs.push(foot.length / 2 - 1, top.length / 2 - 1);
  }
  return { foot: Float64Array.from(foot), top: Float64Array.from(top), pairs: Int32Array.from(pairs) };
}
