import { arrange } from '../../geometry/arrange.ts';
import { intersect, regionsWherePositive, subtract, unite } from '../../geometry/clip.ts';
import { contours } from '../../geometry/contour.ts';
import { areaOf, type Region } from '../../geometry/ring.ts';
import { ringAt } from '../../geometry/ruled.ts';
import { sections } from '../../geometry/sections.ts';
import { fromWhole, toWhole } from '../../geometry/whole.ts';
import { type Heightfield, isWhole, type Landform } from '../../model/landform.ts';
import type { Layer } from '../../model/layer.ts';

/** Sections taken of each layer, in the middles of as many equal slices: of a plain slope all are met exactly, of a curved one to 1 %. */
const SLICES = 8;

/** The ground's outlines at levels. */
export type GroundAt = (levels: Float64Array) => Region[][];

/**
 * What of the ground a layer leaves out, and what it has too much, by sections. The smaller of the two is summed up (it is
 * exactly nothing where the layer was cut proud or shy); the other follows from their difference.
 * @param excessMm3 foam less ground in the layer, exactly.
 */
export function bySections(groundAt: GroundAt, layer: Layer, excessMm3: number): { carveMm3: number; fillMm3: number } {
  const step = layer.thicknessMm / SLICES;
  const shares = Array.from({ length: SLICES }, (_, i) => (i + 0.5) / SLICES);
  const levels = Float64Array.from(shares, (share) => layer.bottomMm + share * layer.thicknessMm);
  let carve = 0;
  let fill = 0;
  for (const [i, ground] of groundAt(levels).entries()) {
    const foam = layer.slope
      ? regionsWherePositive(layer.slope.stations.map((stations) => ringAt(stations, shares[i])))
      : layer.regions;
    carve += areaOf(subtract(foam, ground)) * step;
    fill += areaOf(subtract(ground, foam)) * step;
  }
  return carve < fill
    ? { carveMm3: carve, fillMm3: Math.max(0, carve - excessMm3) }
    : { carveMm3: Math.max(0, fill + excessMm3), fillMm3: fill };
}

/** Make ready to cut a landform level by level. */
export function groundSections(landform: Landform): GroundAt {
  const { footprint } = landform;
  if (landform.kind === 'solid') {
    const surface = { positions: landform.positionsMm, triangles: landform.triangles };
    return (levels) => {
      const work = sections(surface, levels, 'above');
      let step = work.next();
      while (!step.done) step = work.next();
      return step.value.map((rings) => (footprint ? intersect(unite([rings]), footprint) : unite([rings])));
    };
  }
  let at: ReturnType<typeof contours> | undefined;
  return (levels) => {
    const outlineAt = (at ??= contoursOf(landform));
    return Array.from(levels, (level) => {
      const ground = fromWhole(arrange(toWhole(outlineAt(level, 'above'))));
      return isWhole(landform) ? ground : intersect(ground, landform.footprint);
    });
  };
}

function contoursOf({ columns, rows, stepXMm, stepYMm, originMm: [originX, originY], heightsMm }: Heightfield) {
  return contours({ columns, rows, stepX: stepXMm, stepY: stepYMm, originX, originY, values: heightsMm });
}
