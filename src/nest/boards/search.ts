import type { Reply, Walk } from '../../plugin.ts';
import type { Group } from './group.ts';
import { LANES, type PackInput } from './lane.ts';
import type { PackResult } from './pack.ts';
import { compareRanks, type Packing } from './packing.ts';

/** The best packing of each group, and the positions looked at in all. */
export interface Found {
  readonly packings: readonly Packing[];
  readonly evaluations: number;
}

/**
 * Rounds of lanes until the effort is spent, every group is at its bound, or someone says enough; at least one. What a round
 * does follows from the rounds before it, never from the effort: a longer search goes on where a shorter one stopped.
 */
export function* search(
  groups: readonly Group[],
  bounds: readonly number[],
  gapMm: number,
  seed: number,
  effort: number,
): Walk<Found> {
  const best: (Packing | null)[] = groups.map(() => null);
  let evaluations = 0;
  for (let round = 0; ; round++) {
    const open = groups.flatMap((_, i) => (isDone(groups[i], best[i], bounds[i]) ? [] : [i]));
    if (open.length === 0) break;
    const lanes = open.flatMap((i) =>
      Array.from({ length: LANES }, (_, lane) => {
        const input: PackInput = { ...plain(groups[i]), gapMm, seed: seed + i, round, lane, from: best[i] };
        return { task: 'pack', input };
      }),
    );
    // How much effort a round takes is known only afterwards: half of what is left is a fair guess.
    const spent = Math.min(1, evaluations / effort);
    const reply: Reply = yield { lanes, upTo: (1 + spent) / 2 };
    const results = reply.results as readonly PackResult[];
    const before = evaluations;
    for (const [at, { packing, evaluations: looked }] of results.entries()) {
      const i = open[Math.floor(at / LANES)];
      const known = best[i];
      evaluations += looked;
      // The first of equals stays: lanes are read in their order, whichever ended first.
      if (!known || compareRanks(packing.rank, known.rank) < 0) best[i] = packing;
    }
    // Where not one board can be had, no round looks at anything, and effort would never be spent.
    if (evaluations >= effort || evaluations === before || reply.say === 'enough') break;
  }
  return { packings: best as Packing[], evaluations };
}

/** What a lane needs of a group: data that can be copied to a worker. */
const plain = ({ shapes, items, kinds, offcuts, turnsFreely }: Group) => ({
  shapes,
  turnsFreely,
  items: items.map(({ shape }) => shape),
  kinds,
  offcuts: offcuts.map(({ container }) => container),
});

/** Nothing is left to gain: all is placed, on the least number of boards that must be bought, of the only kind there is. */
const isDone = ({ kinds, offcuts }: Group, best: Packing | null, bound: number): boolean =>
  best !== null && best.left.length === 0 && kinds.length <= 1 && offcuts.length === 0 && best.boards.length <= bound;
