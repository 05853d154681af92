import type { Finding } from '../findings.ts';
import { subtract } from '../geometry/clip.ts';
import { areaOf, isInRegion, type Point, type Region, regionArea } from '../geometry/ring.ts';
import { centroidOf } from '../geometry/support.ts';
import type { Piece } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import { zoneRegions } from '../model/zone.ts';
import { numberText } from '../units.ts';
import { type Course, coursesOf } from './courses.ts';

/** What the clipping of voids against the next layer's outline may leave. */
const SPECK_MM2 = 1;

/**
 * Whether the pieces of each layer, put back together, are the layer again: nothing twice, nothing outside of it, and what
 * is missing is out of sight under the next layer, or room for a deck. Areas agree to a hundredth of a square millimetre, as the
 * edges of pieces and layer cancel to the last digit (geometry/left-edges.ts); wedges that the grid explains are let pass.
 */
export function closure(plan: Plan, courses: readonly Course[] = coursesOf(plan)): Finding[] {
  const decks = zoneRegions(plan.facts.zones, 'people');
  const findings: Finding[] = [];
  for (const [i, { layer, pieces, over, missing }] of courses.entries()) {
    if (over.length > 0) findings.push(tooMuch(layer.number, over, pieces));
    const hidden = [...(courses[i + 1]?.layer.regions ?? []), ...decks];
    const open = (missing.length > 0 ? hiddenLess(missing, hidden, decks.length > 0) : []).filter(
      (region) => regionArea(region) > SPECK_MM2,
    );
    if (open.length > 0) findings.push(leftOut(layer.number, open, pieces));
  }
  return findings;
}

/** What of some regions is not hidden. Decks may lie over the next layer's outline: each is taken away on its own. */
const hiddenLess = (missing: readonly Region[], hidden: readonly Region[], isMixed: boolean): Region[] =>
  isMixed ? hidden.reduce<Region[]>((left, each) => subtract(left, [each]), [...missing]) : subtract(missing, hidden);

const tooMuch = (layer: number, over: readonly Region[], pieces: readonly Piece[]): Finding => {
  const atMm = middleOf(over);
  const two = pieces.filter(({ region }) => isInRegion(atMm[0], atMm[1], region)).map(({ name }) => name);
  const what = two.length > 1 ? `${two.join(' and ')} overlap` : `${two[0] ?? 'A piece'} sticks out of the layer`;
  return {
    level: 'stop',
    code: 'checks/not-closed',
    message: `${what}: in all, the pieces of this layer hold ${mm2(over)} too much.`,
    fix: 'Do not cut these pieces. Split again; if it comes back, report it with the job file.',
    where: { layer, ...(two[0] ? { piece: two[0] } : {}), atMm },
  };
};

const leftOut = (layer: number, open: readonly Region[], pieces: readonly Piece[]): Finding => ({
  level: 'stop',
  code: 'checks/left-out',
  message: `${mm2(open)} of this layer are in none of its ${pieces.length} pieces, and no layer hides that: a hole would show.`,
  fix: 'Do not cut these pieces. Split again; if it comes back, report it with the job file.',
  where: { layer, atMm: middleOf(open) },
});

/** A point in the middle of the largest of some regions, or on its outline where its middle is a hole. */
function middleOf(regions: readonly Region[]): Point {
  const largest = regions.reduce((most, each) => (regionArea(each) > regionArea(most) ? each : most));
  const [x, y] = centroidOf(largest);
  return isInRegion(x, y, largest) ? [x, y] : [largest[0][0], largest[0][1]];
}

const mm2 = (regions: readonly Region[]): string => {
  const area = areaOf(regions);
  return area >= 1e5 ? `${numberText(area / 1e6, 2)} m²` : `${numberText(area, area < 10 ? 2 : 0)} mm²`;
};
