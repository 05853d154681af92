import { type EdgeRuns, edgeRuns, turnedRuns } from '../../geometry/edge-runs.ts';
import { turn } from '../../geometry/exact-math.ts';
import { type Box, boxOf, placed, type Ring } from '../../geometry/ring.ts';
import { SNAP } from '../../geometry/tolerance.ts';
import type { Hole, Shape } from './shape.ts';

/**
 * How far grown boxes of shapes at quarter turns stay short of half the gap: so little that it cannot be measured, enough
 * that shapes whose boxes stand exactly a gap apart do not touch. Exact fits live on it.
 */
const SHY_MM = 2e-7;

/** A shape at one turn, standing at the origin: only moves are left. All but the boxes is made when first asked for. */
export interface Posture {
  readonly shape: Shape;
  readonly turnDeg: number;
  /** Of the finished edges; at an odd turn with the rounding of the printed position in hand. */
  readonly box: Box;
  /** Around the grown outline. */
  readonly grownBox: Box;
  grown(): EdgeRuns;
  /** Finished edges, for offcuts. */
  bare(): EdgeRuns;
  /** Circles inside the grown outline. */
  poles(): Float64Array;
  holes(): readonly PostureHole[];
}

export interface PostureHole {
  readonly box: Box;
  readonly areaMm2: number;
  readonly deepest: Float64Array;
}

/** Turn a shape. */
export function posture(shape: Shape, turnDeg: number, gapMm: number): Posture {
  const placement = { turnDeg, mirrored: false, xMm: 0, yMm: 0 };
  const turned = (ring: Ring) => placed(ring, placement);
  const tight = boxOf([turned(shape.hull)]);
  const isExact = turnDeg % 90 === 0;
  // At a quarter turn the sides of the box are exact: nothing that is nearer than the gap lies beyond them.
  const grownBox = expand(tight, isExact ? gapMm / 2 - SHY_MM : gapMm / 2 + shape.slackMm);
  const grown = () =>
    isExact
      ? edgeRuns(shape.grown.map((ring) => cutToBox(turned(ring), grownBox)))
      : turnedRuns(shape.grownRuns, turnDeg);
  const hole = ({ ring, areaMm2, deepest }: Hole) => ({
    box: boxOf([turned(ring)]),
    areaMm2,
    deepest: turnedCircles(deepest, turnDeg),
  });
  return {
    shape,
    turnDeg,
    box: isExact ? tight : expand(tight, SNAP),
    grownBox,
    grown: once(grown),
    bare: once(() => edgeRuns(shape.bare.map(turned))),
    poles: once(() => turnedCircles(shape.poles, turnDeg)),
    holes: once(() => shape.holes.map(hole)),
  };
}

function once<T>(make: () => T): () => T {
  let made: T | undefined;
  return () => (made ??= make());
}

function turnedCircles(circles: Float64Array, turnDeg: number): Float64Array {
  const { cos, sin } = turn(turnDeg);
  const result = new Float64Array(circles.length);
  for (let i = 0; i < circles.length; i += 3) {
    result[i] = circles[i] * cos - circles[i + 1] * sin;
    result[i + 1] = circles[i] * sin + circles[i + 1] * cos;
    result[i + 2] = circles[i + 2];
  }
  return result;
}

const expand = ([minX, minY, maxX, maxY]: Box, by: number): Box => [minX - by, minY - by, maxX + by, maxY + by];

/** A ring with what lies beyond a box cut off, side by side (Sutherland, Hodgman 1974). Sides of the box may be run twice. */
function cutToBox(ring: Ring, box: Box): Ring {
  let points: Ring = ring;
  for (let side = 0; side < 4; side++) {
    const axis = side % 2;
    const sign = side < 2 ? 1 : -1;
    const limit = sign * box[side];
    const kept: number[] = [];
    for (let i = 0, j = points.length - 2; i < points.length; j = i, i += 2) {
      const before = sign * points[j + axis] - limit;
      const now = sign * points[i + axis] - limit;
      if (before < 0 !== now < 0) {
        const t = before / (before - now);
        const other = points[j + 1 - axis] + t * (points[i + 1 - axis] - points[j + 1 - axis]);
        kept.push(...(axis === 0 ? [box[side], other] : [other, box[side]]));
      }
      if (now >= 0) kept.push(points[i], points[i + 1]);
    }
    points = Float64Array.from(kept);
  }
  return points;
}
