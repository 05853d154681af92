/**
 * Containers that are no rectangles: saved offcuts, boards with defects and keep-outs. Their outside is one more thing that
 * a shape must not meet (Gardeyn, Vanden Berghe, Wauters 2025b: everything that is in the way is of one kind). How badly it
 * does is told as between two shapes, the depth of a circle being how far it runs beyond the outline; that distance is read
 * from a grid made once (the paper gives no formula for outlines). Only the edges decide.
 */
import { type Box, type Ring, squaredDistanceToSegment } from '../../geometry/ring.ts';
import { isWithin } from './collision.ts';
import { edgesOf, type Posture } from './posture.ts';
import type { Container } from './problem.ts';

/** Nodes of the distance grid along the longer side. */
const NODES = 64;
const FADE = 0.01;

/** An odd outline, prepared. */
export interface Odd {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
  readonly edges: Float64Array;
  /** One point of each ring. */
  readonly seeds: Float64Array;
  /** Depth inside at the nodes, row by row; negative outside. */
  readonly depths: Float64Array;
  readonly columns: number;
  readonly rows: number;
  readonly step: number;
}

/** Every try begins with fields of its own; making the grid anew for each would cost 3 to 9 ms a container. */
const KNOWN = new WeakMap<Container, Odd>();

/** The outline of a container, prepared once; null when its box is all there is. */
export function oddOf(container: Container): Odd | null {
  const { outline, box } = container;
  if (outline === null) return null;
  const known = KNOWN.get(container) ?? prepared(outline, box);
  KNOWN.set(container, known);
  return known;
}

function prepared(outline: readonly Ring[], box: Box): Odd {
  const edges = edgesOf(outline);
  const [minX, minY, maxX, maxY] = box;
  const step = Math.max(maxX - minX, maxY - minY) / (NODES - 1);
  const columns = 2 + Math.floor((maxX - minX) / step);
  const rows = 2 + Math.floor((maxY - minY) / step);
  const depths = new Float64Array(columns * rows);
  const odd = { minX, minY, maxX, maxY, edges, columns, rows, step, depths };
  for (let i = 0; i < depths.length; i++) {
    depths[i] = depth(odd, minX + (i % columns) * step, minY + Math.floor(i / columns) * step);
  }
  return { ...odd, seeds: Float64Array.from(outline.flatMap((ring) => [ring[0], ring[1]])) };
}

function depth(odd: Omit<Odd, 'seeds'>, x: number, y: number): number {
  const { edges } = odd;
  let least = Infinity;
  for (let i = 0; i < edges.length; i += 4) {
    const squared = squaredDistanceToSegment(x, y, edges[i], edges[i + 1], edges[i + 2], edges[i + 3]);
    if (squared < least) least = squared;
  }
  return isWithin(edges, odd, x, y) ? Math.sqrt(least) : -Math.sqrt(least);
}

/** Whether a shape at (x, y) lies in the outline: edges apart, its rings inside, and no ring of the outline in its material. */
export function liesIn(odd: Odd, p: Posture, x: number, y: number): boolean {
  const { bare, bareSeeds } = p;
  const { edges, seeds } = odd;
  if (bareMeets(edges, bare, x, y)) return false;
  for (let i = 0; i < bareSeeds.length; i += 2) {
    if (!isWithin(edges, odd, bareSeeds[i] + x, bareSeeds[i + 1] + y)) return false;
  }
  for (let i = 0; i < seeds.length; i += 2) if (isWithin(bare, p, seeds[i] - x, seeds[i + 1] - y)) return false;
  return true;
}

function bareMeets(edges: Float64Array, bare: Float64Array, dx: number, dy: number): boolean {
  for (let i = 0; i < bare.length; i += 4) {
    const x0 = bare[i] + dx;
    const y0 = bare[i + 1] + dy;
    const x1 = bare[i + 2] + dx;
    const y1 = bare[i + 3] + dy;
    const ux = x1 - x0;
    const uy = y1 - y0;
    for (let j = 0; j < edges.length; j += 4) {
      const x2 = edges[j];
      const x3 = edges[j + 2];
      if ((x2 < x0 && x2 < x1 && x3 < x0 && x3 < x1) || (x2 > x0 && x2 > x1 && x3 > x0 && x3 > x1)) continue;
      const y2 = edges[j + 1];
      const y3 = edges[j + 3];
      if ((y2 < y0 && y2 < y1 && y3 < y0 && y3 < y1) || (y2 > y0 && y2 > y1 && y3 > y0 && y3 > y1)) continue;
      const side2 = ux * (y2 - y0) - uy * (x2 - x0);
      const side3 = ux * (y3 - y0) - uy * (x3 - x0);
      if ((side2 > 0 && side3 > 0) || (side2 < 0 && side3 < 0)) continue;
      const vx = x3 - x2;
      const vy = y3 - y2;
      const side0 = vx * (y0 - y2) - vy * (x0 - x2);
      const side1 = vx * (y1 - y2) - vy * (x1 - x2);
      if ((side0 > 0 && side1 > 0) || (side0 < 0 && side1 < 0)) continue;
      return true;
    }
  }
  return false;
}

/** How badly a shape at (x, y) runs beyond the outline; to be asked only where it does. */
export function severityOutside(odd: Odd, { poles, shape }: Posture, x: number, y: number): number {
  const fade = FADE * shape.diameterMm;
  let sum = fade * fade * 1e-6;
  for (let i = 0; i < poles.length; i += 3) {
    const r = poles[i + 2];
    const beyond = r - depthAt(odd, poles[i] + x, poles[i + 1] + y);
    sum += (beyond >= fade ? beyond : (fade * fade) / (2 * fade - beyond)) * r;
  }
  return Math.sqrt(sum * shape.hullAreaMm2);
}

/** The depth read from the grid; beyond the grid that of its rim. */
function depthAt({ minX, minY, step, columns, rows, depths }: Odd, x: number, y: number): number {
  const across = Math.min(columns - 1.001, Math.max(0, (x - minX) / step));
  const up = Math.min(rows - 1.001, Math.max(0, (y - minY) / step));
  const column = Math.floor(across);
  const row = Math.floor(up);
  const u = across - column;
  const v = up - row;
  const at = row * columns + column;
  const low = depths[at] * (1 - u) + depths[at + 1] * u;
  const high = depths[at + columns] * (1 - u) + depths[at + columns + 1] * u;
  return low * (1 - v) + high * v;
}
