import { type Point, type Ring, squaredDistanceToSegment } from '../../geometry/ring.ts';
import { snapped } from '../../geometry/snap.ts';
import type { Front } from '../../model/facts.ts';
import type { Joint, Nick } from '../../model/piece.ts';
import { fromFront } from './naming.ts';

/** Upright planes that are tried across the whole stack, each way. */
const PLANES = 191;
/** The two nicks on the right stand so far either side of their plane. */
const PAIR_MM = 8;
/** A nick keeps so far from match marks, seams' ends, slits and pins. */
const CLEAR_MM = 15;
/** An edge that runs along the plane more than across it takes no nick: sine of 30°. */
const ACROSS = 0.5;

/** A piece as far as nicks heed it. */
export interface Nickable {
  readonly layer: number;
  readonly outline: Ring;
  readonly joints: readonly Joint[];
  readonly slits: readonly Float64Array[];
  readonly pins: readonly Point[];
}

/**
 * The nicks of each piece: one where its outline is nearest the front, two where it is farthest to the right of who stands at
 * the front, on upright planes that run through the whole stack. The first plane each way is the one in which most layers can
 * have theirs; pieces that it does not meet take the plane in which most layers of what is left can, and so on. Nicks on seams
 * are the last resort: they cannot be felt from outside. A piece that has no room for one or the other has none at all.
 * O(points + pieces × planes).
 */
export function nicksOf(pieces: readonly Nickable[], side: Front['side']): Nick[][] {
  const seen = pieces.map(({ outline }) => mapped(outline, (x, y) => fromFront([x, y], side)));
  const front = onPlanes(pieces, seen, [0]);
  const right = onPlanes(
    pieces,
    seen.map((ring) => mapped(ring, (along, depth) => [depth, -along])),
    [-PAIR_MM, PAIR_MM],
  );
  return pieces.map(({ outline }, i) =>
    front[i] && right[i]
      ? [
          ...front[i].map((hit) => ({ at: pointOn(outline, hit), side: 'front' as const })),
          ...right[i].map((hit) => ({ at: pointOn(outline, hit), side: 'right' as const })),
        ]
      : [],
  );
}

/** A place on an outline: the edge that starts at corner `edge`, and how far along it. */
interface Hit {
  readonly edge: number;
  readonly share: number;
}

/** Planes at equal steps: u of the first, and the step. */
interface Planes {
  readonly first: number;
  readonly pitch: number;
}

/**
 * For each outline, (u, v) in turn, the places of least v at u = plane + each offset, on planes that serve as many layers as
 * they can; undefined where no plane has clear places.
 */
function onPlanes(pieces: readonly Nickable[], rings: readonly Ring[], offsets: readonly number[]) {
  const found: (readonly Hit[] | undefined)[] = rings.map(() => undefined);
  let low = Infinity;
  let high = -Infinity;
  for (const ring of rings) {
    for (let i = 0; i < ring.length; i += 2) [low, high] = [Math.min(low, ring[i]), Math.max(high, ring[i])];
  }
  const pitch = (high - low) / PLANES;
  const hits = rings.map((ring, i) => hitsOf(pieces[i], ring, { first: low + pitch / 2, pitch }, offsets));
  for (const isOuter of [true, false]) {
    let waiting = pieces.map((_, i) => i).filter((i) => !found[i]);
    const serves = (i: number, plane: number) => {
      const hit = hits[i][plane];
      return hit !== undefined && (hit.isOuter || !isOuter);
    };
    const served = new LayersServed();
    for (const i of waiting) served.count(pieces[i].layer, (plane) => serves(i, plane), 1);
    for (;;) {
      const most = Math.max(...served.layers);
      if (most === 0) break;
      const plane = middleOfLongest(served.layers, most);
      for (const i of waiting) {
        if (!serves(i, plane)) continue;
        found[i] = hits[i][plane]?.places;
        served.count(pieces[i].layer, (other) => serves(i, other), -1);
      }
      waiting = waiting.filter((i) => !found[i]);
    }
  }
  return found;
}

/** How many layers have a piece that each plane serves. */
class LayersServed {
  readonly layers = new Int32Array(PLANES);
  readonly #pieces = new Map<number, Int32Array>();

  /** Count a piece of a layer in (1) or out (−1). */
  count(layer: number, isServed: (plane: number) => boolean, by: 1 | -1): void {
    const pieces = this.#pieces.get(layer) ?? new Int32Array(PLANES);
    this.#pieces.set(layer, pieces);
    for (let plane = 0; plane < PLANES; plane++) {
      if (!isServed(plane)) continue;
      pieces[plane] += by;
      if (pieces[plane] === (by > 0 ? 1 : 0)) this.layers[plane] += by;
    }
  }
}

/** The middle of the longest run of a value in a list. */
function middleOfLongest(values: ArrayLike<number>, value: number): number {
  let [best, longest] = [0, 0];
  for (let i = 0; i < values.length; i++) {
    let end = i;
    while (end < values.length && values[end] === value) end++;
    if (end - i > longest) [best, longest] = [(i + end - 1) >> 1, end - i];
    i = Math.max(i, end - 1);
  }
  return best;
}

/** Where a piece would have its nicks on each plane; undefined where one of them is not clear. */
function hitsOf(piece: Nickable, ring: Ring, planes: Planes, offsets: readonly number[]) {
  const { outline, joints } = piece;
  const points = [
    ...piece.pins,
    ...joints.flatMap(({ line, matches }): Point[] => [
      [line[0], line[1]],
      [line[line.length - 2], line[line.length - 1]],
      ...matches,
    ]),
  ];
  const lowest = offsets.map((offset) => lowestHits(ring, { ...planes, first: planes.first + offset }));
  return Array.from({ length: PLANES }, (_, plane): { places: readonly Hit[]; isOuter: boolean } | undefined => {
    const places: Hit[] = [];
    let isOuter = true;
    for (const hits of lowest) {
      const hit = hits[plane];
      if (!hit) return undefined;
      const [x, y] = pointOn(outline, hit);
      if (points.some((point) => isNearLine(x, y, [...point, ...point], CLEAR_MM))) return undefined;
      if (piece.slits.some((line) => isNearLine(x, y, line, CLEAR_MM))) return undefined;
      if (joints.some(({ line }) => isNearLine(x, y, line, ON_MM))) isOuter = false;
      places.push(hit);
    }
    return { places, isOuter };
  });
}

/** A point this near a seam lies on it. */
const ON_MM = 0.01;

/** Where each plane meets a ring lowest; undefined where it does not, or where the edge there runs along it. */
function lowestHits(ring: Ring, { first, pitch }: Planes): (Hit | undefined)[] {
  const least = new Float64Array(PLANES).fill(Infinity);
  const hits: (Hit | undefined)[] = Array.from({ length: PLANES });
  for (let i = 0; i < ring.length; i += 2) {
    const j = (i + 2) % ring.length;
    const [du, dv] = [ring[j] - ring[i], ring[j + 1] - ring[i + 1]];
    const isAcross = Math.abs(du) >= ACROSS * Math.sqrt(du * du + dv * dv);
    const from = Math.max(0, Math.ceil((Math.min(ring[i], ring[j]) - first) / pitch));
    const to = Math.min(PLANES - 1, Math.floor((Math.max(ring[i], ring[j]) - first) / pitch));
    for (let plane = from; plane <= to; plane++) {
      const share = du === 0 ? 0 : Math.min(1, Math.max(0, (first + plane * pitch - ring[i]) / du));
      const v = ring[i + 1] + share * dv;
      if (v >= least[plane]) continue;
      least[plane] = v;
      hits[plane] = isAcross ? { edge: i, share } : undefined;
    }
  }
  return hits;
}

function isNearLine(x: number, y: number, line: ArrayLike<number>, within: number): boolean {
  for (let i = 2; i < line.length; i += 2) {
    const squared = squaredDistanceToSegment(x, y, line[i - 2], line[i - 1], line[i], line[i + 1]);
    if (squared < within * within) return true;
  }
  return false;
}

function pointOn(ring: Ring, { edge, share }: Hit): Point {
  const next = (edge + 2) % ring.length;
  return [
    snapped(ring[edge] + share * (ring[next] - ring[edge])),
    snapped(ring[edge + 1] + share * (ring[next + 1] - ring[edge + 1])),
  ];
}

/** A ring in other coordinates, corner by corner. */
function mapped(ring: Ring, to: (x: number, y: number) => Point): Ring {
  const result = new Float64Array(ring.length);
  for (let i = 0; i < ring.length; i += 2) [result[i], result[i + 1]] = to(ring[i], ring[i + 1]);
  return result;
}
