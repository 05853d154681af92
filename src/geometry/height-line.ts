import type { Ring } from './ring.ts';

/** Heights along a straight line in plan: flat u, v …, open; u never falls, and two points of one u are a step. */
export type HeightLine = Float64Array;

/**
 * What is highest of an upright section: one line for each run of u that holds material. The rings are directed (outer ones
 * counter-clockwise, holes clockwise) and do not cross. O(n log n + n × edges that lie over one another).
 */
export function upperLines(rings: Iterable<Ring>): HeightLine[] {
  // Edges that run to the left have their material beneath them.
  const edges: { from: number; to: number; low: number; high: number }[] = [];
  for (const ring of rings) {
    for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
      if (ring[i] < ring[j]) edges.push({ from: ring[i], to: ring[j], low: ring[i + 1], high: ring[j + 1] });
    }
  }
  edges.sort((a, b) => a.from - b.from || a.to - b.to || a.low - b.low);
  const stops = [...new Set(edges.flatMap(({ from, to }) => [from, to]))].sort((a, b) => a - b);
  const lines: number[][] = [];
  let open: typeof edges = [];
  let next = 0;
  let end = -Infinity;
  for (let i = 0; i + 1 < stops.length; i++) {
    const [from, to] = [stops[i], stops[i + 1]];
    open = open.filter((edge) => edge.to > from);
    while (next < edges.length && edges[next].from <= from) open.push(edges[next++]);
    if (open.length === 0) continue;
    const at = (edge: (typeof edges)[number], u: number) =>
      u === edge.to ? edge.high : edge.low + ((u - edge.from) / (edge.to - edge.from)) * (edge.high - edge.low);
    const middle = (from + to) / 2;
    const top = open.reduce((best, edge) => (at(edge, middle) > at(best, middle) ? edge : best));
    if (from !== end) lines.push([]);
    end = to;
    const line = lines[lines.length - 1];
    for (const u of [from, to]) {
      const v = at(top, u);
      if (line[line.length - 2] !== u || line[line.length - 1] !== v) line.push(u, v);
    }
  }
  return lines.map((line) => Float64Array.from(line));
}

/** The height of a line at a place, the lower one of a step; beyond its ends that of the nearer end. */
export function heightAt(line: HeightLine, u: number): number {
  const i = placeOf(line, u);
  if (i < 0) return line[1];
  if (i + 2 >= line.length) return line[line.length - 1];
  if (line[i] === u) {
    let least = line[i + 1];
    for (let k = i - 2; k >= 0 && line[k] === u; k -= 2) least = Math.min(least, line[k + 1]);
    return least;
  }
  return line[i + 1] + ((u - line[i]) / (line[i + 2] - line[i])) * (line[i + 3] - line[i + 1]);
}

/** The least height between two places of a line. */
export function leastBetween(line: HeightLine, from: number, to: number): number {
  let least = Math.min(heightAt(line, from), heightAt(line, to));
  for (let i = 0; i < line.length; i += 2) if (line[i] > from && line[i] < to) least = Math.min(least, line[i + 1]);
  return least;
}

/** The highest of a line between two places. */
export const mostBetween = (line: HeightLine, from: number, to: number): number =>
  -leastBetween(
    line.map((value, i) => (i % 2 === 0 ? value : -value)),
    from,
    to,
  );

/** A line between two places; null where less than `least` of it lies there. */
export function partBetween(line: HeightLine, from: number, to: number, least: number): HeightLine | null {
  const [a, b] = [Math.max(from, line[0]), Math.min(to, line[line.length - 2])];
  if (!(b - a >= least) || b <= a) return null;
  const points = a > line[0] ? [a, heightAt(line, a)] : [];
  for (let i = 0; i < line.length; i += 2) {
    const isInside = (line[i] > a || a === line[0]) && (line[i] < b || b === line[line.length - 2]);
    if (isInside) points.push(line[i], line[i + 1]);
  }
  if (b < line[line.length - 2]) points.push(b, heightAt(line, b));
  return Float64Array.from(points);
}

/** The stretches of a line that are nowhere lower than a height, `least` long or longer. */
export function partsOver(line: HeightLine, height: number, least: number): HeightLine[] {
  const parts: number[][] = [];
  let isOpen = false;
  for (let i = 0; i < line.length; i += 2) {
    const [u, v] = [line[i], line[i + 1]];
    if (i > 0 && v >= height !== line[i - 1] >= height) {
      const t = (height - line[i - 1]) / (v - line[i - 1]);
      const at = line[i - 2] + t * (u - line[i - 2]);
      if (isOpen) parts[parts.length - 1].push(at, height);
      else parts.push([at, height]);
      isOpen = !isOpen;
    } else if (i === 0 && v >= height) {
      parts.push([]);
      isOpen = true;
    }
    if (isOpen) parts[parts.length - 1].push(u, v);
  }
  return parts
    .filter((part) => part[part.length - 2] - part[0] >= least)
    .map((part) => withoutRepeats(Float64Array.from(part)));
}

function withoutRepeats(line: Float64Array): Float64Array {
  const kept: number[] = [];
  for (let i = 0; i < line.length; i += 2) {
    const isRepeat = i > 0 && line[i] === line[i - 2] && line[i + 1] === line[i - 1];
    if (!isRepeat) kept.push(line[i], line[i + 1]);
  }
  return Float64Array.from(kept);
}

/** Where in the list the last point at or before u stands; −2 before the first. */
function placeOf(line: HeightLine, u: number): number {
  let low = 0;
  let high = line.length / 2;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (line[2 * middle] <= u) low = middle + 1;
    else high = middle;
  }
  return 2 * (low - 1);
}
