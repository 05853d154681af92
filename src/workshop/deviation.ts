import { areaOf, ringsOf } from '../geometry/ring.ts';
import { ruledVolume } from '../geometry/ruled.ts';
import { groundBetween, groundWithin } from '../model/ground-between.ts';
import type { Landform } from '../model/landform.ts';
import type { Layer, LayerStack } from '../model/layer.ts';
import type { Deviation, LayerDeviation } from '../model/plan.ts';
import { farthestEdge } from './deviation/edges.ts';
import { bySections, type GroundAt, groundSections } from './deviation/sections.ts';

/**
 * Compare a stack of lying layers, before hollowing, with the ground it is cut from. Exact for a heightfield's flat
 * triangles and upright edges. For a solid, and where edges slope, what a layer leaves out or has too much is summed over
 * sections (`bySections`); the difference of the two is exact. Upright ribs are not compared: null.
 */
export async function deviationOf(landform: Landform, stack: LayerStack): Promise<Deviation | null> {
  if (stack.kind !== 'flat' || stack.layers.length === 0) return null;
  const groundAt = groundSections(landform);
  const layers = stack.layers.map((layer) => ofLayer(landform, groundAt, layer));
  const top = stack.layers[stack.layers.length - 1];
  const over = groundBetween(landform, top.bottomMm + top.thicknessMm, Infinity);
  return {
    layers,
    carveMm3: layers.reduce((sum, { carveMm3 }) => sum + carveMm3, 0),
    fillMm3: layers.reduce((sum, { fillMm3 }) => sum + fillMm3, over),
    largestStep: await farthestEdge(landform, stack.layers),
  };
}

function ofLayer(landform: Landform, groundAt: GroundAt, layer: Layer): LayerDeviation {
  const { number, bottomMm, thicknessMm, regions, slope } = layer;
  const [low, high] = [bottomMm, bottomMm + thicknessMm];
  const foam = slope ? ruledVolume(slope.stations, thicknessMm) : areaOf(regions) * thicknessMm;
  const ground = groundBetween(landform, low, high);
  if (landform.kind === 'solid' || slope) return { layer: number, ...bySections(groundAt, layer, foam - ground) };
  const common = groundWithin(landform, ringsOf(regions), low, high);
  return { layer: number, carveMm3: Math.max(0, foam - common), fillMm3: Math.max(0, ground - common) };
}
