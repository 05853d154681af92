import type { Kind } from './packing.ts';
import type { Shape } from './shape.ts';

/** The share of a board that rounding may make of nothing: 3.0000000001 boards are 3. */
const NOISE = 1e-9;

/** A saved offcut as the bound sees it: not less than its area grown by half the gap. */
export interface OffcutRoom {
  readonly mostGrownMm2: number;
}

/**
 * The least number of boards of one thickness that must be bought, whatever the layout. Outlines grown by half the gap
 * do not overlap, and lie in boards grown by as much: so areas add up, and two circles that find no room side by side in
 * the largest board need a board each. Valid for any turn, mirrored or not, and with shapes in the holes of others.
 */
export function leastBoards(
  shapes: readonly Shape[],
  kinds: readonly Kind[],
  offcuts: readonly OffcutRoom[],
  gapMm: number,
): { boards: number; byArea: boolean } {
  const byArea = areaBound(shapes, kinds, offcuts, gapMm);
  const byPairs = pairBound(shapes, kinds, offcuts.length, gapMm);
  return { boards: Math.max(byArea, byPairs), byArea: byArea >= byPairs };
}

function areaBound(
  shapes: readonly Shape[],
  kinds: readonly Kind[],
  offcuts: readonly OffcutRoom[],
  gapMm: number,
): number {
  const boardMm2 = Math.max(0, ...sides(kinds, gapMm).map(([width, height]) => width * height));
  if (boardMm2 === 0) return 0;
  const areas = shapes.map((shape) => shape.leastGrownMm2).sort((a, b) => a - b);
  let taken = 0;
  for (const { leastGrownMm2, leastHolesMm2 } of shapes) {
    taken += leastGrownMm2;
    // A hole smaller than every other shape stays empty: it takes room like foam.
    const smallestOther = leastGrownMm2 === areas[0] ? (areas[1] ?? Infinity) : areas[0];
    for (const hole of leastHolesMm2) if (hole < smallestOther) taken += hole;
  }
  const saved = offcuts.reduce((sum, { mostGrownMm2 }) => sum + mostGrownMm2, 0);
  const needed = ceiling((taken - saved) / boardMm2);
  // What is larger than every offcut must go on boards, however many offcuts there are.
  const largest = Math.max(0, ...offcuts.map(({ mostGrownMm2 }) => mostGrownMm2));
  const tooLarge = areas.filter((area) => area > largest * (1 + NOISE)).reduce((sum, area) => sum + area, 0);
  return Math.max(0, needed, ceiling(tooLarge / boardMm2));
}

/** The largest set of shapes of which no two can share any board, judged by a circle inside each. */
function pairBound(shapes: readonly Shape[], kinds: readonly Kind[], offcuts: number, gapMm: number): number {
  const boards = sides(kinds, gapMm);
  if (boards.length === 0) return 0;
  const radii = shapes.map(({ inradiusMm }) => inradiusMm + gapMm / 2).sort((a, b) => b - a);
  const conflict = (radiiMm: number) =>
    boards.every(([width, height]) => {
      const across = Math.max(0, width - radiiMm);
      const up = Math.max(0, height - radiiMm);
      return across * across + up * up < radiiMm * radiiMm * (1 - NOISE);
    });
  let clique = radii.length > 0 ? 1 : 0;
  while (clique < radii.length && conflict(radii[clique - 1] + radii[clique])) clique++;
  // Each offcut may take one of them, and one alone proves nothing where there are offcuts.
  return Math.max(0, clique - offcuts);
}

/** Usable sides of the boards, grown by half the gap all round. */
const sides = (kinds: readonly Kind[], gapMm: number): [number, number][] =>
  kinds.map(({ container: { box } }) => [box[2] - box[0] + gapMm, box[3] - box[1] + gapMm]);

const ceiling = (ratio: number): number => Math.ceil(ratio - NOISE * Math.max(1, Math.abs(ratio)));
