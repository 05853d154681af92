import { isClearChord } from '../../geometry/chord.ts';
import { isInRing, type Point, type Region, type Ring, squaredDistanceToSegment } from '../../geometry/ring.ts';
import { segmentsMeet } from '../../geometry/whole.ts';
import type { Front } from '../../model/facts.ts';
import type { Joint } from '../../model/piece.ts';
import { type Link, linksBetween } from './links.ts';
import { fromFront } from './naming.ts';

/** A slit keeps off slits of the neighbouring layer by a thickness, and by this at least (our choice: two fingers). */
const APART_MM = 50;
/** Two slits of one piece, and a slit and a match mark, keep so far apart. */
const BESIDE_MM = 15;
/** Which way an edge faces is told over this much of the outline either way: noise in it faces everywhere. */
const FACING_MM = 25;
/** What faces the front by less than this is seen end-on: sine of 10°. */
const FACES = 0.17;

/** What the slits of a piece heed. */
export interface Around {
  readonly joints: readonly Joint[];
  readonly side: Front['side'];
  /** Where no slit may be seen, though it faced away from the front. */
  readonly seen: readonly Ring[];
  /** Slits of the neighbouring layer. */
  readonly others: readonly Float64Array[];
  readonly thicknessMm: number;
}

/** What is asked of a slit, in the order in which it is given up where no way meets all: being in line is worse than being seen. */
const ASKED = [
  { isHidden: true, isApart: true },
  { isHidden: false, isApart: true },
  { isHidden: false, isApart: false },
] as const;

/**
 * The cuts by which a wire reaches the inner outlines of a piece, one for each. A slit ends at a seam, at an outer edge that
 * does not face the front, or at an inner outline that has its slit already: then it is not seen at all. Of those that are
 * also out of line with the slits of the neighbouring layer, each is the shortest, joined to a tree that starts at the outer
 * outline (Prim 1957). Pins come later and keep clear of slits. O(outlines × points²).
 */
export function slitsOf(region: Region, around: Around): Float64Array[] {
  if (region.length === 1) return [];
  const isSeen = seenEdges(region[0], around);
  const links = new Map<string, readonly Link[]>();
  const linksOf = (from: number, to: number, isHidden: boolean) => {
    const key = `${from} ${to} ${isHidden}`;
    const known = links.get(key) ?? linksBetween(region, from, to, (edge) => !isHidden || !isSeen[edge]);
    links.set(key, known);
    return known;
  };
  const marks = around.joints.flatMap(({ matches }) => [...matches]);
  const slits: Float64Array[] = [];
  const reached = [0];
  const waiting = region.slice(1).map((_, i) => i + 1);

  /** The shortest link to a ring that meets what is asked; a ring inside has no seen edges. */
  function shortest(to: number, { isHidden, isApart }: (typeof ASKED)[number]): Link | undefined {
    let best: Link | undefined;
    for (const from of reached) {
      for (const link of linksOf(from, to, isHidden && from === 0)) {
        if (best && link.squared >= best.squared) break;
        if (isHidden && around.seen.some((zone) => runsInto(link, zone))) continue;
        if (isApart && !isApartFrom(link, around.others, Math.max(APART_MM, around.thicknessMm))) continue;
        if (!isApartFrom(link, slits, BESIDE_MM) || !isOffPoints(link, marks) || !isClearChord(region, link)) continue;
        best = link;
        break;
      }
    }
    return best;
  }

  while (waiting.length > 0) {
    let found: { link: Link; at: number } | undefined;
    for (const asked of ASKED) {
      for (const [at, to] of waiting.entries()) {
        const link = shortest(to, asked);
        if (link && (!found || link.squared < found.link.squared)) found = { link, at };
      }
      if (found) break;
    }
    // Where slits crowd, the shortest way of all is still a way.
    const { link, at } = found ?? { link: linksOf(0, waiting[0], false)[0], at: 0 };
    slits.push(new Float64Array([link.a.x, link.a.y, link.b.x, link.b.y]));
    reached.push(...waiting.splice(at, 1));
  }
  return slits;
}

/** Which edges of an outer outline face the front and are no seam. */
function seenEdges(ring: Ring, { joints, side }: Around): boolean[] {
  const n = ring.length / 2;
  const seams = new Set<string>();
  for (const { line } of joints) {
    for (let i = 2; i < line.length; i += 2) {
      seams.add(`${line[i - 2]},${line[i - 1]},${line[i]},${line[i + 1]}`);
      seams.add(`${line[i]},${line[i + 1]},${line[i - 2]},${line[i - 1]}`);
    }
  }
  return Array.from({ length: n }, (_, edge) => {
    const next = (edge + 1) % n;
    if (seams.has(`${ring[2 * edge]},${ring[2 * edge + 1]},${ring[2 * next]},${ring[2 * next + 1]}`)) return false;
    const [ax, ay] = walked(ring, edge, -1);
    const [bx, by] = walked(ring, next, 1);
    // An outline runs counter-clockwise: outside is to the right.
    const [across, away] = fromFront([by - ay, ax - bx], side);
    return -away > FACES * Math.sqrt(across * across + away * away);
  });
}

/** The point about FACING_MM along a ring from a corner, forward (1) or back (−1). */
function walked(ring: Ring, from: number, way: 1 | -1): Point {
  const n = ring.length / 2;
  let left = FACING_MM;
  let i = from;
  for (let steps = 0; steps < n; steps++) {
    const k = (i + way + n) % n;
    const [dx, dy] = [ring[2 * k] - ring[2 * i], ring[2 * k + 1] - ring[2 * i + 1]];
    const long = Math.sqrt(dx * dx + dy * dy);
    if (long >= left) return [ring[2 * i] + (dx * left) / long, ring[2 * i + 1] + (dy * left) / long];
    left -= long;
    i = k;
  }
  return [ring[2 * from], ring[2 * from + 1]];
}

function isApartFrom({ a, b }: Link, lines: readonly Float64Array[], apart: number): boolean {
  return lines.every((line) => {
    for (let i = 2; i < line.length; i += 2) {
      const [px, py, qx, qy] = [line[i - 2], line[i - 1], line[i], line[i + 1]];
      if (segmentsMeet(a.x, a.y, b.x, b.y, px, py, qx, qy)) return false;
      const nearest = Math.min(
        squaredDistanceToSegment(a.x, a.y, px, py, qx, qy),
        squaredDistanceToSegment(b.x, b.y, px, py, qx, qy),
        squaredDistanceToSegment(px, py, a.x, a.y, b.x, b.y),
        squaredDistanceToSegment(qx, qy, a.x, a.y, b.x, b.y),
      );
      if (nearest < apart * apart) return false;
    }
    return true;
  });
}

const isOffPoints = ({ a, b }: Link, points: readonly Point[]): boolean =>
  points.every(([x, y]) => squaredDistanceToSegment(x, y, a.x, a.y, b.x, b.y) >= BESIDE_MM * BESIDE_MM);

/** Whether a link has an end in an area or crosses its edge. */
function runsInto({ a, b }: Link, zone: Ring): boolean {
  if (isInRing(a.x, a.y, zone) || isInRing(b.x, b.y, zone)) return true;
  for (let i = 0, j = zone.length - 2; i < zone.length; j = i, i += 2) {
    if (segmentsMeet(a.x, a.y, b.x, b.y, zone[j], zone[j + 1], zone[i], zone[i + 1])) return true;
  }
  return false;
}
