import { intersect } from '../../geometry/clip.ts';
import { Fence } from '../../geometry/edge-grid.ts';
import { simplify } from '../../geometry/one-sided.ts';
import type { Box, Region } from '../../geometry/ring.ts';
import { fromWhole } from '../../geometry/whole.ts';
import type { Walk } from '../../plugin.ts';
import type { Cut } from './levels.ts';

export interface Finish {
  readonly cut: Cut;
  /** How far outlines may move; 0 leaves them as they are. A middle outline moves either way, by half of it. */
  readonly simplifyUm: number;
  /** What layers are clipped to; null when all of them lies in it. */
  readonly footprint: readonly Region[] | null;
  /** A border along which outlines do not move, in micrometres. */
  readonly border?: Box;
  /** Whether outline k + 1 is known to stand further inside outline k than that may move. */
  readonly isClear?: (k: number) => boolean;
}

const MOVES = { proud: 'out', shy: 'in', middle: 'either' } as const;

const fence = (regions: readonly Region[] | undefined): Fence | undefined =>
  regions && regions.length > 0 ? new Fence(regions) : undefined;

/**
 * Finish the outlines of layers 0 … layers − 1, in whole micrometres and simple: simplified, clipped. Those that grow are
 * taken from the ground up and fitted into the finished one beneath; those that shrink from the top down, each round the
 * finished one above. So one that lay in another still does, and where a layer sticks out over another it does so no
 * further. Clipping comes last and rounds: on a slanting edge of the footprint two layers agree to the grid.
 */
export function* finished(layers: number, outline: (k: number) => readonly Region[], finish: Finish): Walk<Region[][]> {
  const { cut, simplifyUm, footprint, border } = finish;
  const tolerance = cut === 'middle' ? simplifyUm / 2 : simplifyUm;
  const moves = MOVES[cut];
  const done = new Array<Region[]>(layers).fill([]);
  let last: readonly Region[] | undefined;
  let above: readonly Region[] | undefined;
  for (let turn = 0; turn < layers; turn++) {
    const k = moves === 'in' ? layers - 1 - turn : turn;
    const here = above ?? outline(k);
    above = undefined;
    if (tolerance > 0) {
      // What may move either way must not shrink past the next one as it came, which then could not go back.
      if (moves === 'either' && k + 1 < layers && !finish.isClear?.(k)) above = outline(k + 1);
      const around = moves === 'in' ? undefined : fence(last);
      const within = fence(moves === 'in' ? last : above);
      last = simplify(here, { tolerance, moves, border, around, within });
    } else {
      last = here;
    }
    done[k] = footprint ? intersect(fromWhole(last), footprint) : fromWhole(last);
    yield (turn + 1) / layers;
  }
  return done;
}
