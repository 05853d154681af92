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
  /** A border along which outlines do not move, in micrometres. */
  readonly border?: Box;
}

const MOVES = { proud: 'out', shy: 'in', middle: 'either' } as const;

/**
 * Finish the outlines of layers 0 … layers − 1, in whole micrometres and simple: simplified, clipped. Layers are
 * taken from the ground up, each held inside the finished one beneath and round the one above as it came: so one that
 * lay in another still does, and where a layer sticks out over another it does so no further. Clipping comes last and
 * rounds: on a slanting edge of the footprint two layers agree to the grid, not to the last bit.
 */
export function* finished(layers: number, outline: (k: number) => readonly Region[], finish: Finish): Walk<Region[][]> {
  const { simplifyUm, cut, border, footprint } = finish;
  const tolerance = cut === 'middle' ? simplifyUm / 2 : simplifyUm;
  const moves = MOVES[cut];
  const fenceOf = (regions: readonly Region[], needed: boolean) =>
    needed && tolerance > 0 && regions.length > 0 ? new Fence(regions) : undefined;
  const done: Region[][] = [];
  let around: Fence | undefined;
  let here = layers > 0 ? outline(0) : [];
  for (let k = 0; k < layers; k++) {
    const above = k + 1 < layers ? outline(k + 1) : [];
    const within = fenceOf(above, moves !== 'out');
    const simple = simplify(here, { tolerance, moves, around, within, border });
    around = fenceOf(simple, moves !== 'in');
    done.push(footprint ? intersect(fromWhole(simple), footprint) : fromWhole(simple));
    here = above;
    yield (k + 1) / layers;
  }

  return done;
}
