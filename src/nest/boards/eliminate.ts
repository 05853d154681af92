import type { Random } from '../../geometry/random.ts';
import type { Reply } from '../../plugin.ts';
import { inOrder, type Lane, LEAST_PER_TRY, place, quotaOf, restored, trimmed } from './lane.ts';
import { bestMove } from './move.ts';
import { type Pair, PairWeights } from './overlap.ts';
import { compareRanks, type Packing, packingOf, rankOf } from './packing.ts';
import { emptyRoom, leave, type Room, roomOf, stand } from './room.ts';
import { separate } from './separate.ts';

/**
 * Try to do without a board: what stands on it goes where it overlaps least on others, and they are moved apart. What
 * cannot be parted goes back to a board of that kind, which is nearer to being saved if less is on it than before.
 */
export function* eliminate(lane: Lane, from: Packing): Generator<number, Packing, Reply> {
  const { input, tally, random } = lane;
  const { kinds } = input;
  const quota = quotaOf(lane);
  let rooms = restored(lane, from);
  let left = from.left;
  let rank = rankOf(rooms, left.length, kinds);
  while (tally.evaluations < quota) {
    const before = tally.evaluations;
    const doomed = choose(rooms, random);
    if (!doomed) break;
    const others = rooms.filter((room) => room !== doomed).map((room) => ({ ...room, standing: [...room.standing] }));
    const open = others.filter(({ container }) => container.outline === null);
    if (open.length === 0) break;
    const outside = [...left, ...scatter(lane, open, doomed)];
    const pairs = yield* separate(lane, open, quota);
    outside.push(...takeOff(open, pairs, lane));
    const tried = [...others, emptyRoom(doomed.stock, doomed.container)];
    const unplaced = inOrder(outside, lane.weightOf).filter((item) => !place(lane, tried, item));
    const now = trimmed(lane, tried);
    const nowRank = rankOf(now, unplaced.length, kinds);
    if (compareRanks(nowRank, rank) <= 0) {
      rooms = now;
      left = unplaced;
      rank = nowRank;
    }
    tally.evaluations = Math.max(tally.evaluations, before + LEAST_PER_TRY);
    yield Math.min(1, tally.evaluations / quota);
  }
  return packingOf(rooms, left, kinds);
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
  const fill = ({ freeMm2, container }: Room) => 1 - freeMm2 / container.areaMm2;
  const bought = rooms.filter(({ stock }) => stock >= 0).sort((a, b) => fill(a) - fill(b));
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
