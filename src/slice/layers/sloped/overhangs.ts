import { intersect, offset, subtract, unite } from '../../../geometry/clip.ts';
import { areaOf, type Point } from '../../../geometry/ring.ts';
import { sections } from '../../../geometry/sections.ts';
import { SNAP } from '../../../geometry/tolerance.ts';
import type { Solid } from '../../../model/landform.ts';
import type { Layer } from '../../../model/layer.ts';

/** What sticks out by less than this is no overhang. */
const ONE_MM2 = 1;

/** The layers of a solid that stick out over their underside, by number, with a place. */
export function overhangsOf(
  { positionsMm, triangles, footprint }: Solid,
  layers: readonly Layer[],
  simplifyUm: number,
): Map<number, Point> {
  const bottoms = Float64Array.from(layers, ({ bottomMm }) => bottomMm);
  const work = sections({ positions: positionsMm, triangles }, bottoms, 'above');
  let step = work.next();
  while (!step.done) step = work.next();
  const found = new Map<number, Point>();
  for (const [k, { number, regions }] of layers.entries()) {
    const section = unite([step.value[k]]);
    // Twice what an outline may have been moved, since corners that are kept sharp stand further off.
    const grown = offset(footprint ? intersect(section, footprint) : section, 2 * simplifyUm * SNAP + 0.1);
    const out = subtract(regions, grown);
    if (areaOf(out) > ONE_MM2) found.set(number, [out[0][0][0], out[0][0][1]]);
  }
  return found;
}
