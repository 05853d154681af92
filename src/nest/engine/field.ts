/**
 * What stands where, while it is being searched: boards, the items on them, how badly each two meet and what that weighs.
 * Items may overlap here. Flat arrays, changed in place; `packing.ts` turns it into plain data and back.
 *
 * For each board the boxes of what stands on it lie side by side in one array: up to a hundred items a scan of them is
 * quicker than any index (a box is asked in about 1 ns).
 */

import { snappedDown, snappedUp } from '../../geometry/snap.ts';
import { circlesMeet, type Nearby, nearbyFor, outlinesMeet } from './collision.ts';
import { liesIn, type Odd, oddOf, severityOutside } from './odd.ts';
import { blankPosture, keptPostures, type Posture, turnTo } from './posture.ts';
import type { Container, Pose, Shape } from './problem.ts';
import { severity } from './severity.ts';

/** A container in use. */
export interface Board {
  /** The number of its kind, or −1 − the number of the owned container. */
  readonly stock: number;
  readonly odd: Odd | null;
  readonly minX: number;
  readonly minY: number;
  /** The only sides that are ever moved: those of a strip. */
  maxX: number;
  maxY: number;
  readonly areaMm2: number;
  /** Of the items on it. */
  usedMm2: number;
  count: number;
  /** The items on it, in no order that means anything. */
  readonly items: Int32Array;
  /** Least x, least y, largest x, largest y of each of them, grown. */
  readonly boxes: Float64Array;
}

export interface Field {
  readonly shapes: readonly Shape[];
  /** The shape of each item. */
  readonly items: readonly number[];
  readonly boards: Board[];
  /** Of each item: the place of its board in `boards`, −1 when it stands nowhere; its place on it; where and how it stands. */
  readonly on: Int32Array;
  readonly slot: Int32Array;
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly postures: Posture[];
  /** 1 for items that are never moved. */
  readonly isFixed: Uint8Array;
  /** How badly each two meet: n × n, symmetric; and each with the outside of its board. 0 where they are free. */
  readonly severities: Float64Array;
  readonly outside: Float64Array;
  /** What that weighs, at least 1 (weights.ts). */
  readonly weights: Float64Array;
  readonly outsideWeights: Float64Array;
  /** Positions looked at; and those of them at which some box was met. */
  evaluations: number;
  reached: number;
  readonly kept: readonly ReadonlyMap<Pose, Posture>[];
  readonly loose: readonly Posture[][];
  readonly own: (Posture | undefined)[];
  readonly nearby: Nearby;
}

/** A field without boards. O(items²) memory. */
export function fieldOf(shapes: readonly Shape[], items: readonly number[]): Field {
  const n = items.length;
  const kept = shapes.map(keptPostures);
  // Cut to a box an outline may have more edges than it has, or fewer than turned otherwise.
  const mostEdges = Math.max(
    0,
    ...shapes.map(({ grown }) => grown.reduce((sum, ring) => sum + ring.length / 2, 0)),
    ...kept.flatMap((map) => [...map.values()].map(({ edges }) => edges.length / 4)),
  );
  return {
    shapes,
    items,
    boards: [],
    on: new Int32Array(n).fill(-1),
    slot: new Int32Array(n),
    x: new Float64Array(n),
    y: new Float64Array(n),
    postures: items.map((shape) => kept[shape].get(shapes[shape].poses[0]) as Posture),
    isFixed: new Uint8Array(n),
    severities: new Float64Array(n * n),
    outside: new Float64Array(n),
    weights: new Float64Array(n * n).fill(1),
    outsideWeights: new Float64Array(n).fill(1),
    evaluations: 0,
    reached: 0,
    kept,
    loose: shapes.map((shape) => (shape.turnsFreely ? [blankPosture(shape), blankPosture(shape)] : [])),
    own: new Array(n).fill(undefined),
    nearby: nearbyFor(mostEdges),
  };
}

/** Add an empty board. Returns its place. */
export function addBoard(f: Field, stock: number, container: Container): number {
  const [minX, minY, maxX, maxY] = container.box;
  f.boards.push({
    stock,
    odd: oddOf(container),
    minX,
    minY,
    maxX,
    maxY,
    areaMm2: container.areaMm2,
    usedMm2: 0,
    count: 0,
    items: new Int32Array(f.items.length),
    boxes: new Float64Array(4 * f.items.length),
  });
  return f.boards.length - 1;
}

/** The posture of an item's shape at a pose, to be looked at: the second next call for that shape may turn it away. */
export function postureAt(f: Field, item: number, pose: Pose): Posture {
  const shape = f.items[item];
  const kept = f.kept[shape].get(pose);
  if (kept) return kept;
  const loose = f.loose[shape];
  if (loose[0].pose === pose) return loose[0];
  // The one used last comes first, so that a step to and fro turns only one of the two.
  const other = loose[1];
  loose[1] = loose[0];
  loose[0] = other;
  return other.pose === pose ? other : turnTo(other, pose);
}

/** Stand an item on a board. It must stand nowhere. */
export function put(f: Field, item: number, board: number, pose: Pose, x: number, y: number): void {
  const shape = f.items[item];
  const p = f.kept[shape].get(pose) ?? turnTo((f.own[item] ??= blankPosture(f.shapes[shape])), pose);
  const b = f.boards[board];
  const at = b.count++;
  f.postures[item] = p;
  f.on[item] = board;
  f.slot[item] = at;
  f.x[item] = x;
  f.y[item] = y;
  b.items[at] = item;
  b.boxes[4 * at] = p.minX + x;
  b.boxes[4 * at + 1] = p.minY + y;
  b.boxes[4 * at + 2] = p.maxX + x;
  b.boxes[4 * at + 3] = p.maxY + y;
  b.usedMm2 += p.shape.areaMm2;
}

/** Take an item off its board. How badly it meets others stays as it was noted. */
export function lift(f: Field, item: number): void {
  const b = f.boards[f.on[item]];
  const at = f.slot[item];
  const last = --b.count;
  if (at !== last) {
    b.items[at] = b.items[last];
    b.boxes.copyWithin(4 * at, 4 * last, 4 * last + 4);
    f.slot[b.items[at]] = at;
  }
  f.on[item] = -1;
  b.usedMm2 -= f.shapes[f.items[item]].areaMm2;
}

/** Whether a shape's box lies in that of the board. */
export const isInBox = (b: Board, p: Posture, x: number, y: number): boolean =>
  x >= snappedUp(b.minX - p.left) &&
  y >= snappedUp(b.minY - p.low) &&
  x <= snappedDown(b.maxX - p.right) &&
  y <= snappedDown(b.maxY - p.high);

/** Whether a posture may stand at (x, y) on a board, within its reach: the exact question. The item itself is not in its own way. */
export function isFree(f: Field, item: number, p: Posture, board: Board, x: number, y: number): boolean {
  f.evaluations++;
  const { boxes, items, count } = board;
  const minX = p.minX + x;
  const minY = p.minY + y;
  const maxX = p.maxX + x;
  const maxY = p.maxY + y;
  let met = 0;
  for (let k = 0, at = 0; k < count; k++, at += 4) {
    if (boxes[at] > maxX || boxes[at + 2] < minX || boxes[at + 1] > maxY || boxes[at + 3] < minY) continue;
    const other = items[k];
    if (other === item) continue;
    met = 1;
    const o = f.postures[other];
    const dx = x - f.x[other];
    const dy = y - f.y[other];
    if (circlesMeet(o, p, dx, dy) || outlinesMeet(o, p, dx, dy, f.nearby)) {
      f.reached++;
      return false;
    }
  }
  f.reached += met;
  return board.odd === null || liesIn(board.odd, p, x, y);
}

/** What an item standing so would weigh: how badly it meets what is there, times the weights. Infinity once it reaches `limit`. */
export function loadAt(f: Field, item: number, p: Posture, board: Board, x: number, y: number, limit: number): number {
  f.evaluations++;
  const { boxes, items, count } = board;
  const minX = p.minX + x;
  const minY = p.minY + y;
  const maxX = p.maxX + x;
  const maxY = p.maxY + y;
  const row = item * f.items.length;
  let sum = 0;
  let met = 0;
  for (let k = 0, at = 0; k < count; k++, at += 4) {
    if (boxes[at] > maxX || boxes[at + 2] < minX || boxes[at + 1] > maxY || boxes[at + 3] < minY) continue;
    const other = items[k];
    if (other === item) continue;
    met = 1;
    const o = f.postures[other];
    const dx = x - f.x[other];
    const dy = y - f.y[other];
    if (!circlesMeet(o, p, dx, dy) && !outlinesMeet(o, p, dx, dy, f.nearby)) continue;
    const weight = f.weights[row + other];
    sum += weight * severity(o, p, dx, dy, (limit - sum) / weight);
    if (sum >= limit) {
      f.reached++;
      return Infinity;
    }
  }
  f.reached += met;
  if (board.odd !== null && !liesIn(board.odd, p, x, y)) {
    sum += f.outsideWeights[item] * severityOutside(board.odd, p, x, y);
    if (sum >= limit) return Infinity;
  }
  return sum;
}

/** Note how badly an item meets all others where it stands. Pairs of fixed items are free. */
export function note(f: Field, item: number): void {
  const n = f.items.length;
  const { severities } = f;
  const row = item * n;
  for (let j = 0; j < n; j++) {
    if (severities[row + j] === 0) continue;
    severities[row + j] = 0;
    severities[j * n + item] = 0;
  }
  f.outside[item] = 0;
  if (f.on[item] < 0) return;
  const board = f.boards[f.on[item]];
  const p = f.postures[item];
  const x = f.x[item];
  const y = f.y[item];
  const { boxes, items, count } = board;
  const own = 4 * f.slot[item];
  for (let k = 0, at = 0; k < count; k++, at += 4) {
    if (
      boxes[at] > boxes[own + 2] ||
      boxes[at + 2] < boxes[own] ||
      boxes[at + 1] > boxes[own + 3] ||
      boxes[at + 3] < boxes[own + 1]
    )
      continue;
    const other = items[k];
    if (other === item || (f.isFixed[item] === 1 && f.isFixed[other] === 1)) continue;
    const o = f.postures[other];
    const dx = x - f.x[other];
    const dy = y - f.y[other];
    if (!circlesMeet(o, p, dx, dy) && !outlinesMeet(o, p, dx, dy, f.nearby)) continue;
    const bad = severity(o, p, dx, dy, Infinity);
    severities[row + other] = bad;
    severities[other * n + item] = bad;
  }
  if (board.odd !== null && f.isFixed[item] === 0 && !liesIn(board.odd, p, x, y)) {
    f.outside[item] = severityOutside(board.odd, p, x, y);
  }
}

/** Note all items anew. */
export function noteAll(f: Field): void {
  f.severities.fill(0);
  for (let i = 0; i < f.items.length; i++) note(f, i);
}

/** How badly everything meets, in all, unweighted. 0: all is free. */
export function total(f: Field): number {
  const n = f.items.length;
  let sum = 0;
  for (let i = 0; i < n; i++) {
    sum += f.outside[i];
    for (let j = 0, at = i * n; j < i; j++) sum += f.severities[at + j];
  }
  return sum;
}

/** Whether an item meets anything. */
export function meets(f: Field, item: number): boolean {
  if (f.outside[item] > 0) return true;
  const n = f.items.length;
  for (let j = 0, at = item * n; j < n; j++) if (f.severities[at + j] > 0) return true;
  return false;
}

/** What an item weighs where it stands. */
export function loadNow(f: Field, item: number): number {
  const n = f.items.length;
  const row = item * n;
  let sum = f.outside[item] * f.outsideWeights[item];
  for (let j = 0; j < n; j++) if (f.severities[row + j] > 0) sum += f.severities[row + j] * f.weights[row + j];
  return sum;
}
