import type { Insertion } from './insertions.ts';
import { isInRegion, type Region, type Ring } from './ring.ts';
import { gridPointOnEdge } from './snap.ts';
import { regionsOfLoops } from './touching.ts';

/** One end of a chord: a point of a ring, or a point that is to be put on the edge that starts at vertex `edge`. */
export interface ChordEnd {
  readonly x: number;
  readonly y: number;
  readonly ring: number;
  readonly edge: number;
  readonly isNew: boolean;
}

/** A straight cut through a region from outline to outline. */
export interface Chord {
  readonly a: ChordEnd;
  readonly b: ChordEnd;
}

/**
 * Where the line { p : p · (nx, ny) = c } passes through the material of a region, in order along it. Ends stand on a vertex
 * of the outline where one is within `reach`, so that the outline gains no point; else where the line meets the edge, off the
 * grid (onGrid settles those that are to be cut). Chords that would touch the outline elsewhere are left out as null. O(n) for
 * each chord.
 */
export function chordsOfLine(region: Region, nx: number, ny: number, c: number, reach: number): (Chord | null)[] {
  const crossings: { along: number; ring: number; edge: number }[] = [];
  for (let r = 0; r < region.length; r++) {
    const ring = region[r];
    let before = ring[ring.length - 2] * nx + ring[ring.length - 1] * ny - c;
    for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
      const here = ring[i] * nx + ring[i + 1] * ny - c;
      if (before >= 0 !== here >= 0) {
        const t = before / (before - here);
        const x = ring[j] + t * (ring[i] - ring[j]);
        const y = ring[j + 1] + t * (ring[i + 1] - ring[j + 1]);
        crossings.push({ along: y * nx - x * ny, ring: r, edge: j / 2 });
      }
      before = here;
    }
  }
  crossings.sort((p, q) => p.along - q.along || p.ring - q.ring || p.edge - q.edge);
  const chords: (Chord | null)[] = [];
  for (let k = 0; k + 1 < crossings.length; k += 2) {
    const end = ({ along, ring, edge }: (typeof crossings)[number]) =>
      endAt(region, ring, edge, nx * c - ny * along, ny * c + nx * along, reach);
    const chord = { a: end(crossings[k]), b: end(crossings[k + 1]) };
    chords.push(isClearChord(region, chord) ? chord : null);
  }
  return chords;
}

/** The end of a chord that meets an edge at (x, y): a vertex within reach, or a new point. */
function endAt(region: Region, ring: number, edge: number, x: number, y: number, reach: number): ChordEnd {
  const points = region[ring];
  const next = 2 * edge + 2 < points.length ? edge + 1 : 0;
  const [ax, ay, bx, by] = [points[2 * edge], points[2 * edge + 1], points[2 * next], points[2 * next + 1]];
  const fromA = (x - ax) * (x - ax) + (y - ay) * (y - ay);
  const fromB = (x - bx) * (x - bx) + (y - by) * (y - by);
  if (fromA <= fromB && fromA <= reach * reach) return { x: ax, y: ay, ring, edge, isNew: false };
  if (fromB < fromA && fromB <= reach * reach) return { x: bx, y: by, ring, edge: next, isNew: false };
  return { x, y, ring, edge, isNew: true };
}

/**
 * A chord with its new ends on the grid, as near to their edges as points within SLIDE can be (for a 6 m edge that moves the
 * area by thousandths of a square millimetre); null when it is not clear there.
 */
export function onGrid(region: Region, chord: Chord): Chord | null {
  if (!chord.a.isNew && !chord.b.isNew) return chord;
  const settled = { a: endOnGrid(region, chord.a), b: endOnGrid(region, chord.b) };
  return isClearChord(region, settled) ? settled : null;
}

function endOnGrid(region: Region, end: ChordEnd): ChordEnd {
  if (!end.isNew) return end;
  const { ring, edge } = end;
  const points = region[ring];
  const next = 2 * edge + 2 < points.length ? edge + 1 : 0;
  const [ax, ay, bx, by] = [points[2 * edge], points[2 * edge + 1], points[2 * next], points[2 * next + 1]];
  const [x, y] = gridPointOnEdge(ax, ay, bx, by, end.x, end.y);
  if (x === ax && y === ay) return { x, y, ring, edge, isNew: false };
  if (x === bx && y === by) return { x, y, ring, edge: next, isNew: false };
  return { x, y, ring, edge, isNew: true };
}

/** Whether a chord runs inside the region and meets its outline at its two ends only. O(n). */
export function isClearChord(region: Region, { a, b }: Chord): boolean {
  if (a.x === b.x && a.y === b.y) return false;
  const dx = b.x - a.x;
  const dy = b.y - a.y;
  const minX = Math.min(a.x, b.x);
  const minY = Math.min(a.y, b.y);
  const maxX = Math.max(a.x, b.x);
  const maxY = Math.max(a.y, b.y);
  for (let r = 0; r < region.length; r++) {
    const ring = region[r];
    let px = ring[ring.length - 2];
    let py = ring[ring.length - 1];
    let p = dx * (py - a.y) - dy * (px - a.x);
    for (let i = 0; i < ring.length; i += 2) {
      const qx = ring[i];
      const qy = ring[i + 1];
      const q = dx * (qy - a.y) - dy * (qx - a.x);
      const isApart =
        (p > 0 && q > 0) ||
        (p < 0 && q < 0) ||
        (px < minX && qx < minX) ||
        (px > maxX && qx > maxX) ||
        (py < minY && qy < minY) ||
        (py > maxY && qy > maxY);
      if (!isApart && meets(px, py, qx, qy, p, q, a, b, r, (i > 0 ? i : ring.length) / 2 - 1)) return false;
      px = qx;
      py = qy;
      p = q;
    }
  }
  return isInRegion((a.x + b.x) / 2, (a.y + b.y) / 2, region);
}

/**
 * Whether the edge P–Q of a ring meets the chord a–b elsewhere than where the chord ends on it.
 * @param p on which side of the chord's line P lies, and q likewise; not both strictly on one.
 */
function meets(
  px: number,
  py: number,
  qx: number,
  qy: number,
  p: number,
  q: number,
  a: ChordEnd,
  b: ChordEnd,
  ring: number,
  edge: number,
): boolean {
  const pEnds = (px === a.x && py === a.y) || (px === b.x && py === b.y);
  const qEnds = (qx === a.x && qy === a.y) || (qx === b.x && qy === b.y);
  if (pEnds && qEnds) return true;
  // An edge that starts or ends where the chord does may not run along it.
  if (pEnds) return q === 0 && isAhead(qx, qy, a, b, px, py);
  if (qEnds) return p === 0 && isAhead(px, py, a, b, qx, qy);
  const holdsA = a.isNew && a.ring === ring && a.edge === edge;
  const holdsB = b.isNew && b.ring === ring && b.edge === edge;
  // An end put on this edge is where the chord meets it; both ends, and the chord would run along it.
  if (holdsA || holdsB) return holdsA && holdsB;
  const ex = qx - px;
  const ey = qy - py;
  const fromA = ex * (a.y - py) - ey * (a.x - px);
  const fromB = ex * (b.y - py) - ey * (b.x - px);
  return !((fromA > 0 && fromB > 0) || (fromA < 0 && fromB < 0));
}

/** Whether (x, y), on the chord's line, lies on the side of its end (ex, ey) on which the chord runs. */
function isAhead(x: number, y: number, a: ChordEnd, b: ChordEnd, ex: number, ey: number): boolean {
  const other = ex === a.x && ey === a.y ? b : a;
  return (x - ex) * (other.x - ex) + (y - ey) * (other.y - ey) > 0;
}

/** What chords make of a region. */
export interface Divided {
  readonly regions: readonly Region[];
  /** The points that they put on its edges. */
  readonly insertions: readonly Insertion[];
}

/**
 * The areas into which chords that do not meet one another divide a region; null when two end on one point, or one leaves its
 * point of the outline by the wrong side (where the outline comes by twice). Both sides of a chord have exactly its two
 * points, which are to be on the grid. The rings are cut into runs at the chords' ends; at the end of a run the walk crosses by the chord and goes on
 * along the run that starts there. O(n).
 */
export function dividedByChords(region: Region, chords: readonly Chord[]): Divided | null {
  const ends = chords.flatMap((chord, i) => [
    { ...chord.a, partner: 2 * i + 1 },
    { ...chord.b, partner: 2 * i },
  ]);
  const insertions: Insertion[] = [];
  const loops: Ring[] = [];
  /** Of each end: the run of points that starts there, and the end at which it stops. */
  const runs: Float64Array[] = new Array(ends.length);
  const stops: number[] = new Array(ends.length);
  for (let r = 0; r < region.length; r++) {
    const here = ends.map((_, i) => i).filter((i) => ends[i].ring === r);
    if (here.length === 0) {
      loops.push(region[r]);
      continue;
    }
    const ring = region[r];
    here.sort((i, k) => ends[i].edge - ends[k].edge || fromStart(ring, ends[i]) - fromStart(ring, ends[k]));
    for (let k = 0; k < here.length; k++) {
      const i = here[k];
      const next = here[(k + 1) % here.length];
      if (here.length > 1 && ends[i].x === ends[next].x && ends[i].y === ends[next].y) return null;
      if (!ends[i].isNew && !leavesInside(ring, ends[i], ends[ends[i].partner])) return null;
      runs[i] = runBetween(ring, ends[i], ends[next]);
      stops[i] = next;
    }
    noteInsertions(
      ring,
      here.map((i) => ends[i]),
      insertions,
    );
  }
  const walked = new Uint8Array(ends.length);
  for (let start = 0; start < ends.length; start++) {
    if (walked[start]) continue;
    const loop: Float64Array[] = [];
    for (let end = start; !walked[end]; end = ends[stops[end]].partner) {
      walked[end] = 1;
      loop.push(runs[end], Float64Array.of(ends[stops[end]].x, ends[stops[end]].y));
    }
    loops.push(joined(loop));
  }
  return { regions: regionsOfLoops(loops), insertions };
}

/** Squared distance of a chord's end from the start of its edge. */
const fromStart = (ring: Ring, { x, y, edge, isNew }: ChordEnd): number =>
  isNew ? (x - ring[2 * edge]) * (x - ring[2 * edge]) + (y - ring[2 * edge + 1]) * (y - ring[2 * edge + 1]) : 0;

/** The points of a ring from one end, included, to another, left out. From an end to itself it is the whole ring. */
function runBetween(ring: Ring, from: ChordEnd, to: ChordEnd): Float64Array {
  const isShort = from.edge === to.edge && fromStart(ring, from) < fromStart(ring, to);
  const head = from.isNew ? [Float64Array.of(from.x, from.y)] : [];
  const first = from.isNew ? 2 * (from.edge + 1) : 2 * from.edge;
  const last = to.isNew ? 2 * (to.edge + 1) : 2 * to.edge;
  if (isShort) return joined(from.isNew ? head : [ring.subarray(first, first + 2)]);
  if (from.edge < to.edge) return joined([...head, ring.subarray(first, last)]);
  return joined([...head, ring.subarray(first), ring.subarray(0, last)]);
}

/** Whether the way to the other end leaves a point of a ring on the side on which its area lies. */
function leavesInside(ring: Ring, { x, y, edge }: ChordEnd, other: ChordEnd): boolean {
  const i = 2 * edge;
  const before = (i - 2 + ring.length) % ring.length;
  const after = (i + 2) % ring.length;
  const turn = (ax: number, ay: number, bx: number, by: number) => (ax - x) * (by - y) - (ay - y) * (bx - x);
  const fromAfter = turn(ring[after], ring[after + 1], other.x, other.y) > 0;
  const toBefore = turn(other.x, other.y, ring[before], ring[before + 1]) > 0;
  const isConvex = turn(ring[after], ring[after + 1], ring[before], ring[before + 1]) > 0;
  return isConvex ? fromAfter && toBefore : fromAfter || toBefore;
}

/** Note the points that chords put on the edges of a ring; the ends come in the ring's order. */
function noteInsertions(ring: Ring, ends: readonly ChordEnd[], insertions: Insertion[]): void {
  let edge = -1;
  let [ax, ay] = [0, 0];
  for (const end of ends) {
    if (!end.isNew) continue;
    if (end.edge !== edge) [ax, ay] = [ring[2 * end.edge], ring[2 * end.edge + 1]];
    edge = end.edge;
    const next = (2 * edge + 2) % ring.length;
    insertions.push({ at: [ax, ay, ring[next], ring[next + 1], end.x, end.y] });
    [ax, ay] = [end.x, end.y];
  }
}

function joined(runs: readonly Float64Array[]): Float64Array {
  const result = new Float64Array(runs.reduce((sum, run) => sum + run.length, 0));
  let at = 0;
  for (const run of runs) {
    result.set(run, at);
    at += run.length;
  }
  return result;
}
