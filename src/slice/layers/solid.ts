import { bands } from '../../geometry/bands.ts';
import { regionsWherePositive, subtract, unite } from '../../geometry/clip.ts';
import type { Region, Ring } from '../../geometry/ring.ts';
import { type Surface, sections } from '../../geometry/sections.ts';
import { share } from '../../geometry/share.ts';
import { freeUndersides } from '../../geometry/undersides.ts';
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
 * Where shells overlap or the surface crosses itself, what is in any of them is foam, and all three are as exact. Shy then
 * looks at what is beneath each face that looks down; it need not where the solid says that it is simple.
 */
export function* solidOutlines(
  solid: Solid,
  levelsMm: ArrayLike<number>,
  cut: 'proud' | 'shy' | 'middle',
): Walk<Region[][]> {
  const surface = { positions: solid.positionsMm, triangles: solid.triangles };
  if (cut === 'shy' && !solid.isSimple) return yield* overlapping(surface, levelsMm);
  const halves = Float64Array.from({ length: levelsMm.length - 1 }, (_, k) => (levelsMm[k] + levelsMm[k + 1]) / 2);
  const rings: Ring[][] = yield* share(
    cut === 'middle'
      ? sections(surface, halves, 'above')
      : bands(surface, levelsMm, cut === 'proud' ? 'covered' : 'filled'),
    0,
    0.5,
  );
  const outlines: Region[][] = [];
  for (const within of rings) {
    outlines.push(cut === 'shy' ? regionsWherePositive(within) : unite([within]));
    yield 0.5 + (0.5 * outlines.length) / rings.length;
  }
  return outlines;
}

/** Shy outlines of shells that may overlap: the section just below the top, less what has air beneath it on the way. */
function* overlapping(surface: Surface, levelsMm: ArrayLike<number>): Walk<Region[][]> {
  const tops = Float64Array.from({ length: levelsMm.length - 1 }, (_, k) => levelsMm[k + 1]);
  const atTop = yield* share(sections(surface, tops, 'at or above'), 0, 0.2);
  const free = yield* share(freeUndersides(surface, levelsMm), 0.2, 0.8);
  const outlines: Region[][] = [];
  for (const [k, rings] of atTop.entries()) {
    const within = regionsWherePositive(rings);
    outlines.push(free[k].length > 0 ? subtract(within, unite([free[k]])) : within);
    yield 0.8 + (0.2 * outlines.length) / atTop.length;
  }
  return outlines;
}
