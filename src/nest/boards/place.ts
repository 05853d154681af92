import type { Random } from '../../geometry/random.ts';
import type { Box } from '../../geometry/ring.ts';
import type { Posture } from './posture.ts';
import { gridUp, isFree, onGrid, type Room, reach, type Tally } from './room.ts';

/** A free position for a posture. */
export interface Spot {
  readonly posture: Posture;
  readonly x: number;
  readonly y: number;
}

/** What makes one free position better than another: least `acrossWeight` × right edge + `upWeight` × upper edge. */
export interface Rule {
  readonly acrossWeight: number;
  readonly upWeight: number;
}

/** Random positions looked at in one room; no more than the first of them where none of those was free. */
const SAMPLES = 300;
const FIRST_SAMPLES = 100;
/** Random positions looked at in one hole. */
const HOLE_SAMPLES = 24;
/** Postures that are tried at the corners left by others; the first are the promising ones. */
const CORNER_POSTURES = 8;
/** The first step of a slide, as a share of the smaller side of the box; and the last one. */
const FIRST_STEP = 0.25;
const LAST_STEP_MM = 0.05;

/**
 * The best position found in a room; null when none was. First the corners that boxes leave (exact fits are found there
 * and nowhere else), then random positions, looked at only where they could still be better; whatever is better slides
 * left and down until it touches.
 */
export function bestSpot(
  room: Room,
  postures: readonly Posture[],
  rule: Rule,
  random: Random,
  tally: Tally,
): Spot | null {
  let best: Spot | null = null;
  let least = Infinity;
  const offer = (posture: Posture, x: number, y: number, within: Box) => {
    const [slidX, slidY] = slide(room, posture, x, y, within, tally);
    const score = scoreOf(room, posture, slidX, slidY, rule);
    if (score >= least) return;
    least = score;
    best = { posture, x: slidX, y: slidY };
  };
  const reaches = postures.map((posture) => reach(room.container, posture));
  for (let p = 0; p < Math.min(postures.length, CORNER_POSTURES); p++) {
    const within = reaches[p];
    if (!within) continue;
    const found = bestCorner(room, postures[p], within, rule, least, tally);
    if (found) offer(postures[p], found[0], found[1], within);
  }
  for (let i = 0; i < (best === null ? FIRST_SAMPLES : SAMPLES); i++) {
    const p = Math.floor(random() * postures.length);
    const across = random();
    const up = random();
    const within = reaches[p];
    if (!within) continue;
    const posture = postures[p];
    const spare = least - scoreOf(room, posture, within[0], within[1], rule);
    if (spare <= 0) continue;
    const spanX = Math.min(within[2] - within[0], spare / rule.acrossWeight);
    const x = onGrid(within[0] + across * spanX);
    const left = spare - (x - within[0]) * rule.acrossWeight;
    const y = onGrid(within[1] + up * Math.min(within[3] - within[1], left / rule.upWeight));
    if (x <= within[2] && y <= within[3] && isFree(room, posture, x, y, tally)) offer(posture, x, y, within);
  }
  return best;
}

/** A position in a hole of something that stands in the room; null when none was found. Holes cost no board. */
export function spotInHole(room: Room, postures: readonly Posture[], random: Random, tally: Tally): Spot | null {
  const { shape } = postures[0];
  for (const { posture: host, x: hostX, y: hostY } of room.standing) {
    for (const { box, areaMm2, deepest } of host.holes()) {
      if (areaMm2 < shape.areaMm2 || deepest.length === 0 || 1.05 * deepest[2] < shape.inradiusMm) continue;
      const hole: Box = [box[0] + hostX, box[1] + hostY, box[2] + hostX, box[3] + hostY];
      const fitting = postures.flatMap((posture) => {
        const own = posture.grownBox;
        const within: Box = [hole[0] - own[0], hole[1] - own[1], hole[2] - own[2], hole[3] - own[3]];
        return within[0] <= within[2] && within[1] <= within[3] ? [{ posture, within }] : [];
      });
      if (fitting.length === 0) continue;
      for (let i = 0; i < fitting.length + HOLE_SAMPLES; i++) {
        const isCentred = i < fitting.length;
        const { posture, within } = fitting[isCentred ? i : Math.floor(random() * fitting.length)];
        const x = onGrid(within[0] + (isCentred ? 0.5 : random()) * (within[2] - within[0]));
        const y = onGrid(within[1] + (isCentred ? 0.5 : random()) * (within[3] - within[1]));
        const board = reach(room.container, posture);
        if (!board || x < board[0] || y < board[1] || x > board[2] || y > board[3]) continue;
        if (!isFree(room, posture, x, y, tally)) continue;
        const [slidX, slidY] = slide(room, posture, x, y, board, tally);
        return { posture, x: slidX, y: slidY };
      }
    }
  }
  return null;
}

/** The best free position whose left edge and lower edge each stand against something: the board or another's box. */
function bestCorner(
  room: Room,
  posture: Posture,
  within: Box,
  rule: Rule,
  least: number,
  tally: Tally,
): [number, number] | null {
  const xs = [within[0]];
  const ys = [within[1]];
  const own = posture.grownBox;
  for (const { posture: other, x, y } of room.standing) {
    const right = gridUp(x + other.grownBox[2] - own[0]);
    const above = gridUp(y + other.grownBox[3] - own[1]);
    if (right >= within[0] && right <= within[2]) xs.push(right);
    if (above >= within[1] && above <= within[3]) ys.push(above);
  }
  xs.sort((a, b) => a - b);
  ys.sort((a, b) => a - b);
  let found: [number, number] | null = null;
  for (const x of xs) {
    for (const y of ys) {
      const score = scoreOf(room, posture, x, y, rule);
      if (score >= least) break;
      if (!isFree(room, posture, x, y, tally)) continue;
      least = score;
      found = [x, y];
      break;
    }
  }
  return found;
}

/** Slide left and down in halving steps as long as the way is free. */
function slide(room: Room, posture: Posture, x: number, y: number, within: Box, tally: Tally): [number, number] {
  const { box } = posture;
  let step = FIRST_STEP * Math.min(box[2] - box[0], box[3] - box[1]);
  while (step >= LAST_STEP_MM) {
    const left = onGrid(Math.max(within[0], x - step));
    const low = onGrid(Math.max(within[1], y - step));
    if (left < x && isFree(room, posture, left, y, tally)) x = left;
    else if (low < y && isFree(room, posture, x, low, tally)) y = low;
    else step /= 2;
  }
  return [x, y];
}

const scoreOf = ({ container }: Room, { box }: Posture, x: number, y: number, rule: Rule): number =>
  (x + box[2] - container.box[0]) * rule.acrossWeight + (y + box[3] - container.box[1]) * rule.upWeight;
