import { length, turn } from './exact-math.ts';
import { type Ring, squaredDistanceToSegment } from './ring.ts';
import { simplified } from './simplify.ts';

/** How a ring is measured off. Lengths in the caller's unit. */
export interface Measuring {
  /** Between stations along x, counted from 0. */
  readonly spacing: number;
  /** How far straight lines between marks may be from the ring: more than 0.75 × step. */
  readonly tolerance: number;
  /** What a measure is rounded to. */
  readonly step: number;
}

/** A point to mark, both coordinates rounded. `isExtra`: at a corner, a peak, or where stations alone were too coarse. */
export interface Ordinate {
  readonly x: number;
  readonly y: number;
  readonly isExtra: boolean;
}

export interface Ordinates {
  /** In the ring's order, from the leftmost. */
  readonly marks: readonly Ordinate[];
  /** No point of the closed polygon through the marks is farther from the ring, nor one of the ring from it. */
  readonly deviation: number;
}

/** A corner turns by this much at least. */
const CORNER = turn(40).cos;

/** A place on the ring: on which edge and how far along it, so that places sort. */
interface Place extends Ordinate {
  readonly along: number;
  readonly trueX: number;
  readonly trueY: number;
}

/**
 * Marks from which a ring can be drawn again with straight lines: where lines x = station cross it, its corners and peaks, and
 * points put in where the polygon would be too far off, the farthest first (Douglas, Peucker 1973). The distance told is exact for
 * the ring's points and holds for the polygon's too: each of its edges is covered by the nearest points of the stretch
 * of ring between two marks, which runs from one end to the other. O(points × marks) at worst.
 */
export function ordinates(ring: Ring, { spacing, tolerance, step }: Measuring): Ordinates {
  const rounded = (value: number) => Math.round(value / step) * step;
  const placeAt = (along: number, x: number, y: number, isExtra: boolean): Place => ({
    along,
    trueX: x,
    trueY: y,
    x: rounded(x),
    y: rounded(y),
    isExtra,
  });
  const vertex = (i: number) => placeAt(i, ring[2 * i], ring[2 * i + 1], true);
  const places = [...turns(ring, tolerance / 2).map(vertex), ...crossings(ring, spacing, placeAt)];
  places.sort((a, b) => a.along - b.along || Number(b.isExtra) - Number(a.isExtra));
  const kept = apart(places, 2 * step);

  const marks: Place[] = [];
  let deviation = 0;
  for (let k = 0; k < kept.length; k++) {
    const stack = [kept[(k + 1) % kept.length]];
    let from = kept[k];
    marks.push(from);
    while (stack.length > 0) {
      const to = stack[stack.length - 1];
      const { far, squared } = farthest(ring, from, to);
      if (squared > tolerance * tolerance && far >= 0) stack.push(vertex(far));
      else {
        deviation = Math.max(deviation, Math.sqrt(squared));
        stack.pop();
        if (stack.length > 0) marks.push(to);
        from = to;
      }
    }
  }
  const first = marks.reduce((best, mark, i) => (mark.x < marks[best].x ? i : best), 0);
  return {
    marks: [...marks.slice(first), ...marks.slice(0, first)].map(({ x, y, isExtra }) => ({ x, y, isExtra })),
    deviation,
  };
}

/** Where upright lines cross the ring: inside edges, and at points that lie on one. */
function crossings(
  ring: Ring,
  spacing: number,
  placeAt: (along: number, x: number, y: number, isExtra: boolean) => Place,
): Place[] {
  const places: Place[] = [];
  const count = ring.length / 2;
  for (let i = 0; i < count; i++) {
    const j = (i + 1) % count;
    const [ax, ay, bx, by] = [ring[2 * i], ring[2 * i + 1], ring[2 * j], ring[2 * j + 1]];
    for (let k = Math.ceil(Math.min(ax, bx) / spacing); k * spacing <= Math.max(ax, bx); k++) {
      const x = k * spacing;
      if (x === ax) places.push(placeAt(i, ax, ay, false));
      else if (x !== bx) {
        const share = (x - ax) / (bx - ax);
        places.push(placeAt(i + share, x, ay + share * (by - ay), false));
      }
    }
  }
  return places;
}

/** Points at which the ring, roughly seen, turns a corner or turns back along x or y. */
function turns(ring: Ring, roughly: number): number[] {
  const index = new Map<string, number>();
  for (let i = 0; i < ring.length; i += 2) index.set(`${ring[i]},${ring[i + 1]}`, i / 2);
  const rough = simplified(ring, roughly);
  const found: number[] = [];
  const last = rough.length - 2;
  for (let i = 0; i < rough.length; i += 2) {
    const [before, after] = [i === 0 ? last : i - 2, i === last ? 0 : i + 2];
    const [ax, ay] = [rough[i] - rough[before], rough[i + 1] - rough[before + 1]];
    const [bx, by] = [rough[after] - rough[i], rough[after + 1] - rough[i + 1]];
    const isCorner = ax * bx + ay * by < CORNER * length(ax, ay) * length(bx, by);
    if (isCorner || ax * bx <= 0 || ay * by <= 0) found.push(index.get(`${rough[i]},${rough[i + 1]}`) ?? 0);
  }
  return found;
}

/** Without places that a rule cannot tell from the one before: of two, the corner stays. */
function apart(places: readonly Place[], least: number): Place[] {
  const kept: Place[] = [];
  const isClose = (a: Place, b: Place) => length(a.x - b.x, a.y - b.y) < least;
  for (const place of places) {
    const last = kept[kept.length - 1];
    if (!last || !isClose(last, place)) kept.push(place);
    else if (place.isExtra && !last.isExtra) kept[kept.length - 1] = place;
  }
  while (kept.length > 3 && isClose(kept[0], kept[kept.length - 1])) kept.pop();
  return kept;
}

/** The point of the ring between two places that is farthest from the straight line between their marks; far is −1 at an end. */
function farthest(ring: Ring, from: Place, to: Place): { far: number; squared: number } {
  const count = ring.length / 2;
  const off = (x: number, y: number) => squaredDistanceToSegment(x, y, from.x, from.y, to.x, to.y);
  let far = -1;
  let squared = Math.max(off(from.trueX, from.trueY), off(to.trueX, to.trueY));
  const end = to.along > from.along ? to.along : to.along + count;
  for (let i = Math.floor(from.along) + 1; i < end; i++) {
    const at = 2 * (i % count);
    const distance = off(ring[at], ring[at + 1]);
    if (distance > squared) {
      squared = distance;
      far = i % count;
    }
  }
  return { far, squared };
}
