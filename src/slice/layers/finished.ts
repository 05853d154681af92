import { drawn } from '../../geometry/checked-rings.ts';
import { intersect } from '../../geometry/clip.ts';
import { simplify } from '../../geometry/one-sided.ts';
import type { Box, Region } from '../../geometry/ring.ts';
import { Fence } from '../../geometry/steps.ts';
import { fromWhole } from '../../geometry/whole.ts';
import type { Walk } from '../../plugin.ts';
import type { Cut } from './levels.ts';

export interface Finish {
  readonly cut: Cut;
  /** How far outlines may move; 0 leaves them as they are. A middle outline moves either way, by half of it. */
  readonly simplifyUm: number;
  /** What layers are clipped to; null when all of them lies in it. */
  readonly footprint: readonly Region[] | null;
}

/** Outlines of which each lies in the one beneath it. */
export interface Nested {
  /** A border along which outlines do not move, in micrometres. */
  readonly border: Box;
  /** Whether outline k + 1 is known to stand further from outline k than that may move. */
  readonly isClear: (k: number) => boolean;
}

const MOVES = { proud: 'out', shy: 'in', middle: 'either' } as const;

type Outline = (k: number) => readonly Region[];

const toleranceOf = ({ cut, simplifyUm }: Finish): number => (cut === 'middle' ? simplifyUm / 2 : simplifyUm);

const fence = (regions: readonly Region[] | undefined): Fence | undefined =>
  regions && regions.length > 0 ? new Fence(regions) : undefined;

/** Out of whole micrometres. Clipping comes last and rounds: on a slanting edge of the footprint two layers agree to the grid. */
const clipped = (regions: readonly Region[], { footprint }: Finish): Region[] =>
  footprint ? intersect(fromWhole(regions), footprint) : fromWhole(regions);

/**
 * Finish the outlines of layers 0 … layers − 1 of ground that does not overhang, in whole micrometres and simple:
 * simplified, clipped. Those that grow are taken from the ground up and fitted into the finished one beneath; those that
 * shrink from the top down, each round the finished one above.
 */
export function* finishedNested(layers: number, outline: Outline, finish: Finish, nested: Nested): Walk<Region[][]> {
  const { border, isClear } = nested;
  const tolerance = toleranceOf(finish);
  const moves = MOVES[finish.cut];
  const done = new Array<Region[]>(layers).fill([]);
  let last: readonly Region[] | undefined;
  let above: readonly Region[] | undefined;
  for (let turn = 0; turn < layers; turn++) {
    const k = moves === 'in' ? layers - 1 - turn : turn;
    const here = above ?? outline(k);
    above = undefined;
    if (tolerance > 0) {
      // What may move either way must not shrink past the next one as it came, which then could not go back.
      if (moves === 'either' && k + 1 < layers && !isClear(k)) above = outline(k + 1);
      const around = moves === 'in' ? undefined : fence(last);
      const within = fence(moves === 'in' ? last : above);
      last = drawn(here, { tolerance, moves, border, around, within });
    } else {
      last = here;
    }
    done[k] = clipped(last, finish);
    yield (turn + 1) / layers;
  }
  return done;
}

/**
 * Finish the outlines of layers 0 … layers − 1 of any body, in whole micrometres and simple: simplified, clipped. Taken from
 * the ground up, each held inside the finished one beneath and round the one above as it came: so one that lay in another
 * still does, and where a layer sticks out over another it does so no further.
 */
export function* finished(layers: number, outline: Outline, finish: Finish): Walk<Region[][]> {
  const tolerance = toleranceOf(finish);
  const moves = MOVES[finish.cut];
  const needed = (regions: readonly Region[], isNeeded: boolean) =>
    isNeeded && tolerance > 0 ? fence(regions) : undefined;
  const done: Region[][] = [];
  let around: Fence | undefined;
  let here = layers > 0 ? outline(0) : [];
  for (let k = 0; k < layers; k++) {
    const above = k + 1 < layers ? outline(k + 1) : [];
    const simple = simplify(here, { tolerance, moves, around, within: needed(above, moves !== 'out') });
    around = needed(simple, moves !== 'in');
    done.push(clipped(simple, finish));
    here = above;
    yield (k + 1) / layers;
  }
  return done;
}
