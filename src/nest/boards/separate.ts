import type { Reply } from '../../plugin.ts';
import type { Lane } from './lane.ts';
import { bestMove } from './move.ts';
import { overlapsIn, type Pair, PairWeights } from './overlap.ts';
import { leave, type Room, roomOf, type Standing, stand } from './room.ts';

/** Sweeps without gain before it starts again from the best, and how often in a row that may bring nothing. */
const STALL = 20;
const STRIKES = 2;

/**
 * Move what overlaps apart: piece by piece to the place of least overlap, under weights that grow for pairs that keep
 * overlapping (guided local search: Umetani et al. 2009, Egeblad et al. 2007; the schedule: Gardeyn, Vanden Berghe,
 * Wauters 2025, arXiv 2509.13329, with fewer sweeps, since here a failure is one try of many). The rooms are changed.
 * @param most positions to look at, about
 * @returns the overlaps that are left: none when all is free.
 */
export function* separate(lane: Lane, rooms: Room[], most: number): Generator<number, Pair[], Reply> {
  const weights = new PairWeights(lane.input.items.length);
  const end = lane.tally.evaluations + most;
  let best = overlapsIn(rooms);
  let least = total(best);
  let kept = snapshot(rooms);
  let strikes = 0;
  while (strikes < STRIKES) {
    restore(rooms, kept);
    let pairs = best;
    strikes++;
    for (let stall = 0; stall < STALL; stall++) {
      if (least === 0 || lane.tally.evaluations >= end) {
        restore(rooms, kept);
        return best;
      }
      sweep(lane, rooms, pairs, weights);
      pairs = overlapsIn(rooms);
      weights.adapt(pairs);
      yield 0;
      const now = total(pairs);
      if (now >= least) continue;
      least = now;
      best = pairs;
      kept = snapshot(rooms);
      strikes = 0;
      stall = -1;
    }
  }
  restore(rooms, kept);
  return best;
}

/** Move each item that overlaps once, in random order. */
function sweep(lane: Lane, rooms: readonly Room[], pairs: readonly Pair[], weights: PairWeights): void {
  const items = [...new Set(pairs.flatMap(({ a, b }) => [a, b]))].map((item) => ({ item, key: lane.random() }));
  for (const { item } of items.sort((a, b) => a.key - b.key || a.item - b.item)) {
    const from = roomOf(rooms, item);
    const move = bestMove(lane, rooms, from, item, weights);
    if (!move) continue;
    leave(from, item);
    stand(move.room, move.standing);
  }
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
