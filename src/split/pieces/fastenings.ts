import { offset } from '../../geometry/clip.ts';
import type { Point, Region } from '../../geometry/ring.ts';
import type { Nick } from '../../model/piece.ts';
import { BITE_MM, UNDER_SURFACE_MM } from '../../model/pin.ts';
import type { Context } from '../../plugin.ts';
import { nicksOf } from './nicks.ts';
import type { Course } from './pieces.ts';
import { type Going, PIN_SAG_MM, pinsBetween } from './pins.ts';
import { slitsOf } from './slits.ts';

/** What each piece of each layer gets besides its joints; first by layer, then by piece. */
export interface Fastenings {
  readonly slits: readonly (readonly (readonly Float64Array[])[])[];
  readonly pins: readonly (readonly (readonly Point[])[])[];
  readonly nicks: readonly (readonly (readonly Nick[])[])[];
}

/** An outline that was simplified may stand out over the ground's own by half a millimetre, and pins have a thickness. */
const INSIDE_MM = 4;

/** Slits, then pins, which keep clear of them, then nicks, which keep clear of both. From the top down. */
export function* fasteningsOf(
  courses: readonly Course[],
  { facts }: Pick<Context<'split'>, 'facts'>,
): Generator<number, Fastenings> {
  const slits = slitsOfCourses(courses, facts);
  const going: Going[][][] = courses.map(({ pieces }) => pieces.map(() => []));
  const used = new Set<string>();
  for (let i = courses.length - 1; i > 0; i--) {
    const { layer, pieces } = courses[i];
    const below = courses[i - 1];
    const pins = pinsBetween({
      upper: pieces,
      lower: below.pieces,
      upperTopMm: layer.bottomMm + layer.thicknessMm,
      lowerBottomMm: below.layer.bottomMm,
      taken: going[i],
      used,
      slits: [...slits[i], ...slits[i - 1]].flat(),
      deep: deepOver(courses, i),
      covered: courses[i + 1]?.layer.regions ?? [],
      isLowest: i === 1,
    });
    for (const pin of pins) {
      used.add(`${pin.at}`);
      going[i - 1][pin.lower].push(pin);
      if (!going[i][pin.upper].some(({ at }) => at === pin.at)) going[i][pin.upper].push(pin);
    }
    yield (courses.length - i) / courses.length;
  }
  const pins = going.map((pieces) => pieces.map((each) => each.map(({ at }) => at)));
  const nickable = courses.flatMap(({ layer, pieces, joints }, i) =>
    pieces.map((region, k) => ({
      layer: layer.number,
      outline: region[0],
      joints: joints[k],
      slits: slits[i][k],
      pins: pins[i][k],
    })),
  );
  const nicks = nicksOf(nickable, facts.front.side);
  return { slits, pins, nicks: courses.map(({ pieces }) => nicks.splice(0, pieces.length)) };
}

/**
 * Where foam above lets a pin end in a layer and stay: under the lowest outline that lies so high that the pin has its bite
 * in the layer and keeps UNDER_SURFACE_MM from the ground. Whatever the cut line rule, ground over an outline lies no lower
 * than the underside of the outline's layer.
 */
function deepOver(courses: readonly Course[], i: number): Region[] {
  const { bottomMm, thicknessMm } = courses[i].layer;
  const wantedMm = bottomMm + Math.min(BITE_MM, thicknessMm) + UNDER_SURFACE_MM;
  const over = courses.slice(i + 1).find(({ layer }) => layer.bottomMm >= wantedMm);
  return over ? offset(over.layer.regions, -INSIDE_MM, { sag: PIN_SAG_MM }) : [];
}

/** The slits of each piece of each layer, from the top down: none in line with those of the layer above. None but for a wire. */
function slitsOfCourses(courses: readonly Course[], { tool, front, zones }: Context<'split'>['facts']) {
  if (tool.kind !== 'hot wire') return courses.map(({ pieces }) => pieces.map((): Float64Array[] => []));
  const seen = zones.filter(({ kind }) => kind === 'seen').map(({ outline }) => new Float64Array(outline.flat()));
  const slits: Float64Array[][][] = [];
  for (let i = courses.length - 1; i >= 0; i--) {
    const { pieces, joints, layer } = courses[i];
    const others = slits[0]?.flat() ?? [];
    const around = { side: front.side, seen, others, thicknessMm: layer.thicknessMm };
    slits.unshift(pieces.map((piece, k) => slitsOf(piece, { ...around, joints: joints[k] })));
  }
  return slits;
}
