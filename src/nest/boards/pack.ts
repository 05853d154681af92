import type { Random } from '../../geometry/random.ts';
import { eliminate } from './eliminate.ts';
import { emptiestBought, improving, type Lap } from './improving.ts';
import { inOrder, LANES, type Lane, laneOf, type PackInput, place, trimmed } from './lane.ts';
import { type Packing, packingOf } from './packing.ts';
import { emptyRoom, type Room } from './room.ts';

export interface PackResult {
  readonly packing: Packing;
  readonly evaluations: number;
}

/** How much the order of one try is shaken: weights are multiplied by 1 ± this. */
const SHAKE = 0.35;

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
function improve(lane: Lane, from: Packing): Lap<Packing> {
  return improving(lane, from, function* (rooms, left) {
    if (rooms.length === 0) return null;
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
    return { rooms: tried, unplaced };
  });
}

/** Rooms to take apart, the one to be saved first: mostly the emptiest bought board, and one or two at random. */
function choose(rooms: readonly Room[], random: Random): Room[] {
  const bought = emptiestBought(rooms);
  const among = bought.length > 0 ? bought : [...rooms];
  const chosen = [among[Math.floor(random() * random() * random() * among.length)]];
  const more = 1 + Math.floor(random() * 2);
  for (let i = 0; i < more; i++) {
    const other = rooms[Math.floor(random() * rooms.length)];
    if (!chosen.includes(other)) chosen.push(other);
  }
  return chosen;
}
