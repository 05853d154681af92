import { type EdgeRuns, edgesMeet, isWithin, overlap } from '../../geometry/edge-runs.ts';
import type { Box } from '../../geometry/ring.ts';
import { SNAP } from '../../geometry/tolerance.ts';
import type { Posture } from './posture.ts';

/** Where shapes may lie: a rectangle, or an outline inside its box. */
export interface Container {
  readonly box: Box;
  /** null when the box is all there is. */
  readonly outline: EdgeRuns | null;
  readonly areaMm2: number;
}

/** A posture moved to (x, y). */
export interface Standing {
  readonly item: number;
  readonly posture: Posture;
  readonly x: number;
  readonly y: number;
}

/** A board that is being filled. `stock` is the number of its kind, or −1 − the number of the offcut. */
export interface Room {
  readonly stock: number;
  readonly container: Container;
  readonly standing: Standing[];
  freeMm2: number;
  /** Who was in the way last: asked first, since the next try is often near. */
  inTheWay: number;
}

/** Counts what is counted as effort: a position looked at. */
export interface Tally {
  evaluations: number;
}

/** Circles of each that are tested against each other before any edge. */
const QUICK_POLES = 4;
/** Noise of doubles that does not count when a position is put on the grid of SNAP; in steps of SNAP. */
const NOISE = 1e-6;

export const emptyRoom = (stock: number, container: Container): Room => ({
  stock,
  container,
  standing: [],
  freeMm2: container.areaMm2,
  inTheWay: 0,
});

export function stand(room: Room, standing: Standing): void {
  room.standing.push(standing);
  room.freeMm2 -= standing.posture.shape.areaMm2;
}

/** Take an item away that stands in a room. */
export function leave(room: Room, item: number): void {
  const at = room.standing.findIndex((one) => one.item === item);
  const [gone] = room.standing.splice(at, 1);
  room.freeMm2 += gone.posture.shape.areaMm2;
}

/** The one of some rooms where an item stands. */
export function roomOf(rooms: readonly Room[], item: number): Room {
  const found = rooms.find(({ standing }) => standing.some((one) => one.item === item));
  if (!found) throw new Error(`item ${item} stands nowhere`);
  return found;
}

/** The nearest position on the grid of SNAP; the next one rightward or leftward. */
export const onGrid = (v: number): number => Math.round(v / SNAP) / (1 / SNAP);
export const gridUp = (v: number): number => Math.ceil(v / SNAP - NOISE) / (1 / SNAP);
const gridDown = (v: number): number => Math.floor(v / SNAP + NOISE) / (1 / SNAP);

/** Positions at which a posture's box lies in the container's: least x, least y, largest x, largest y; null for none. */
export function reach({ box }: Container, posture: Posture): Box | null {
  const minX = gridUp(box[0] - posture.box[0]);
  const minY = gridUp(box[1] - posture.box[1]);
  const maxX = gridDown(box[2] - posture.box[2]);
  const maxY = gridDown(box[3] - posture.box[3]);
  return maxX < minX || maxY < minY ? null : [minX, minY, maxX, maxY];
}

/**
 * Whether a posture may stand at (x, y), which lies within its reach: no grown outline meets another, and it is inside
 * the container's outline. Cheapest question first: boxes, circles, edges.
 */
export function isFree(room: Room, posture: Posture, x: number, y: number, tally: Tally): boolean {
  tally.evaluations++;
  const { standing } = room;
  const first = room.inTheWay;
  if (first < standing.length && clash(standing[first], posture, x, y)) return false;
  for (let i = 0; i < standing.length; i++) {
    if (i === first || !clash(standing[i], posture, x, y)) continue;
    room.inTheWay = i;
    return false;
  }
  const { outline } = room.container;
  return outline === null || liesIn(outline, posture.bare(), x, y);
}

/** Whether a posture at (x, y) stands nearer than the gap to what stands there. */
export function clash(standing: Standing, posture: Posture, x: number, y: number): boolean {
  const dx = x - standing.x;
  const dy = y - standing.y;
  const a = standing.posture.grownBox;
  const b = posture.grownBox;
  if (b[0] + dx > a[2] || b[2] + dx < a[0] || b[1] + dy > a[3] || b[3] + dy < a[1]) return false;
  return (
    polesMeet(standing.posture.poles(), posture.poles(), dx, dy) ||
    overlap(standing.posture.grown(), posture.grown(), dx, dy)
  );
}

function polesMeet(a: Float64Array, b: Float64Array, dx: number, dy: number): boolean {
  const aTo = Math.min(a.length, 3 * QUICK_POLES);
  const bTo = Math.min(b.length, 3 * QUICK_POLES);
  for (let i = 0; i < aTo; i += 3) {
    for (let j = 0; j < bTo; j += 3) {
      const ux = b[j] + dx - a[i];
      const uy = b[j + 1] + dy - a[i + 1];
      const radii = a[i + 2] + b[j + 2];
      if (ux * ux + uy * uy < radii * radii) return true;
    }
  }
  return false;
}

/** Whether a shape at (x, y) lies in an outline: edges apart, all of its areas inside, and no hole of the outline in it. */
function liesIn(outline: EdgeRuns, shape: EdgeRuns, x: number, y: number): boolean {
  if (edgesMeet(outline, shape, x, y)) return false;
  for (let i = 0; i < shape.seeds.length; i += 2) {
    if (!isWithin(outline, shape.seeds[i] + x, shape.seeds[i + 1] + y)) return false;
  }
  // A hole of the outline that lies in the shape: one of the hole's points is then within the shape.
  for (let i = 0; i < outline.holeSeeds.length; i += 2) {
    if (isWithin(shape, outline.holeSeeds[i] - x, outline.holeSeeds[i + 1] - y)) return false;
  }
  return true;
}
