import type { Reply } from '../../plugin.ts';
import type { Lane } from './lane.ts';
import { bestMove } from './move.ts';
import { overlapsIn, type Pair, PairWeights } from './overlap.ts';
import { leave, type Room, type Standing, stand } from './room.ts';

/** Sweeps without gain before it starts again from the best, and how often in a row that may bring nothing. */
const STALL = 20;
const STRIKES = 2;
/**
 * Move what overlaps apart: piece by piece to the place of least overlap, under weights that grow for pairs that keep
 * overlapping (guided local search: Umetani et al. 2009; the schedule and its values: Gardeyn, Vanden Berghe, Wauters 2025,
 * arXiv 2509.13329; fewer sweeps here, since a board more is no disaster). The rooms are changed.
 * @returns the overlaps that are left: none when all is free.
 */
export function* separate(lane: Lane, rooms: Room[], most: number): Generator<number, Pair[], Reply> {
  const weights = new PairWeights(lane.input.items.length);
  const { tally, random } = lane;
  const end = tally.evaluations + most;
  let best = overlapsIn(rooms);
  let least = total(best);
  let kept = snapshot(rooms);
  for (let strikes = 0; strikes < STRIKES && least > 0; strikes++) {
    restore(rooms, kept);
    let pairs = best;
    for (let stall = 0; stall < STALL && least > 0; stall++) {
      if (tally.evaluations >= end) strikes = stall = STALL;
      const colliding = [...new Set(pairs.flatMap(({ a, b }) => [a, b]))].map((item) => ({ item, key: random() }));
      for (const { item } of colliding.sort((a, b) => a.key - b.key || a.item - b.item)) {
        const from = rooms.find(({ standing }) => standing.some((one) => one.item === item)) as Room;
        const move = bestMove(lane, rooms, from, item, weights);
        if (!move) continue;
        leave(from, item);
        stand(move.room, move.standing);
      }
      pairs = overlapsIn(rooms);
      weights.adapt(pairs);
      const now = total(pairs);
      if (now < least) {
        least = now;
        best = pairs;
        kept = snapshot(rooms);
        stall = strikes = -1;
      }
      yield 0;
    }
  }
  restore(rooms, kept);
  return best;
}

const total = (pairs: readonly Pair[]): number => pairs.reduce((sum, { severity }) => sum + severity, 0);

const snapshot = (rooms: readonly Room[]): Standing[][] => rooms.map(({ standing }) => [...standing]);

function restore(rooms: readonly Room[], kept: readonly (readonly Standing[])[]): void {
  for (const [i, room] of rooms.entries()) {
    room.standing.length = 0;
    room.freeMm2 = room.container.areaMm2;
    for (const standing of kept[i]) stand(room, standing);
  }
}
