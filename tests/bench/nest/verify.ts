/**
 * Judges a written layout by the instance's own outlines, with code of its own: nothing of the engine, nothing of a clipping
 * library. Between any two pieces every edge is cut where it meets the other's edges, and the middle of each stretch must not
 * lie deeper in the other than the tolerance; nor may any piece run beyond its board.
 */
import type { Instance } from './instance.ts';
import type { WrittenLayout } from './layout.ts';

type Point = readonly [number, number];
type Outline = readonly (readonly Point[])[];

/** What is wrong with a layout; nothing when it is right. Also the length that a strip uses. */
export function faultsOf(
  instance: Instance,
  layout: WrittenLayout,
  areTurnsFree: boolean,
  tolerance: number,
): { readonly faults: string[]; readonly length: number; readonly boards: number } {
  const faults: string[] = [];
  const seen = new Set<string>();
  const standing = layout.placed.map(({ id, copy, board, x, y, turn }) => {
    const name = `${id}.${copy}`;
    const piece = instance.pieces.find((each) => each.id === id);
    if (!piece || copy < 0 || copy >= piece.demand || seen.has(name)) throw new Error(`${name} is none of the pieces`);
    seen.add(name);
    if (!areTurnsFree && piece.turnsDeg && !piece.turnsDeg.includes(turn)) faults.push(`${name} is turned by ${turn}`);
    const outline = piece.rings.map((ring) => ring.map((point) => turned(point, turn, x, y)));
    return { name, board, outline, box: boxOf(outline[0]) };
  });
  const wanted = instance.pieces.reduce((sum, { demand }) => sum + demand, 0);
  if (seen.size !== wanted) faults.push(`${seen.size} of ${wanted} pieces are placed`);
  const [width, height] = instance.board ?? [Infinity, instance.stripWidth ?? 0];
  for (const { name, box } of standing) {
    if (box[0] < -tolerance || box[1] < -tolerance || box[2] > width + tolerance || box[3] > height + tolerance)
      faults.push(`${name} runs beyond its board`);
  }
  for (const [i, a] of standing.entries()) {
    for (const b of standing.slice(0, i)) {
      if (
        a.board !== b.board ||
        a.box[0] > b.box[2] ||
        b.box[0] > a.box[2] ||
        a.box[1] > b.box[3] ||
        b.box[1] > a.box[3]
      )
        continue;
      if (runsInto(a.outline, b.outline, tolerance) || runsInto(b.outline, a.outline, tolerance))
        faults.push(`${a.name} and ${b.name} overlap`);
    }
  }
  return {
    faults,
    length: Math.max(...standing.map(({ box }) => box[2])),
    boards: new Set(standing.map(({ board }) => board)).size,
  };
}

function turned([px, py]: Point, turnDeg: number, x: number, y: number): Point {
  const quarters: Readonly<Record<number, Point>> = { 0: [1, 0], 90: [0, 1], 180: [-1, 0], 270: [0, -1] };
  const [c, s] = quarters[turnDeg] ?? [Math.cos((turnDeg * Math.PI) / 180), Math.sin((turnDeg * Math.PI) / 180)];
  return [px * c - py * s + x, px * s + py * c + y];
}

const boxOf = (ring: readonly Point[]) => [
  Math.min(...ring.map(([x]) => x)),
  Math.min(...ring.map(([, y]) => y)),
  Math.max(...ring.map(([x]) => x)),
  Math.max(...ring.map(([, y]) => y)),
];

const edgesOf = (outline: Outline): [Point, Point][] =>
  outline.flatMap((ring) => ring.map((point, i): [Point, Point] => [point, ring[(i + 1) % ring.length]]));

/** Whether any stretch of an edge of a, or just beside it inward, lies deeper in b than the tolerance. */
function runsInto(a: Outline, b: Outline, tolerance: number): boolean {
  const others = edgesOf(b);
  for (const [p, q] of edgesOf(a)) {
    const [dx, dy] = [q[0] - p[0], q[1] - p[1]];
    const long = Math.sqrt(dx * dx + dy * dy);
    if (long === 0) continue;
    const cuts = [0, 1];
    for (const [r, s] of others) {
      const [ex, ey] = [s[0] - r[0], s[1] - r[1]];
      const det = dx * ey - dy * ex;
      if (det !== 0) {
        const t = ((r[0] - p[0]) * ey - (r[1] - p[1]) * ex) / det;
        if (t > 0 && t < 1) cuts.push(t);
      }
      for (const corner of [r, s]) {
        const t = ((corner[0] - p[0]) * dx + (corner[1] - p[1]) * dy) / (long * long);
        if (t > 0 && t < 1) cuts.push(t);
      }
    }
    cuts.sort((one, other) => one - other);
    // Material lies on the left of every edge: a point twice the tolerance in from the edge is in a, unless a is a needle.
    for (let i = 1; i < cuts.length; i++) {
      if ((cuts[i] - cuts[i - 1]) * long < 2 * tolerance) continue;
      const t = (cuts[i] + cuts[i - 1]) / 2;
      for (const inward of [0, 2 * tolerance]) {
        const x = p[0] + t * dx - (inward * dy) / long;
        const y = p[1] + t * dy + (inward * dx) / long;
        if (inward > 0 && depthIn(edgesOf(a), x, y) < 1.5 * tolerance) continue;
        if (depthIn(others, x, y) > tolerance) return true;
      }
    }
  }
  return false;
}

/** How deep a point lies inside: the distance from the nearest edge, negative outside. */
function depthIn(edges: readonly [Point, Point][], x: number, y: number): number {
  let inside = false;
  let least = Infinity;
  for (const [[ax, ay], [bx, by]] of edges) {
    if (ay > y !== by > y && x < ((bx - ax) * (y - ay)) / (by - ay) + ax) inside = !inside;
    const [dx, dy] = [bx - ax, by - ay];
    const t = Math.max(0, Math.min(1, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy || 1)));
    least = Math.min(least, Math.sqrt((ax + t * dx - x) * (ax + t * dx - x) + (ay + t * dy - y) * (ay + t * dy - y)));
  }
  return inside ? least : -least;
}
