import { lineLength, type Region, type Ring } from '../../geometry/ring.ts';
import type { Front } from '../../model/facts.ts';
import { type Joint, letters } from '../../model/piece.ts';
import { type Matches, matchesOn, pointAt } from './matches.ts';
import { readingOrder } from './naming.ts';

/** A seam between two pieces of a layer, by their numbers. */
interface Seam {
  readonly first: number;
  readonly second: number;
  /** Open, as it runs along the first piece. */
  readonly line: Float64Array;
}

/**
 * The joints of each piece of a layer: wherever two outlines share edges, an unbroken run of them is one joint. Both
 * pieces hold it with the same label, line and marks.
 */
export function jointsOf(
  regions: readonly Region[],
  names: readonly string[],
  layer: number,
  front: Front,
  rowMm: number,
) {
  const seams = seamsOf(regions);
  const middles = seams.map(({ line }) => pointAt(line, lineLength(line) / 2));
  const joints: Joint[][] = regions.map(() => []);
  const marked: Matches[][] = regions.map(() => []);
  for (const [place, i] of readingOrder(middles, front.side, rowMm).entries()) {
    const { first, second, line } = seams[i];
    const label = `${layer}/${letters(place)}`;
    const matches = matchesOn(line, [...marked[first], ...marked[second]]);
    for (const [side, other] of [
      [first, second],
      [second, first],
    ]) {
      joints[side].push({ label, neighbour: names[other], line, matches: matches.points });
      marked[side].push(matches);
    }
  }
  return joints;
}

/** Unbroken runs of edges that two regions share, each told once, by the one that comes first. O(points). */
export function seamsOf(regions: readonly Region[]): Seam[] {
  const owner = new Map<string, number>();
  for (const [i, region] of regions.entries()) {
    for (const ring of region) for (let k = 0; k < ring.length; k += 2) owner.set(edgeKey(ring, k, 1), i);
  }
  const seams: Seam[] = [];
  for (const [i, region] of regions.entries()) {
    for (const ring of region) {
      const across: (number | undefined)[] = [];
      for (let k = 0; k < ring.length; k += 2) across.push(owner.get(edgeKey(ring, k, -1)));
      for (const [from, count] of runsOf(across)) {
        const second = across[from];
        // Each seam is met from both sides: it is told by the piece that comes first.
        if (second === undefined || second <= i) continue;
        seams.push({ first: i, second, line: lineFrom(ring, from, count) });
      }
    }
  }
  return seams;
}

/** An edge of a ring as text, run one way (1) or the other (−1). */
export function edgeKey(ring: Ring, at: number, way: 1 | -1): string {
  const next = (at + 2) % ring.length;
  const start = `${ring[at]},${ring[at + 1]}`;
  const end = `${ring[next]},${ring[next + 1]}`;
  return way === 1 ? `${start} ${end}` : `${end} ${start}`;
}

/** Runs of equal values in a list that closes on itself: where each starts and how long it is. */
function runsOf<T>(values: readonly T[]): [from: number, count: number][] {
  const n = values.length;
  const start = values.findIndex((value, i) => value !== values[(i - 1 + n) % n]);
  if (start < 0) return [[0, n]];
  const runs: [number, number][] = [];
  for (let i = 0; i < n; i++) {
    const at = (start + i) % n;
    const last = runs.at(-1);
    if (last && values[last[0]] === values[at]) last[1]++;
    else runs.push([at, 1]);
  }
  return runs;
}

function lineFrom(ring: Ring, from: number, edges: number): Float64Array {
  const line = new Float64Array(2 * (edges + 1));
  for (let k = 0; k <= edges; k++) {
    const at = (2 * (from + k)) % ring.length;
    line[2 * k] = ring[at];
    line[2 * k + 1] = ring[at + 1];
  }
  return line;
}
