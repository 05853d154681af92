/**
 * Placing one item where it overlaps nothing, as far to the lower left as a rule says (after Burke et al. 2006 and, for the
 * holes first, Abeysooriya et al. 2018). First the corners that boxes leave (exact fits are found there and nowhere else),
 * then random places, looked at only where they could still be better; whatever is better slides left and down until it touches.
 */
import type { Random } from '../../geometry/random.ts';
import type { Box } from '../../geometry/ring.ts';
import { snapped, snappedDown, snappedUp } from '../../geometry/snap.ts';
import { type Board, type Field, isFree, isInBox, postureAt, put } from './field.ts';
import type { Posture } from './posture.ts';
import type { Pose } from './problem.ts';

/** What makes one place better than another: least `across` × right edge + `up` × upper edge. */
export interface Rule {
  readonly across: number;
  readonly up: number;
}

/** Random places looked at on one board; no more than the first of them where none of those was free. */
const SAMPLES = 300;
const FIRST_SAMPLES = 100;
/** Random places looked at in one hole. */
const HOLE_SAMPLES = 24;
/** Poses that are tried at the corners left by others; the first are the promising ones. */
const CORNER_POSES = 8;
/** The first step of a slide, as a share of the smaller side of the box; and the last one. */
const FIRST_STEP = 0.25;
const LAST_STEP = 0.001;

interface Spot {
  score: number;
  pose: Pose;
  x: number;
  y: number;
}

/** Place an item on a board. False when no place was found. */
export function placeOn(f: Field, item: number, board: number, rule: Rule, random: Random): boolean {
  const b = f.boards[board];
  const { poses } = f.shapes[f.items[item]];
  const best: Spot = { score: Infinity, pose: -1, x: 0, y: 0 };
  for (let k = 0; k < poses.length && k < CORNER_POSES; k++) {
    const p = postureAt(f, item, poses[k]);
    if (cornerOf(f, item, b, p, rule, best)) slide(f, item, b, p, rule, best);
  }
  for (let i = 0; i < (best.pose < 0 ? FIRST_SAMPLES : SAMPLES); i++) {
    const p = postureAt(f, item, poses[Math.floor(random() * poses.length)]);
    const across = random();
    const up = random();
    const x0 = snappedUp(b.minX - p.left);
    const y0 = snappedUp(b.minY - p.low);
    const spare = best.score - scoreOf(b, p, x0, y0, rule);
    if (!(spare > 0)) continue;
    const x = snapped(x0 + across * Math.min(b.maxX - p.right - x0, spare / rule.across));
    const y = snapped(y0 + up * Math.min(b.maxY - p.high - y0, (spare - (x - x0) * rule.across) / rule.up));
    if (!isInBox(b, p, x, y) || !isFree(f, item, p, b, x, y)) continue;
    best.pose = p.pose;
    best.x = x;
    best.y = y;
    slide(f, item, b, p, rule, best);
  }
  if (best.pose < 0) return false;
  put(f, item, board, best.pose, best.x, best.y);
  return true;
}

/** Place an item in a hole of something that stands on a board: holes cost no board. False when no place was found. */
export function placeInHole(f: Field, item: number, board: number, random: Random): boolean {
  const b = f.boards[board];
  const shape = f.shapes[f.items[item]];
  for (let k = 0; k < b.count; k++) {
    const host = b.items[k];
    const { holes } = f.shapes[f.items[host]];
    for (let h = 0; h < holes.length; h++) {
      const hole = holes[h];
      if (hole.areaMm2 < shape.areaMm2 || 1.05 * hole.radius < shape.inradiusMm) continue;
      if (placeInThis(f, item, board, host, h, random)) return true;
    }
  }
  return false;
}

function placeInThis(f: Field, item: number, board: number, host: number, h: number, random: Random): boolean {
  const b = f.boards[board];
  const { poses } = f.shapes[f.items[item]];
  const box = holeBox(f, host, h);
  const centred = Math.min(poses.length, HOLE_SAMPLES);
  for (let i = 0; i < centred + HOLE_SAMPLES; i++) {
    const p = postureAt(f, item, poses[i < centred ? i : Math.floor(random() * poses.length)]);
    const spareX = box[2] - box[0] - (p.maxX - p.minX);
    const spareY = box[3] - box[1] - (p.maxY - p.minY);
    if (spareX < 0 || spareY < 0) continue;
    const x = snapped(box[0] - p.minX + spareX * (i < centred ? 0.5 : random()));
    const y = snapped(box[1] - p.minY + spareY * (i < centred ? 0.5 : random()));
    if (!isInBox(b, p, x, y) || !isFree(f, item, p, b, x, y)) continue;
    const spot: Spot = { score: Infinity, pose: p.pose, x, y };
    slide(f, item, b, p, { across: 1, up: 1 }, spot);
    put(f, item, board, spot.pose, spot.x, spot.y);
    return true;
  }
  return false;
}

/** The box of a hole of a standing item. */
export function holeBox(f: Field, host: number, h: number): Box {
  const { isOuter, ends, edges } = f.postures[host];
  let ring = isOuter.indexOf(false);
  for (let hole = 0; hole < h && ring >= 0; hole++) ring = isOuter.indexOf(false, ring + 1);
  if (ring < 0) throw new Error(`shape has no hole ${h}`);
  let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity];
  for (let i = ring > 0 ? ends[ring - 1] : 0; i < ends[ring]; i += 2) {
    minX = Math.min(minX, edges[i]);
    maxX = Math.max(maxX, edges[i]);
    minY = Math.min(minY, edges[i + 1]);
    maxY = Math.max(maxY, edges[i + 1]);
  }
  return [minX + f.x[host], minY + f.y[host], maxX + f.x[host], maxY + f.y[host]];
}

/** The best free place whose left edge and lower edge each stand against something: the board or another's box. */
function cornerOf(f: Field, item: number, b: Board, p: Posture, rule: Rule, best: Spot): boolean {
  const x0 = snappedUp(b.minX - p.left);
  const y0 = snappedUp(b.minY - p.low);
  const x1 = snappedDown(b.maxX - p.right);
  const y1 = snappedDown(b.maxY - p.high);
  if (x0 > x1 || y0 > y1 || scoreOf(b, p, x0, y0, rule) >= best.score) return false;
  const xs = [x0];
  const ys = [y0];
  for (let k = 0; k < b.count; k++) {
    const right = snappedUp(b.boxes[4 * k + 2] - p.minX);
    const above = snappedUp(b.boxes[4 * k + 3] - p.minY);
    if (right >= x0 && right <= x1) xs.push(right);
    if (above >= y0 && above <= y1) ys.push(above);
  }
  // Many alike stand in rows: each place once.
  const across = [...new Set(xs)].sort((a, c) => a - c);
  const up = [...new Set(ys)].sort((a, c) => a - c);
  let found = false;
  for (const x of across) {
    for (const y of up) {
      const score = scoreOf(b, p, x, y, rule);
      if (score >= best.score) break;
      if (!isFree(f, item, p, b, x, y)) continue;
      best.score = score;
      best.pose = p.pose;
      best.x = x;
      best.y = y;
      found = true;
      break;
    }
  }
  return found;
}

/** Slide left and down in halving steps as long as the way is free. */
function slide(f: Field, item: number, b: Board, p: Posture, rule: Rule, spot: Spot): void {
  const x0 = snappedUp(b.minX - p.left);
  const y0 = snappedUp(b.minY - p.low);
  const side = Math.min(p.right - p.left, p.high - p.low);
  let { x, y } = spot;
  for (let step = FIRST_STEP * side; step >= LAST_STEP * side; ) {
    const left = snapped(Math.max(x0, x - step));
    const low = snapped(Math.max(y0, y - step));
    if (left < x && isFree(f, item, p, b, left, y)) x = left;
    else if (low < y && isFree(f, item, p, b, x, low)) y = low;
    else step /= 2;
  }
  spot.x = x;
  spot.y = y;
  spot.score = scoreOf(b, p, x, y, rule);
}

const scoreOf = (b: Board, p: Posture, x: number, y: number, { across, up }: Rule): number =>
  (x + p.right - b.minX) * across + (y + p.high - b.minY) * up;
