import type { Random } from '../../geometry/random.ts';
import { emptiestBought, improving, type Lap } from './improving.ts';
import { inOrder, type Lane, place } from './lane.ts';
import { bestMove } from './move.ts';
import { type Pair, PairWeights } from './overlap.ts';
import type { Packing } from './packing.ts';
import { emptyRoom, leave, type Room, roomOf, stand } from './room.ts';
import { separate } from './separate.ts';

/**
 * Try to do without a board: what stands on it goes where it overlaps least on others, and they are moved apart. What
 * cannot be parted goes back to a board of that kind, which is nearer to being saved if less is on it than before.
 */
export function eliminate(lane: Lane, from: Packing): Lap<Packing> {
  return improving(lane, from, function* (rooms, left, quota) {
    const doomed = choose(rooms, lane.random);
    if (!doomed) return null;
    const others = rooms.filter((room) => room !== doomed).map((room) => ({ ...room, standing: [...room.standing] }));
    const open = others.filter(({ container }) => container.outline === null);
    if (open.length === 0) return null;
    const outside = [...left, ...scatter(lane, open, doomed)];
    const pairs = yield* separate(lane, open, quota);
    outside.push(...takeOff(open, pairs, lane));
    const tried = [...others, emptyRoom(doomed.stock, doomed.container)];
    const unplaced = inOrder(outside, lane.weightOf).filter((item) => !place(lane, tried, item));
    return { rooms: tried, unplaced };
  });
}

/** Put what stands on a board where it overlaps least on others. Returns what no place was found for. */
function scatter(lane: Lane, rooms: readonly Room[], { standing }: Room): number[] {
  const even = new PairWeights(lane.input.items.length);
  const items = standing.map(({ item }) => item);
  return inOrder(items, lane.weightOf).filter((item) => {
    const move = bestMove(lane, rooms, null, item, even);
    if (move) stand(move.room, move.standing);
    return move === null;
  });
}

/** The bought board to do without: mostly one of the emptiest. */
function choose(rooms: readonly Room[], random: Random): Room | undefined {
  const bought = emptiestBought(rooms);
  return bought[Math.floor(random() * random() * bought.length)];
}

/** Take items away until nothing overlaps: each time the smallest of those that overlap. */
function takeOff(rooms: readonly Room[], pairs: readonly Pair[], lane: Lane): number[] {
  const gone: number[] = [];
  const area = (item: number) => lane.input.shapes[lane.input.items[item]].areaMm2;
  for (let rest = [...pairs]; rest.length > 0; ) {
    const items = [...new Set(rest.flatMap(({ a, b }) => [a, b]))].sort((a, b) => area(a) - area(b) || a - b);
    const [least] = items;
    leave(roomOf(rooms, least), least);
    gone.push(least);
    rest = rest.filter(({ a, b }) => a !== least && b !== least);
  }
  return gone;
}
