import { intersect, offset, subtract, unite } from '../../geometry/clip.ts';
import {
  boxOf,
  isInRegion,
  isInside,
  moved,
  type Point,
  type Region,
  rectangle,
  regionArea,
  ringsOf,
} from '../../geometry/ring.ts';
import { snapped } from '../../geometry/snap.ts';
import { centroidOf } from '../../geometry/support.ts';
import { SAG_MM, shortBy, simple } from './offsets.ts';
import { Patches } from './patches.ts';

/** Blocking under a lid: square props at the crossings of a grid. */
export interface Props {
  /** Centre to centre. */
  readonly spacingMm: number;
  readonly sizeMm: number;
}

/** A prop is so many thicknesses across, and no less than a hand can glue upright (our choice). */
const PROP = 3;
const LEAST_PROP_MM = 100;

/** The side of a prop in foam of a thickness, where the job says none. */
export const propMm = (thicknessMm: number): number => Math.max(LEAST_PROP_MM, PROP * thicknessMm);

/** Reach that simplified and rounded outlines may be short by. */
const SHORT_MM = shortBy(SAG_MM);
/** Let a prop reach so much farther, or the very middle of four would ask for a fifth. */
const OVER_MM = 0.1;
/** Specks that arithmetic leaves out of reach, square millimetres. */
const SPECK_MM2 = 1;

/**
 * How far a point of a lid may be from foam beneath it: in the middle of four props, from the corner of each. Half of what
 * the lid spans.
 */
export const reachMm = ({ spacingMm, sizeMm }: Props): number => (spacingMm - sizeMm) / Math.SQRT2;

/**
 * Props that bring every point of a lid over voids within reach of foam beneath it. Only as many as are needed: those of the
 * grid first, in the middle of what is out of reach before its edge, so that props of many layers stand in line; then, where
 * the grid leaves something, for instance under the narrow end of a lid, one in its middle. Sizes as lengths, so that what
 * is within reach at the void's edge gets none.
 * @param contact where the lid rests without props.
 */
export function propsFor(
  voids: readonly Region[],
  lid: readonly Region[],
  contact: readonly Region[],
  props: Props,
): Region[] {
  const reach = reachMm(props);
  const near = offset(simple(contact), reach - SHORT_MM, { sag: SAG_MM });
  const outOfReach = subtract(intersect(voids, lid), near).filter((region) => regionArea(region) > SPECK_MM2);
  if (outOfReach.length === 0) return [];
  const open = new Patches(outOfReach, 2 * reach, SPECK_MM2);
  const lids = new Patches(lid, 2 * reach);
  const placed: Region[] = [];
  const place = ([x, y]: Point): boolean => {
    const square = squareAt(x, y, props.sizeMm);
    const isTaken = open.take(offset(lids.within(square), reach + OVER_MM));
    if (isTaken) placed.push(square);
    return isTaken;
  };
  const far = reach + props.sizeMm;
  for (const [x, y] of gridNear(outOfReach, reach, props)) {
    if (open.meets([x - far, y - far, x + far, y + far]) && isInside(x, y, lid)) place([x, y]);
  }
  let left = unite(open.regions);
  while (left.length > 0) {
    // A speck at the lid's very edge, on which no prop finds lid to carry, is left.
    left = place(middleOf(left[0])) ? unite(open.regions) : left.slice(1);
  }
  return placed;
}

/** Crossings of the grid near some regions, those inside them first; row by row from the south. */
function gridNear(regions: readonly Region[], reach: number, { spacingMm, sizeMm }: Props): Point[] {
  const [minX, minY, maxX, maxY] = boxOf(ringsOf(regions));
  const off = reach + sizeMm;
  const first = (least: number) => Math.floor((least - off) / spacingMm);
  const inside: Point[] = [];
  const beside: Point[] = [];
  for (let row = first(minY); row * spacingMm <= maxY + off; row++) {
    for (let column = first(minX); column * spacingMm <= maxX + off; column++) {
      const at: Point = [column * spacingMm, row * spacingMm];
      (isInside(at[0], at[1], regions) ? inside : beside).push(at);
    }
  }
  return [...inside, ...beside];
}

const squareAt = (x: number, y: number, sizeMm: number): Region => [
  moved(rectangle(-sizeMm / 2, -sizeMm / 2, sizeMm / 2, sizeMm / 2), x, y).map(snapped),
];

/** A point of a region, in its middle where that is foam. */
function middleOf(region: Region): Point {
  const [x, y] = centroidOf(region);
  return isInRegion(x, y, region) ? [x, y] : [region[0][0], region[0][1]];
}
