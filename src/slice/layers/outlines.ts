import { arrange } from '../../geometry/arrange.ts';
import { type Region, ringsOf } from '../../geometry/ring.ts';
import { share } from '../../geometry/share.ts';
import { toWhole } from '../../geometry/whole.ts';
import { isWhole, type Landform } from '../../model/landform.ts';
import type { Walk } from '../../plugin.ts';
import { finished } from './finished.ts';
import { heightfieldOutlines, postsBox, standsClear } from './heightfield.ts';
import { type Cut, wholeUm } from './levels.ts';
import { solidOutlines } from './solid.ts';

/** Outline any landform between levels: simplified, clipped to its footprint, on the grid of SNAP. May hold empty layers. */
export function* layerOutlines(
  landform: Landform,
  levelsMm: Float64Array,
  cut: Cut,
  simplifyUm: number,
): Walk<Region[][]> {
  const count = levelsMm.length - 1;
  if (landform.kind === 'solid') {
    const outlines = yield* share(solidOutlines(landform, levelsMm, cut), 0, 0.5);
    const finish = { cut, simplifyUm, footprint: landform.footprint };
    return yield* share(
      finished(count, (k) => arrange(toWhole(ringsOf(outlines[k]))), finish),
      0.5,
      1,
    );
  }
  const [minX, minY, maxX, maxY] = postsBox(landform);
  return yield* finished(count, heightfieldOutlines(landform, levelsMm, cut), {
    cut,
    simplifyUm,
    footprint: isWhole(landform) ? null : landform.footprint,
    border: [wholeUm(minX), wholeUm(minY), wholeUm(maxX), wholeUm(maxY)],
    isClear: standsClear(landform, levelsMm, simplifyUm / 1000),
  });
}
