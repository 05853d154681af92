import type { Random } from '../../geometry/random.ts';
import type { Lane } from './lane.ts';
import { loadAt, type PairWeights } from './overlap.ts';
import type { Posture } from './posture.ts';
import { onGrid, type Room, reach, type Standing } from './room.ts';
import { wholeTurn } from './turns.ts';

/** A place for an item, with what it would overlap there. */
export interface Move {
  readonly room: Room;
  readonly standing: Standing;
  readonly load: number;
}

/** Places looked at on any board, and near where the item stands; how many of the best are refined. */
const WIDE = 40;
const NEAR = 15;
const REFINED = 3;
/** Near is within this share of the smaller side of the box. */
const NEARBY = 0.6;
/** Refining: first and last step as shares of the smaller side, and what success and failure make of it. */
const FIRST_STEP = 0.08;
const LAST_STEP = 0.001;
const LONGER = 1.1;
const SHORTER = 0.5;
/** Turns found on the way are multiples of this: shapes are made at each turn, and are soon met again. */
const TURN_DEG = 0.2;
/** Degrees of a circle per length of an arc in radii. */
const DEG = 57.29578;

/**
 * The place of least weighted overlap that is found for an item: where it stands, anywhere, nearby, in holes; the best of
 * them refined step by step (Gardeyn, Vanden Berghe, Wauters 2025). Null when it had better stay.
 * @param from where it stands now; null when it stands nowhere
 */
export function bestMove(
  lane: Lane,
  rooms: readonly Room[],
  from: Room | null,
  item: number,
  weights: PairWeights,
): Move | null {
  const { random, tally } = lane;
  const present = from?.standing.find((one) => one.item === item);
  const start = from && present ? loadAt(from, present, weights, Infinity, tally) : Infinity;
  if (start === 0) return null;
  const kept: Move[] = [];
  const offer = (room: Room, standing: Standing | null) => {
    if (!standing) return;
    const limit = kept.length < REFINED ? Infinity : kept[REFINED - 1].load;
    const load = loadAt(room, standing, weights, limit, tally);
    if (load >= limit) return;
    kept.push({ room, standing, load });
    kept.sort((a, b) => a.load - b.load);
    if (kept.length > REFINED) kept.pop();
  };
  const postures = lane.posturesOf(item);
  for (let i = 0; i < WIDE && !(kept[0]?.load === 0); i++) {
    const room = from && i % 2 === 0 ? from : roomy(rooms, random);
    const posture = postures[Math.floor(random() * postures.length)];
    offer(room, (i % 4 === 1 && inHole(room, item, posture, random)) || anywhere(room, item, posture, random));
  }
  if (from && present) {
    kept.push({ room: from, standing: present, load: start });
    kept.sort((a, b) => a.load - b.load);
    for (let i = 0; i < NEAR && kept[0].load > 0; i++) offer(from, nearby(from, present, random));
  }
  let best: Move | null = null;
  for (const candidate of kept) {
    if (best?.load === 0) break;
    const refined = refine(lane, candidate, weights);
    if (!best || refined.load < best.load) best = refined;
  }
  return best && best.load < start ? best : null;
}

/** The roomier of two boards drawn at random. */
function roomy(rooms: readonly Room[], random: Random): Room {
  const one = rooms[Math.floor(random() * rooms.length)];
  const other = rooms[Math.floor(random() * rooms.length)];
  return one.freeMm2 >= other.freeMm2 ? one : other;
}

function anywhere({ container }: Room, item: number, posture: Posture, random: Random): Standing | null {
  const across = random();
  const up = random();
  const within = reach(container, posture);
  if (!within) return null;
  const x = onGrid(within[0] + across * (within[2] - within[0]));
  const y = onGrid(within[1] + up * (within[3] - within[1]));
  return { item, posture, x, y };
}

/** With the middle of its box on the deepest point of a hole that is large enough. */
function inHole({ container, standing }: Room, item: number, posture: Posture, random: Random): Standing | null {
  const fitting = standing.flatMap(({ posture: host, x, y, item: other }) =>
    other === item
      ? []
      : host
          .holes()
          .flatMap(({ areaMm2, deepest }) =>
            areaMm2 > posture.shape.areaMm2 && deepest.length > 0 ? [[x + deepest[0], y + deepest[1]]] : [],
          ),
  );
  const within = reach(container, posture);
  if (fitting.length === 0 || !within) return null;
  const [x, y] = fitting[Math.floor(random() * fitting.length)];
  const { box } = posture;
  return { item, posture, ...inside(x - (box[0] + box[2]) / 2, y - (box[1] + box[3]) / 2, within) };
}

function nearby({ container }: Room, { item, posture, x, y }: Standing, random: Random): Standing | null {
  const span = 2 * NEARBY * smallerSide(posture);
  const across = random() - 0.5;
  const up = random() - 0.5;
  const within = reach(container, posture);
  return within && { item, posture, ...inside(x + span * across, y + span * up, within) };
}

/** Steps along x, y, a diagonal or the turn, to and fro: longer after a gain, shorter without, until there is no overlap. */
function refine(lane: Lane, from: Move, weights: PairWeights): Move {
  const { random, tally } = lane;
  const { room } = from;
  let { standing, load } = from;
  const side = smallerSide(standing.posture);
  for (let step = FIRST_STEP; step >= LAST_STEP && load > 0; ) {
    const way = Math.floor(random() * (lane.input.turnsFreely ? 5 : 4));
    let gained = false;
    for (const sign of [1, -1]) {
      const moved = stepped(lane, room, standing, way, sign * step * side);
      if (!moved) continue;
      const now = loadAt(room, moved, weights, load, tally);
      if (now >= load) continue;
      standing = moved;
      load = now;
      gained = true;
      break;
    }
    step *= gained ? LONGER : SHORTER;
  }
  return { room, standing, load };
}

/** A step along x (0), y (1), a diagonal (2, 3), or as far at the rim of a turn about the middle of the box (4). */
function stepped(lane: Lane, { container }: Room, from: Standing, way: number, by: number): Standing | null {
  const { item, x, y } = from;
  if (way < 4) {
    const within = reach(container, from.posture);
    const up = way === 0 ? 0 : way === 3 ? -by : by;
    return within && { item, posture: from.posture, ...inside(way === 1 ? x : x + by, y + up, within) };
  }
  const wanted = from.posture.turnDeg + (by * DEG) / (from.posture.shape.diameterMm / 2);
  const turnDeg = wholeTurn(Math.round(wanted / TURN_DEG) * TURN_DEG);
  const posture = lane.postureAt(item, turnDeg);
  const within = reach(container, posture);
  const [fromX, fromY] = middle(from.posture);
  const [toX, toY] = middle(posture);
  return within && { item, posture, ...inside(x + fromX - toX, y + fromY - toY, within) };
}

const middle = ({ box }: Posture) => [(box[0] + box[2]) / 2, (box[1] + box[3]) / 2];

const smallerSide = ({ box }: Posture): number => Math.min(box[2] - box[0], box[3] - box[1]);

const inside = (x: number, y: number, within: readonly [number, number, number, number]) => ({
  x: onGrid(Math.min(within[2], Math.max(within[0], x))),
  y: onGrid(Math.min(within[3], Math.max(within[1], y))),
});
