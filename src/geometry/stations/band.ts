import { arrange } from '../arrange.ts';
import { Chains, EdgeGrid } from '../edge-grid.ts';
import { type Point, type Region, type Ring, ringsOf, squaredDistanceToSegment } from '../ring.ts';
import { before, Triangulation } from '../triangulation.ts';

/** Clipping rounds to a unit of the grid each way: a corner that was put on an edge lies no further from it, in units. */
const BESIDE = 2;

/** The way round a bay of the top is at most so many times the way across for the wire to follow it. */
const SHALLOW = 1.25;

/** Furthest that an edge along a wall is beside it, in units; and how many times its length its direction may be off. */
const ON_WALL = 4;
const ALONG_WALL = 0.01;

/** Where the underside stands upright whatever the top does. */
export interface Walls {
  /** Rings, or segments there and back, in whole units. */
  readonly rings: readonly Ring[];
  /** Whether there is a wall at a point of them, in whole units. */
  stands(x: number, y: number): boolean;
}

const NONE: ReadonlySet<string> = new Set();

/** A ring of the underside with the corners that the band has on it, and points between them no further apart than asked. */
export interface FootRing {
  /** Flat x, y, whole units. */
  readonly points: Float64Array;
  /** Of each point: its number in the band; −1 where the band does not reach it. */
  readonly ids: Int32Array;
  /** Of the edge that starts at each point: 1 when the band lies to its left; 0 when the top outline or a wall runs along it. */
  readonly isBank: Uint8Array;
}

/** What lies between an underside and a top outline, seen from above, cut into triangles. */
export interface Band {
  readonly feet: readonly FootRing[];
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** 1 for points of the top outline; one that is of both is where they meet. */
  readonly isTop: Uint8Array;
  /** null when outlines are one and the same, or lie too close for their edges to be kept. */
  readonly triangles: Triangulation | null;
  /** The edges of the underside where it is a wall and the top outline is not: middle and length. */
  readonly walls: readonly { readonly x: number; readonly y: number; readonly length: number }[];
  /** A point of each part of the band that no underside edge bounds: a pit with its floor in between. */
  readonly pits: readonly Point[];
}

/**
 * Make the band between two outlines in whole units (whole.ts), the top within the underside. Both may have any rings; where
 * they share edges there is no band. Corners that meet the other outline's edge are put into it. About O(n log n).
 */
export function bandOf(underside: readonly Region[], top: readonly Region[], spacing: number, walls: Walls): Band {
  // Corners that rounding has put beside the other outline's edge are put into it, so that none crosses the other there.
  const foot = withCorners(ringsOf(underside), ringsOf(top), NONE);
  const parts = arrange([...foot, ...withCorners(ringsOf(top), ringsOf(underside), NONE)]);
  const borders = ringsOf(parts);
  const edges = new Set<string>();
  for (const ring of borders) eachEdge(ring, (ax, ay, bx, by) => edges.add(edgeKey(ax, ay, bx, by)));
  const banks = new Set<string>();
  const upright = new Set<string>();
  const stood: { x: number; y: number; length: number }[] = [];
  const isWall = wallTest(walls.rings);
  const feet = withCorners(foot, borders, edges).map((ring) => {
    eachEdge(ring, (ax, ay, bx, by) => {
      const key = edgeKey(ax, ay, bx, by);
      if (!edges.has(key)) return;
      const middle = { x: (ax + bx) / 2, y: (ay + by) / 2 };
      if (!isWall(ax, ay, bx, by) || !walls.stands(middle.x, middle.y)) return void banks.add(key);
      upright.add(key);
      stood.push({ ...middle, length: Math.sqrt((bx - ax) * (bx - ax) + (by - ay) * (by - ay)) });
    });
    return footRing(ring, banks, spacing);
  });

  const ids = new Map<string, number>();
  const xs: number[] = [];
  const ys: number[] = [];
  const idOf = (px: number, py: number): number => {
    const known = ids.get(`${px},${py}`);
    if (known !== undefined) return known;
    ids.set(`${px},${py}`, xs.length);
    xs.push(px);
    return ys.push(py) - 1;
  };
  const kept: [number, number][] = [];
  const tops = new Set<number>();
  const isPit = new Map<Ring, boolean>(borders.map((ring) => [ring, true]));
  for (const ring of borders) {
    eachEdge(ring, (ax, ay, bx, by) => {
      const key = edgeKey(ax, ay, bx, by);
      const isWallEdge = upright.has(key);
      const isBank = banks.has(key);
      if (isBank || isWallEdge) isPit.set(ring, false);
      let last = idOf(ax, ay);
      if (isWallEdge) return void kept.push([last, idOf(bx, by)]);
      if (!isBank) tops.add(last).add(idOf(bx, by));
      for (const [px, py] of between(ax, ay, bx, by, spacing)) {
        const id = idOf(px, py);
        if (!isBank) tops.add(id);
        kept.push([last, id]);
        last = id;
      }
      kept.push([last, idOf(bx, by)]);
    });
  }
  const x = Float64Array.from(xs);
  const y = Float64Array.from(ys);
  const triangles = x.length >= 3 ? new Triangulation(x, y) : null;
  const isTangled = triangles !== null && !kept.every(([a, b]) => triangles.fix(a, b));
  const isTop = Uint8Array.from(xs, (_, id) => (tops.has(id) ? 1 : 0));
  if (triangles && !isTangled) turnToSight({ x, y }, triangles, isTop);
  for (const { points, ids: own } of feet) {
    for (let k = 0; k < own.length; k++) own[k] = ids.get(`${points[2 * k]},${points[2 * k + 1]}`) ?? -1;
  }
  const pits = parts
    .filter((region) => region.every((ring) => isPit.get(ring)))
    .map(([outer]): Point => [outer[0], outer[1]]);
  return { feet, x, y, isTop, triangles: isTangled ? null : triangles, walls: stood, pits };
}

const edgeKey = (ax: number, ay: number, bx: number, by: number): string => `${ax},${ay},${bx},${by}`;

function eachEdge(ring: Ring, visit: (ax: number, ay: number, bx: number, by: number) => void): void {
  for (let i = 0; i < ring.length; i += 2) {
    const j = (i + 2) % ring.length;
    visit(ring[i], ring[i + 1], ring[j], ring[j + 1]);
  }
}

/** Whole points that divide an edge into equal lengths of at most `spacing`, ends left out. */
function between(ax: number, ay: number, bx: number, by: number, spacing: number): [number, number][] {
  const count = Math.ceil(Math.sqrt((bx - ax) * (bx - ax) + (by - ay) * (by - ay)) / spacing);
  return Array.from({ length: Math.max(0, count - 1) }, (_, i): [number, number] => [
    Math.round(ax + ((bx - ax) * (i + 1)) / count),
    Math.round(ay + ((by - ay) * (i + 1)) / count),
  ]);
}

/** The rings with those corners of others that lie on their edges; edges that are in `whole` stay as they are. */
function withCorners(rings: readonly Ring[], others: readonly Ring[], whole: ReadonlySet<string>): Ring[] {
  const chains = new Chains(rings);
  if (chains.count === 0) return [];
  const { x, y, next, starts } = chains;
  const grid = new EdgeGrid(chains);
  const on = new Map<number, { along: number; x: number; y: number }[]>();
  for (const ring of others) {
    for (let i = 0; i < ring.length; i += 2) {
      const [px, py] = [ring[i], ring[i + 1]];
      const found = grid.near(px, py, px, py, BESIDE);
      for (let f = 0; f < found; f++) {
        const a = grid.found[f];
        const b = next[a];
        const [dx, dy] = [x[b] - x[a], y[b] - y[a]];
        const squared = dx * dx + dy * dy;
        const along = (px - x[a]) * dx + (py - y[a]) * dy;
        const off = (px - x[a]) * dy - (py - y[a]) * dx;
        if (along <= 0 || along >= squared || off * off > BESIDE * BESIDE * squared) continue;
        const here = on.get(a) ?? [];
        if (!here.some((each) => each.x === px && each.y === py)) here.push({ along, x: px, y: py });
        on.set(a, here);
      }
    }
  }
  return rings.map((_, r) => {
    const points: number[] = [];
    for (let k = starts[r]; k < starts[r + 1]; k++) {
      points.push(x[k], y[k]);
      if (whole.has(edgeKey(x[k], y[k], x[next[k]], y[next[k]]))) continue;
      for (const each of (on.get(k) ?? []).sort((a, b) => a.along - b.along)) points.push(each.x, each.y);
    }
    return Float64Array.from(points);
  });
}

/** Divide the edges of a ring that are banks. */
function footRing(ring: Ring, banks: ReadonlySet<string>, spacing: number): FootRing {
  const points: number[] = [];
  const isBank: number[] = [];
  eachEdge(ring, (ax, ay, bx, by) => {
    points.push(ax, ay);
    if (!banks.has(edgeKey(ax, ay, bx, by))) return void isBank.push(0);
    isBank.push(1);
    for (const [px, py] of between(ax, ay, bx, by, spacing)) {
      points.push(px, py);
      isBank.push(1);
    }
  });
  return {
    points: Float64Array.from(points),
    ids: new Int32Array(isBank.length),
    isBank: Uint8Array.from(isBank),
  };
}

/** Whether an edge runs along a wall: its middle and its quarters lie on walls of its direction. */
function wallTest(walls: readonly Ring[]): (ax: number, ay: number, bx: number, by: number) => boolean {
  const chains = new Chains(walls);
  if (chains.count === 0) return () => false;
  const { x, y, next } = chains;
  const grid = new EdgeGrid(chains);
  return (ax, ay, bx, by) => {
    const [dx, dy] = [bx - ax, by - ay];
    const length = Math.sqrt(dx * dx + dy * dy);
    return [0.25, 0.5, 0.75].every((share) => {
      const [px, py] = [ax + share * dx, ay + share * dy];
      const found = grid.near(px, py, px, py, ON_WALL);
      for (let f = 0; f < found; f++) {
        const r = grid.found[f];
        const [ex, ey] = [x[next[r]] - x[r], y[next[r]] - y[r]];
        if (Math.abs(dx * ey - dy * ex) > ALONG_WALL * length * Math.sqrt(ex * ex + ey * ey)) continue;
        if (squaredDistanceToSegment(px, py, x[r], y[r], x[next[r]], y[next[r]]) <= ON_WALL * ON_WALL) return true;
      }
      return false;
    });
  };
}

/**
 * Turn edges wherever that lets more of the two outlines see one another: what joins two points of the underside, and what
 * closes a bay of the top that is shallow (a deep one would make the top end hurry).
 */
function turnToSight({ x, y }: Pick<Band, 'x' | 'y'>, triangulation: Triangulation, isTop: Uint8Array): void {
  const { triangles, twins } = triangulation;
  const apart = (a: number, b: number) => Math.sqrt((x[a] - x[b]) * (x[a] - x[b]) + (y[a] - y[b]) * (y[a] - y[b]));
  for (let isMoving = true; isMoving; ) {
    isMoving = false;
    for (let e = 0; e < triangles.length; e++) {
      const twin = twins[e];
      if (twin < e) continue;
      const [a, b] = [triangles[e], triangles[twin]];
      const [left, right] = [triangles[before(e)], triangles[before(twin)]];
      if (isTop[a] !== isTop[b]) continue;
      if (isTop[a]) {
        if (isTop[left] === isTop[right]) continue;
        const bay = isTop[left] ? left : right;
        if (apart(a, bay) + apart(bay, b) > SHALLOW * apart(a, b)) continue;
      } else if (!isTop[left] && !isTop[right]) continue;
      if (triangulation.turn(e)) isMoving = true;
    }
  }
}
