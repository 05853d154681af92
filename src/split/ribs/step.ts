import type { Ring } from '../../geometry/ring.ts';
import { snapped } from '../../geometry/snap.ts';

/** A cut in a step: from the upper edge down at `fromMm`, level at `meetMm`, down to the floor at `toMm`. */
export interface Step {
  readonly fromMm: number;
  readonly toMm: number;
  readonly meetMm: number;
}

/**
 * Cut a rib's ring, counter-clockwise from a floor at 0 to an upper edge, in a step: the left side keeps the lower tongue. Both
 * sides hold the step's four points to the last bit. No slot may be between.
 */
export function cutInStep(ring: Ring, { fromMm, toMm, meetMm }: Step): [left: Ring, right: Ring] {
  const points = withPoint(withPoint(Array.from(ring), fromMm, -1), toMm, 1);
  const top = edgeOver(points, fromMm, -1);
  const floor = edgeOver(points, toMm, 1);
  const left = between(points, top, floor);
  const right = between(points, floor, top);
  return [
    Float64Array.from([...left, toMm, meetMm, fromMm, meetMm]),
    Float64Array.from([...right, fromMm, meetMm, toMm, meetMm]),
  ];
}

/** The highest point of a ring between two places. */
export function heightOver(ring: Ring, fromMm: number, toMm: number): number {
  let high = Math.max(topAt(ring, fromMm), topAt(ring, toMm));
  for (let i = 0; i < ring.length; i += 2) if (ring[i] >= fromMm && ring[i] <= toMm) high = Math.max(high, ring[i + 1]);
  return high;
}

/** The lowest of the upper edge between two places without a slot. */
export function leastOver(ring: Ring, fromMm: number, toMm: number): number {
  let low = Math.min(topAt(ring, fromMm), topAt(ring, toMm));
  for (let i = 0; i < ring.length; i += 2) {
    if (ring[i] > fromMm && ring[i] < toMm && ring[i + 1] > 0) low = Math.min(low, ring[i + 1]);
  }
  return low;
}

/** The height of the upper edge at a place; 0 beyond the ring. */
function topAt(ring: ArrayLike<number>, u: number): number {
  const edge = edgeOver(ring, u, -1);
  return edge < 0 ? 0 : heightOn(ring, edge, u);
}

/** The edge over (−1: it runs to the left, the highest) or under (1: to the right, the lowest) a place: where it starts. */
function edgeOver(ring: ArrayLike<number>, u: number, way: 1 | -1): number {
  let found = -1;
  for (let i = 0; i < ring.length; i += 2) {
    const next = (i + 2) % ring.length;
    const isOver = way < 0 ? ring[i] >= u && ring[next] < u : ring[i] <= u && ring[next] > u;
    if (isOver && (found < 0 || way * heightOn(ring, i, u) < way * heightOn(ring, found, u))) found = i;
  }
  return found;
}

function heightOn(ring: ArrayLike<number>, edge: number, u: number): number {
  const next = (edge + 2) % ring.length;
  const t = (u - ring[edge]) / (ring[next] - ring[edge]);
  return ring[edge + 1] + t * (ring[next + 1] - ring[edge + 1]);
}

/** The ring with a point on its upper edge or its floor at u, unless one is there. */
function withPoint(points: number[], u: number, way: 1 | -1): number[] {
  const edge = edgeOver(points, u, way);
  if (points[edge] === u) return points;
  return [...points.slice(0, edge + 2), u, snapped(heightOn(points, edge, u)), ...points.slice(edge + 2)];
}

function between(points: readonly number[], from: number, to: number): number[] {
  const result: number[] = [];
  for (let i = from; ; i = (i + 2) % points.length) {
    result.push(points[i], points[i + 1]);
    if (i === to) return result;
  }
}
