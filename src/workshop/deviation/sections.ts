import { intersect, subtract, unite } from '../../geometry/clip.ts';
import { areaOf } from '../../geometry/ring.ts';
import { sections } from '../../geometry/sections.ts';
import type { Solid } from '../../model/landform.ts';
import type { Layer } from '../../model/layer.ts';

/** Sections taken of each layer, in the middles of as many equal slices: of a plain slope all are met exactly, of a curved one to 1 %. */
const SLICES = 8;

/**
 * What of a solid a layer leaves out, and what it has too much, by sections of the solid. The smaller of the two is summed
 * up (it is exactly nothing where the layer was cut proud or shy); the other follows from their difference.
 * @param excessMm3 foam less ground in the layer, exactly.
 */
export function bySections(solid: Solid, layer: Layer, excessMm3: number): { carveMm3: number; fillMm3: number } {
  const step = layer.thicknessMm / SLICES;
  const levels = Float64Array.from({ length: SLICES }, (_, i) => layer.bottomMm + (i + 0.5) * step);
  let carve = 0;
  let fill = 0;
  for (const rings of sectionsOf(solid, levels)) {
    const whole = unite([rings]);
    const ground = solid.footprint ? intersect(whole, solid.footprint) : whole;
    carve += areaOf(subtract(layer.regions, ground)) * step;
    fill += areaOf(subtract(ground, layer.regions)) * step;
  }
  return carve < fill
    ? { carveMm3: carve, fillMm3: Math.max(0, carve - excessMm3) }
    : { carveMm3: Math.max(0, fill + excessMm3), fillMm3: fill };
}

function sectionsOf({ positionsMm, triangles }: Solid, levels: Float64Array) {
  const work = sections({ positions: positionsMm, triangles }, levels, 'above');
  for (let step = work.next(); ; step = work.next()) if (step.done) return step.value;
}
