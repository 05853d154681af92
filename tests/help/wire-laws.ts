import type { Ring } from '../../src/geometry/ring.ts';
import { ringAt } from '../../src/geometry/ruled.ts';

type Line = readonly [ax: number, ay: number, bx: number, by: number];

const side = ([ax, ay, bx, by]: Line, x: number, y: number): number =>
  Math.sign((bx - ax) * (y - ay) - (by - ay) * (x - ax));

const areApart = (e: Line, f: Line): boolean =>
  Math.max(e[0], e[2]) < Math.min(f[0], f[2]) ||
  Math.max(f[0], f[2]) < Math.min(e[0], e[2]) ||
  Math.max(e[1], e[3]) < Math.min(f[1], f[3]) ||
  Math.max(f[1], f[3]) < Math.min(e[1], e[3]);

const cross = (e: Line, f: Line): boolean =>
  !areApart(e, f) && side(e, f[0], f[1]) * side(e, f[2], f[3]) < 0 && side(f, e[0], e[1]) * side(f, e[2], e[3]) < 0;

/** The lines of a wire in plan. */
export const linesOf = (stations: Float64Array): Line[] =>
  Array.from(
    { length: stations.length / 4 },
    (_, k) => Array.from(stations.subarray(4 * k, 4 * k + 4)) as unknown as Line,
  );

const edgesOf = (ring: Ring): Line[] =>
  Array.from({ length: ring.length / 2 }, (_, i): Line => {
    const j = (2 * i + 2) % ring.length;
    return [ring[2 * i], ring[2 * i + 1], ring[j], ring[j + 1]];
  });

/**
 * Two lines of the stations, or a line and an edge of the rings on which their ends stand, that cross; null when none do.
 * Exact for whole numbers, by brute force.
 */
export function crossingOf(stations: readonly Float64Array[]): string | null {
  const lines = stations.flatMap(linesOf);
  const edges = stations.flatMap((each) => [...edgesOf(ringAt(each, 0)), ...edgesOf(ringAt(each, 1))]);
  for (const [i, line] of lines.entries()) {
    const other = lines.slice(i + 1).find((each) => cross(line, each)) ?? edges.find((edge) => cross(line, edge));
    if (other) return `${line.join(' ')} crosses ${other.join(' ')}`;
  }
  return null;
}

/** Whether the points, in order, go once round the ring in its sense: each on an edge (to `within`), none before the last. */
export function goesOnceRound(points: readonly (readonly [number, number])[], ring: Ring, within: number): boolean {
  const edges = edgesOf(ring);
  const lengths = edges.map(([ax, ay, bx, by]) => Math.hypot(bx - ax, by - ay));
  const starts = lengths.map((_, i) => lengths.slice(0, i).reduce((sum, each) => sum + each, 0));
  const whole = lengths.reduce((sum, each) => sum + each, 0);
  const places = points.map(([x, y]) =>
    edges.flatMap(([ax, ay, bx, by], i) => {
      const t = Math.min(1, Math.max(0, ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / lengths[i] ** 2));
      const off = Math.hypot(ax + t * (bx - ax) - x, ay + t * (by - ay) - y);
      return off <= within ? [starts[i] + t * lengths[i]] : [];
    }),
  );
  if (places.some((each) => each.length === 0)) return false;
  // Each point as little further on as it can be; where the ring touches itself a point has several places.
  return places[0].some((first) => {
    let gone = 0;
    let at = first;
    for (const choices of places.slice(1)) {
      const steps = choices
        .map((place) => (((place - at) % whole) + whole) % whole)
        .map((s) => (s > whole - within ? 0 : s));
      const step = Math.min(...steps);
      gone += step;
      at += step;
    }
    return gone <= whole + within;
  });
}
