import { isInRing, type Region, type Ring, ringArea } from './ring.ts';
import { CLIP_UNITS } from './tolerance.ts';

/**
 * A region parted where its outline touches itself or a hole at a point: what hangs together at points only comes apart, for
 * foam does not hold at a point. Nothing else changes, no point moves; most regions come back as they are.
 *
 * The outlines are the edges of a plane graph; from the end of an edge the walk goes on along the first edge clockwise from
 * the way it came, which keeps the nearest area on the left (Muller, Preparata 1978). O(n).
 */
export function partedAtTouches(region: Region): Region[] {
  const graph = graphOf(region);
  if (graph.x.length === graph.to.length) return [region];
  const rings: Ring[] = [];
  const seen = new Uint8Array(graph.to.length);
  for (let start = 0; start < seen.length; start++) {
    if (seen[start]) continue;
    const ring: number[] = [];
    for (let edge = start; !seen[edge]; edge = nextEdge(graph, edge)) {
      seen[edge] = 1;
      ring.push(graph.x[graph.from[edge]], graph.y[graph.from[edge]]);
    }
    rings.push(Float64Array.from(ring));
  }
  return regionsOfLoops(rings);
}

/** Loops that do not cross, sorted: outlines (counter-clockwise), each with the holes (clockwise) that lie in it. */
export function regionsOfLoops(loops: readonly Ring[]): Region[] {
  const areas = loops.map(ringArea);
  const outers = loops.filter((_, i) => areas[i] > 0);
  const outerAreas = areas.filter((area) => area > 0);
  const regions: Ring[][] = outers.map((outer) => [outer]);
  for (const [i, loop] of loops.entries()) {
    if (!(areas[i] < 0)) continue;
    let home = outers.length === 1 ? 0 : -1;
    for (let k = 0; k < outers.length && outers.length > 1; k++) {
      if ((home < 0 || outerAreas[k] < outerAreas[home]) && holdsRing(outers[k], loop)) home = k;
    }
    if (home >= 0) regions[home].push(loop);
  }
  return regions;
}

/** A plane graph of directed edges; edges that leave one vertex are chained through `nextOut`. */
interface Graph {
  /** Of each vertex. */
  readonly x: number[];
  readonly y: number[];
  readonly firstOut: number[];
  /** Of each edge: vertices, and the next edge out of the same vertex or −1. */
  readonly from: number[];
  readonly to: number[];
  readonly nextOut: number[];
}

function graphOf(region: Region): Graph {
  const graph: Graph = { x: [], y: [], firstOut: [], from: [], to: [], nextOut: [] };
  const [x0, y0, rows] = keyFrame(region[0]);
  const numbers = new Map<number, number>();
  const vertex = (x: number, y: number): number => {
    const key = Math.round((x - x0) * CLIP_UNITS) * rows + Math.round((y - y0) * CLIP_UNITS);
    let number = numbers.get(key);
    if (number === undefined) {
      number = graph.x.length;
      numbers.set(key, number);
      graph.x.push(x);
      graph.y.push(y);
      graph.firstOut.push(-1);
    }
    return number;
  };
  const edge = (from: number, to: number) => {
    if (from === to) return;
    graph.nextOut.push(graph.firstOut[from]);
    graph.firstOut[from] = graph.to.length;
    graph.from.push(from);
    graph.to.push(to);
  };
  for (const ring of region) {
    if (ring.length < 6) continue;
    const first = vertex(ring[0], ring[1]);
    let before = first;
    for (let i = 2; i < ring.length; i += 2) {
      const here = vertex(ring[i], ring[i + 1]);
      edge(before, here);
      before = here;
    }
    edge(before, first);
  }
  return graph;
}

/** Origin and rows of the grid that numbers the points of a region: the box of its outer ring, on the clipping grid. */
function keyFrame(outer: Ring): [x0: number, y0: number, rows: number] {
  let x0 = Infinity;
  let y0 = Infinity;
  let y1 = -Infinity;
  for (let i = 0; i < outer.length; i += 2) {
    if (outer[i] < x0) x0 = outer[i];
    if (outer[i + 1] < y0) y0 = outer[i + 1];
    if (outer[i + 1] > y1) y1 = outer[i + 1];
  }
  return [x0, y0, Math.round((y1 - y0) * CLIP_UNITS) + 1];
}

function nextEdge({ x, y, firstOut, from, to, nextOut }: Graph, edge: number): number {
  const at = to[edge];
  let best = firstOut[at];
  if (nextOut[best] < 0) return best;
  const backX = x[from[edge]] - x[at];
  const backY = y[from[edge]] - y[at];
  for (let out = nextOut[best]; out >= 0; out = nextOut[out]) {
    if (
      isClockwiseFirst(backX, backY, x[to[out]] - x[at], y[to[out]] - y[at], x[to[best]] - x[at], y[to[best]] - y[at])
    )
      best = out;
  }
  return best;
}

/** Whether a clockwise turn from the direction `back` meets p before q. The direction `back` itself is met last. */
function isClockwiseFirst(backX: number, backY: number, px: number, py: number, qx: number, qy: number): boolean {
  const p = clockwiseSector(backX, backY, px, py);
  const q = clockwiseSector(backX, backY, qx, qy);
  if (p !== q) return p < q;
  return px * qy - py * qx < 0;
}

/** 0: up to half a turn clockwise; 1: exactly half; 2: beyond; 3: straight back. */
function clockwiseSector(backX: number, backY: number, x: number, y: number): number {
  const cross = backX * y - backY * x;
  if (cross < 0) return 0;
  if (cross > 0) return 2;
  return backX * x + backY * y < 0 ? 1 : 3;
}

/** Whether a ring lies inside another that it does not cross; points that they share say nothing. */
function holdsRing(outer: Ring, ring: Ring): boolean {
  for (let i = 0; i < ring.length; i += 2) {
    if (isOnVertex(outer, ring[i], ring[i + 1])) continue;
    return isInRing(ring[i], ring[i + 1], outer);
  }
  return false;
}

function isOnVertex(ring: Ring, x: number, y: number): boolean {
  for (let i = 0; i < ring.length; i += 2) if (ring[i] === x && ring[i + 1] === y) return true;
  return false;
}
