/**
 * One move: the place where an item meets others least (Gardeyn, Vanden Berghe, Wauters 2025, arXiv 2509.13329). Many places
 * are looked at, on any board and near its own; the best few are refined step by step along x, y, a diagonal or the turn.
 * Every place is clamped to where the box lies in the board, which also finds exact fits to its edges; random places never do.
 */
import type { Random } from '../../geometry/random.ts';
import { snapped, snappedUp } from '../../geometry/snap.ts';
import { type Field, isInBox, lift, loadAt, loadNow, note, postureAt, put } from './field.ts';
import type { Posture } from './posture.ts';
import { type Pose, WHOLE_TURN } from './problem.ts';
import { alignment, type Shift } from './snap.ts';

/** How much is looked at in a move. */
export interface Looks {
  /** Places anywhere; places near its own. */
  readonly wide: number;
  readonly near: number;
}

export const LOOKS: Looks = { wide: 40, near: 20 };

/** The best so many are refined; those nearer to each other than this share of the smaller side count as one. */
const REFINED = 3;
const APART = 0.1;
/** Near is within this share of the smaller side; a near turn within this many hundredths of a degree. */
const NEARBY = 0.6;
const NEAR_TURN = 2000;
/** Steps of refining as shares of the smaller side: of each of the best few, then of the best of all. */
const FIRST_STEP = 0.1;
const ROUGH_STEP = 0.01;
const LAST_STEP = 0.0005;
/** Shifts for an exact fit are at most this share of the smaller side. */
const SNAP_REACH = 0.02;
const LONGER = 1.1;
const SHORTER = 0.5;
/** Hundredths of a degree of a turn that moves the rim of a shape by its radius. */
const RADIAN = 5729.578;

/** The best places seen so far, the best first. */
export interface Shortlist {
  count: number;
  readonly load: Float64Array;
  readonly board: Int32Array;
  readonly pose: Int32Array;
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly shift: Shift;
}

export const shortlist = (): Shortlist => ({
  count: 0,
  load: new Float64Array(REFINED + 1),
  board: new Int32Array(REFINED + 1),
  pose: new Int32Array(REFINED + 1),
  x: new Float64Array(REFINED + 1),
  y: new Float64Array(REFINED + 1),
  shift: { x: 0, y: 0 },
});

/**
 * Move an item to the best place that is found, if that is better than its own; an item that stands nowhere is stood at the
 * best found. Returns whether it moved. Its pairs are noted anew.
 */
export function move(f: Field, item: number, random: Random, list: Shortlist, looks: Looks = LOOKS): boolean {
  const from = f.on[item];
  const start = from < 0 ? Infinity : loadNow(f, item);
  if (start === 0) return false;
  list.count = 0;
  look(f, item, random, list, looks, start);
  if (list.count === 0 || !(list.load[0] < start)) return false;
  if (from >= 0) lift(f, item);
  put(f, item, list.board[0], list.pose[0], list.x[0], list.y[0]);
  note(f, item);
  return true;
}

function look(f: Field, item: number, random: Random, list: Shortlist, looks: Looks, start: number): void {
  const own = f.on[item];
  const { poses, turnsFreely } = f.shapes[f.items[item]];
  for (let i = 0; i < looks.wide; i++) {
    const board = own >= 0 && (i % 2 === 0 || f.boards.length === 1) ? own : roomy(f, random);
    const pose =
      turnsFreely && i % 2 === 1
        ? Math.floor(random() * WHOLE_TURN) + WHOLE_TURN * Math.floor(poses[0] / WHOLE_TURN)
        : poses[Math.floor(random() * poses.length)];
    const b = f.boards[board];
    const p = postureAt(f, item, pose);
    const x0 = snappedUp(b.minX - p.left);
    const y0 = snappedUp(b.minY - p.low);
    const x = snapped(x0 + random() * (b.maxX - p.right - x0));
    const y = snapped(y0 + random() * (b.maxY - p.high - y0));
    offer(f, item, list, board, p, x, y);
    if (list.count > 0 && list.load[0] === 0) return;
  }
  if (own >= 0) {
    const here = f.postures[item];
    const span = 2 * NEARBY * smallerSide(here);
    const hereX = f.x[item];
    const hereY = f.y[item];
    keep(list, start, own, here.pose, hereX, hereY, APART * smallerSide(here));
    for (let i = 0; i < looks.near; i++) {
      let { pose } = here;
      if (turnsFreely) {
        if (i % 2 === 1) pose = turned(pose, (random() - 0.5) * 2 * NEAR_TURN);
      } else if (i % 4 === 3) pose = poses[Math.floor(random() * poses.length)];
      const p = postureAt(f, item, pose);
      const x = hereX + middleX(here) - middleX(p) + span * (random() - 0.5);
      const y = hereY + middleY(here) - middleY(p) + span * (random() - 0.5);
      offerClamped(f, item, list, own, p, x, y);
      if (list.load[0] === 0) return;
    }
  }
  const count = list.count;
  for (let k = 0; k < count; k++) {
    refine(f, item, random, list, k, FIRST_STEP, ROUGH_STEP);
    if (list.load[k] === 0) {
      copy(list, k, 0);
      return;
    }
  }
  let best = 0;
  for (let k = 1; k < count; k++) if (list.load[k] < list.load[best]) best = k;
  copy(list, best, 0);
  if (count === 0) return;
  refine(f, item, random, list, 0, ROUGH_STEP, LAST_STEP);
  if (list.load[0] > 0) snap(f, item, list);
}

/** The roomier of two boards drawn at random. */
function roomy(f: Field, random: Random): number {
  const { boards } = f;
  const one = Math.floor(random() * boards.length);
  const other = Math.floor(random() * boards.length);
  return boards[one].areaMm2 - boards[one].usedMm2 >= boards[other].areaMm2 - boards[other].usedMm2 ? one : other;
}

function offerClamped(f: Field, item: number, list: Shortlist, board: number, p: Posture, x: number, y: number): void {
  const b = f.boards[board];
  offer(
    f,
    item,
    list,
    board,
    p,
    snapped(Math.max(b.minX - p.left, Math.min(b.maxX - p.right, x))),
    snapped(Math.max(b.minY - p.low, Math.min(b.maxY - p.high, y))),
  );
}

/** Look at a place, and keep it when it is among the best. */
function offer(f: Field, item: number, list: Shortlist, board: number, p: Posture, x: number, y: number): void {
  const b = f.boards[board];
  if (!isInBox(b, p, x, y)) return;
  const limit = list.count < REFINED ? Infinity : list.load[REFINED - 1];
  const load = loadAt(f, item, p, b, x, y, limit);
  if (load < limit) keep(list, load, board, p.pose, x, y, APART * smallerSide(p));
}

function keep(list: Shortlist, load: number, board: number, pose: Pose, x: number, y: number, apart: number): void {
  let end = list.count;
  for (let k = 0; k < list.count; k++) {
    if (list.board[k] !== board || list.pose[k] !== pose) continue;
    if (Math.abs(list.x[k] - x) > apart || Math.abs(list.y[k] - y) > apart) continue;
    if (list.load[k] <= load) return;
    end = k;
    break;
  }
  let at = end;
  while (at > 0 && list.load[at - 1] > load) {
    copy(list, at - 1, at);
    at--;
  }
  list.load[at] = load;
  list.board[at] = board;
  list.pose[at] = pose;
  list.x[at] = x;
  list.y[at] = y;
  if (end === list.count && list.count < REFINED) list.count++;
}

function copy(list: Shortlist, from: number, to: number): void {
  list.load[to] = list.load[from];
  list.board[to] = list.board[from];
  list.pose[to] = list.pose[from];
  list.x[to] = list.x[from];
  list.y[to] = list.y[from];
}

/** Steps to and fro along a way drawn at random: longer after a gain, shorter without, until they are `last` long. */
function refine(f: Field, item: number, random: Random, list: Shortlist, k: number, first: number, last: number): void {
  const shape = f.shapes[f.items[item]];
  const b = f.boards[list.board[k]];
  let pose = list.pose[k];
  let p = postureAt(f, item, pose);
  let x = list.x[k];
  let y = list.y[k];
  let load = list.load[k];
  const side = smallerSide(p);
  const ways = shape.turnsFreely ? 5 : 4;
  for (let step = first * side; step >= last * side && load > 0; ) {
    const way = Math.floor(random() * ways);
    // Looking at a turn may turn p away: what is needed of it is taken before.
    const atX = x + middleX(p);
    const atY = y + middleY(p);
    let gained = false;
    for (let sign = 1; sign >= -1; sign -= 2) {
      const by = sign * step;
      let q = p;
      let tx = x;
      let ty = y;
      if (way === 4) {
        q = postureAt(f, item, turned(pose, (by * RADIAN) / (shape.diameterMm / 2)));
        tx = atX - middleX(q);
        ty = atY - middleY(q);
      } else {
        if (way !== 1) tx += by;
        if (way !== 0) ty += way === 3 ? -by : by;
      }
      tx = snapped(Math.max(b.minX - q.left, Math.min(b.maxX - q.right, tx)));
      ty = snapped(Math.max(b.minY - q.low, Math.min(b.maxY - q.high, ty)));
      if ((tx === x && ty === y && q.pose === pose) || !isInBox(b, q, tx, ty)) continue;
      const now = loadAt(f, item, q, b, tx, ty, load);
      if (!(now < load)) continue;
      pose = q.pose;
      x = tx;
      y = ty;
      load = now;
      gained = true;
      break;
    }
    step *= gained ? LONGER : SHORTER;
    if (way === 4) p = postureAt(f, item, pose);
  }
  list.pose[k] = pose;
  list.x[k] = x;
  list.y[k] = y;
  list.load[k] = load;
}

/** Try the places nearest to the best one at which something is in line with a neighbour. */
function snap(f: Field, item: number, list: Shortlist): void {
  const b = f.boards[list.board[0]];
  const p = postureAt(f, item, list.pose[0]);
  const { shift } = list;
  alignment(f, item, p, b, list.x[0], list.y[0], SNAP_REACH * smallerSide(p), shift);
  const x = snapped(list.x[0] + shift.x);
  const y = snapped(list.y[0] + shift.y);
  for (let way = 1; way <= 3; way++) {
    const tx = way === 2 ? list.x[0] : x;
    const ty = way === 1 ? list.y[0] : y;
    if (!isInBox(b, p, tx, ty)) continue;
    const load = loadAt(f, item, p, b, tx, ty, list.load[0]);
    if (!(load < list.load[0])) continue;
    list.x[0] = tx;
    list.y[0] = ty;
    list.load[0] = load;
    if (load === 0) return;
  }
}

function turned(pose: Pose, by: number): Pose {
  const mirrored = pose >= WHOLE_TURN ? WHOLE_TURN : 0;
  const sum = Math.round(pose - mirrored + by) % WHOLE_TURN;
  return (sum < 0 ? sum + WHOLE_TURN : sum) + mirrored;
}

const smallerSide = (p: Posture): number => Math.min(p.right - p.left, p.high - p.low);
const middleX = (p: Posture): number => (p.left + p.right) / 2;
const middleY = (p: Posture): number => (p.low + p.high) / 2;
