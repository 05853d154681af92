import { intersect, offset, subtract } from '../../geometry/clip.ts';
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
import { SIMPLIFY_MM } from '../../geometry/tolerance.ts';
import { SAG_MM, simple } from './offsets.ts';

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
const SHORT_MM = SIMPLIFY_MM + 2.25 * SAG_MM;
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
  let open = subtract(intersect(voids, lid), near).filter((region) => regionArea(region) > SPECK_MM2);
  const placed: Region[] = [];
  const place = ([x, y]: Point) => {
    const square = squareAt(x, y, props.sizeMm);
    const within = offset(intersect([square], lid), reach + OVER_MM);
    if (intersect(open, within).length === 0) return;
    placed.push(square);
    open = subtract(open, within).filter((region) => regionArea(region) > SPECK_MM2);
  };
  if (open.length === 0) return placed;
  for (const at of gridNear(open, reach, props)) {
    if (isInside(at[0], at[1], lid)) place(at);
    if (open.length === 0) return placed;
  }
  while (open.length > 0) {
    const before = open;
    place(middleOf(open[0]));
    // A speck at the lid's very edge, on which no prop finds lid to carry.
    if (open === before) open = open.slice(1);
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
