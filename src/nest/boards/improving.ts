import type { Reply } from '../../plugin.ts';
import { type Lane, LEAST_PER_TRY, quotaOf, restored, trimmed } from './lane.ts';
import { compareRanks, type Packing, packingOf, rankOf } from './packing.ts';
import type { Room } from './room.ts';

/** A lane's own work yields its progress, never lanes. */
export type Lap<T> = Generator<number, T, Reply>;

/** What one try comes to: rooms in place of those before, and items that found no place. */
export interface Attempt {
  readonly rooms: readonly Room[];
  readonly unplaced: readonly number[];
}

/**
 * Improve on a packing by one try after another until the lane's share of positions is used up. What is not worse is kept.
 * @param attempt never changes the rooms it is given; null when there is nothing to try
 */
export function* improving(
  lane: Lane,
  from: Packing,
  attempt: (rooms: readonly Room[], left: readonly number[], quota: number) => Lap<Attempt | null>,
): Lap<Packing> {
  const { tally, input } = lane;
  const quota = quotaOf(lane);
  let rooms: readonly Room[] = restored(lane, from);
  let left = from.left;
  let rank = rankOf(rooms, left.length, input.kinds);
  while (tally.evaluations < quota) {
    const before = tally.evaluations;
    const tried = yield* attempt(rooms, left, quota);
    if (!tried) break;
    const now = trimmed(lane, tried.rooms);
    const nowRank = rankOf(now, tried.unplaced.length, input.kinds);
    if (compareRanks(nowRank, rank) <= 0) {
      rooms = now;
      left = tried.unplaced;
      rank = nowRank;
    }
    // A try that finds its places at once costs time all the same.
    tally.evaluations = Math.max(tally.evaluations, before + LEAST_PER_TRY);
    yield Math.min(1, tally.evaluations / quota);
  }
  return packingOf(rooms, left, input.kinds);
}

/** The bought boards, the emptiest first. */
export function emptiestBought(rooms: readonly Room[]): Room[] {
  const fill = ({ freeMm2, container }: Room) => 1 - freeMm2 / container.areaMm2;
  return rooms.filter(({ stock }) => stock >= 0).sort((a, b) => fill(a) - fill(b));
}
