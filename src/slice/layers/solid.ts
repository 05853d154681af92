import { regionsWherePositive, unite } from '../../geometry/clip.ts';
import { type Region, type Ring, reversed } from '../../geometry/ring.ts';
import { sections } from '../../geometry/sections.ts';
import { undersides } from '../../geometry/undersides.ts';
import type { Solid } from '../../model/landform.ts';
import type { Walk } from '../../plugin.ts';

/**
 * Outline a solid layer by layer. Layer k lies between levelsMm[k] and levelsMm[k + 1], which rise; one outline fewer
 * than levels comes out, an empty one where there is no foam. Not clipped to the footprint, not simplified.
 *
 * `proud`: what the solid covers anywhere in the layer's thickness: the section just above its underside, and every
 * overhang that begins within it. `shy`: what it fills from underside to top: the section just below the top, less every
 * overhang within. So a flat top exactly at a level costs no layer and loses none. `middle`: the section at half.
 *
 * Where shells overlap or the surface crosses itself, proud is still exact; shy may leave out a place that only several
 * shells together fill, never the other way.
 */
export function* solidOutlines(
  solid: Solid,
  levelsMm: ArrayLike<number>,
  cut: 'proud' | 'shy' | 'middle',
): Walk<Region[][]> {
  const layers = levelsMm.length - 1;
  const surface = { positions: solid.positionsMm, triangles: solid.triangles };
  const levels = Float64Array.from({ length: layers }, (_, k) =>
    cut === 'proud' ? levelsMm[k] : cut === 'shy' ? levelsMm[k + 1] : (levelsMm[k] + levelsMm[k + 1]) / 2,
  );
  const cuts: Ring[][] = yield* part(0, 0.3, sections(surface, levels, cut === 'shy' ? 'at or above' : 'above'));
  const overhangs: Ring[][] = cut === 'middle' ? [] : yield* part(0.3, 0.6, undersides(surface, levelsMm));
  const outlines: Region[][] = [];
  for (let k = 0; k < layers; k++) {
    const hanging = overhangs[k] ?? [];
    outlines.push(
      cut === 'shy' ? regionsWherePositive([...cuts[k], ...hanging.map(reversed)]) : unite([[...cuts[k], ...hanging]]),
    );
    yield 0.6 + (0.4 * (k + 1)) / layers;
  }
  return outlines;
}

/** A walk as a stretch of a longer one. */
function* part<T>(from: number, to: number, walk: Generator<number, T, unknown>): Walk<T> {
  for (let step = walk.next(); ; step = walk.next()) {
    if (step.done) return step.value;
    yield from + (to - from) * step.value;
  }
}
