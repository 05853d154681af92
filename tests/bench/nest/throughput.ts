/**
 * Positions looked at in a second of one core's processor time, against a plain implementation in the same run: boxes, then
 * every edge of the one against every edge of the other, then a point of each in the other.
 */
import process from 'node:process';
import { stream } from '../../../src/geometry/random.ts';
import { addBoard, type Field, fieldOf, loadAt, postureAt, put } from '../../../src/nest/engine/field.ts';
import { edgesOf } from '../../../src/nest/engine/posture.ts';
import type { Prepared } from './instance.ts';

const LOOKS = 200_000;
const PLAIN_LOOKS = 400;

export interface Throughput {
  /** Vertices of a piece on average, before simplifying. */
  readonly vertices: number;
  readonly perSecond: number;
  readonly plainPerSecond: number;
}

/** Pieces at random on one board at a usual density, each looked at at random places with the limit that a move has. */
export function throughput({ shapes, items }: Prepared, seed: number): Throughput {
  const random = stream(seed, 'throughput');
  const f = fieldOf(shapes, items);
  const area = items.reduce((sum, shape) => sum + shapes[shape].areaMm2, 0);
  const side = Math.max(Math.sqrt(area / 0.8), ...shapes.map(({ longMm }) => longMm));
  addBoard(f, 0, { box: [0, 0, side, side], outline: null, areaMm2: side * side });
  for (let item = 0; item < items.length; item++) {
    const p = f.postures[item];
    put(f, item, 0, p.pose, random() * (side - p.right) - p.left, random() * (side - p.high) - p.low);
  }
  const vertices = shapes.reduce((sum, { outline }) => sum + outline[0].length / 2, 0) / shapes.length;
  const perSecond = measured(() => {
    const reached = f.reached;
    // A move keeps the best few: most places are looked at with the limit that the third best of some twenty sets.
    for (let i = 0; i < LOOKS / 20; i++) {
      const item = Math.floor(random() * items.length);
      let limit = Infinity;
      for (let k = 0; k < 20; k++) limit = Math.min(limit, look(f, item, side, random, limit));
    }
    return f.reached - reached;
  });
  const edges = shapes.map(({ outline }) => edgesOf(outline));
  const plainPerSecond = measured(() => {
    for (let i = 0; i < PLAIN_LOOKS; i++) plainLook(f, edges, Math.floor(random() * items.length), side, random);
    return PLAIN_LOOKS;
  });
  return { vertices, perSecond, plainPerSecond };
}

function look(f: Field, item: number, side: number, random: () => number, limit: number): number {
  const { poses } = f.shapes[f.items[item]];
  const p = postureAt(f, item, poses[Math.floor(random() * poses.length)]);
  const x = random() * (side - (p.right - p.left)) - p.left;
  const y = random() * (side - (p.high - p.low)) - p.low;
  return loadAt(f, item, p, f.boards[0], x, y, limit);
}

function plainLook(f: Field, edges: readonly Float64Array[], item: number, side: number, random: () => number): number {
  const own = edges[f.items[item]];
  const p = f.postures[item];
  const [x, y] = [random() * (side - p.right), random() * (side - p.high)];
  let met = 0;
  for (let other = 0; other < f.items.length; other++) {
    const o = f.postures[other];
    const dx = x - f.x[other];
    const dy = y - f.y[other];
    if (other === item || p.minX + dx > o.maxX || p.maxX + dx < o.minX || p.minY + dy > o.maxY || p.maxY + dy < o.minY)
      continue;
    const its = edges[f.items[other]];
    if (
      plainMeet(its, own, dx, dy) ||
      plainHolds(its, own[0] + dx, own[1] + dy) ||
      plainHolds(own, its[0] - dx, its[1] - dy)
    )
      met++;
  }
  return met;
}

function plainMeet(a: Float64Array, b: Float64Array, dx: number, dy: number): boolean {
  for (let i = 0; i < a.length; i += 4) {
    for (let j = 0; j < b.length; j += 4) {
      const side = (k: number) =>
        (a[i + 2] - a[i]) * (b[j + k + 1] + dy - a[i + 1]) - (a[i + 3] - a[i + 1]) * (b[j + k] + dx - a[i]);
      const back = (k: number) =>
        (b[j + 2] - b[j]) * (a[i + k + 1] - b[j + 1] - dy) - (b[j + 3] - b[j + 1]) * (a[i + k] - b[j] - dx);
      if (side(0) * side(2) <= 0 && back(0) * back(2) <= 0) return true;
    }
  }
  return false;
}

function plainHolds(edges: Float64Array, x: number, y: number): boolean {
  let inside = false;
  for (let i = 0; i < edges.length; i += 4) {
    const [x0, y0, x1, y1] = [edges[i], edges[i + 1], edges[i + 2], edges[i + 3]];
    if (y0 > y !== y1 > y && x < ((x1 - x0) * (y - y0)) / (y1 - y0) + x0) inside = !inside;
  }
  return inside;
}

function measured(work: () => number): number {
  work();
  const before = process.cpuUsage();
  const done = work();
  const { user, system } = process.cpuUsage(before);
  return (1e6 * done) / (user + system);
}
