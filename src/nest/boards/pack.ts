import type { Random } from '../../geometry/random.ts';
import type { Reply } from '../../plugin.ts';
import { eliminate } from './eliminate.ts';
import {
  inOrder,
  LANES,
  type Lane,
  LEAST_PER_TRY,
  laneOf,
  type PackInput,
  place,
  quotaOf,
  restored,
  trimmed,
} from './lane.ts';
import { compareRanks, type Packing, packingOf, rankOf } from './packing.ts';
import { emptyRoom, type Room } from './room.ts';

export interface PackResult {
  readonly packing: Packing;
  readonly evaluations: number;
}

/** How much the order of one try is shaken: weights are multiplied by 1 ± this. */
const SHAKE = 0.35;

/** A lane's own work yields its progress, never lanes. */
type Lap<T> = Generator<number, T, Reply>;

/**
 * Pack items on boards: from empty boards in the lane's order; or improve on a packing, most lanes by doing without a
 * board and moving apart what then overlaps, the last by taking boards apart and packing them again.
 */
export function* pack(input: PackInput): Lap<PackResult> {
  const lane = laneOf(input);
  const better = input.lane < LANES - 1 ? eliminate : improve;
  const packing = yield* input.from === null ? begin(lane) : better(lane, input.from);
  return { packing, evaluations: lane.tally.evaluations };
}

function* begin(lane: Lane): Lap<Packing> {
  const { kinds, offcuts, items } = lane.input;
  const rooms = offcuts.map((container, i) => emptyRoom(-1 - i, container));
  const order = inOrder(
    items.map((_, item) => item),
    lane.weightOf,
  );
  const left: number[] = [];
  for (const [done, item] of order.entries()) {
    if (!place(lane, rooms, item)) left.push(item);
    yield (done + 1) / order.length;
  }
  return packingOf(trimmed(lane, rooms), left, kinds);
}

/**
 * Take the board that is nearest to being saved, and one or two others, apart, and pack what was on them again in a
 * shaken order, the doomed board's room last. What is not worse is kept.
 */
function* improve(lane: Lane, from: Packing): Lap<Packing> {
  const { kinds } = lane.input;
  const quota = quotaOf(lane);
  let rooms = restored(lane, from);
  let left = from.left;
  let rank = rankOf(rooms, left.length, kinds);
  while (lane.tally.evaluations < quota && rooms.length > 0) {
    const before = lane.tally.evaluations;
    const apart = choose(rooms, lane.random);
    const shaken = (item: number) => lane.weightOf(item) * (1 + SHAKE * (2 * lane.random() - 1));
    const items = inOrder([...apart.flatMap(({ standing }) => standing.map(({ item }) => item)), ...left], shaken);
    const kept = rooms
      .filter((room) => !apart.includes(room))
      .map((room) => ({ ...room, standing: [...room.standing] }));
    const [doomed, ...others] = apart.map(({ stock, container }) => emptyRoom(stock, container));
    const tried = [
      ...kept.filter(({ stock }) => stock < 0),
      ...others,
      ...kept.filter(({ stock }) => stock >= 0),
      doomed,
    ];
    const unplaced = items.filter((item) => !place(lane, tried, item));
    const now = trimmed(lane, tried);
    const nowRank = rankOf(now, unplaced.length, kinds);
    if (compareRanks(nowRank, rank) <= 0) {
      rooms = now;
      left = unplaced;
      rank = nowRank;
    }
    // A try that finds its places at once costs time all the same.
    lane.tally.evaluations = Math.max(lane.tally.evaluations, before + LEAST_PER_TRY);
    yield Math.min(1, lane.tally.evaluations / quota);
  }
  return packingOf(rooms, left, kinds);
}

/** Rooms to take apart, the one to be saved first: mostly the emptiest bought board, and one or two at random. */
function choose(rooms: readonly Room[], random: Random): Room[] {
  const fill = ({ freeMm2, container }: Room) => 1 - freeMm2 / container.areaMm2;
  const bought = rooms.filter(({ stock }) => stock >= 0).sort((a, b) => fill(a) - fill(b));
  const among = bought.length > 0 ? bought : [...rooms];
  const chosen = [among[Math.floor(random() * random() * random() * among.length)]];
  const more = 1 + Math.floor(random() * 2);
  for (let i = 0; i < more; i++) {
    const other = rooms[Math.floor(random() * rooms.length)];
    if (!chosen.includes(other)) chosen.push(other);
  }
  return chosen;
}
