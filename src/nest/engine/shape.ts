import { offset, unite } from '../../geometry/clip.ts';
import { edgeRuns } from '../../geometry/edge-runs.ts';
import { turn } from '../../geometry/exact-math.ts';
import { convexHull, diameter, smallestRectangle } from '../../geometry/hull.ts';
import { depth, poles } from '../../geometry/poles.ts';
import { areaOf, type Region, type Ring, ringArea, ringsOf } from '../../geometry/ring.ts';
import { ARC_SAG_MM } from '../../geometry/tolerance.ts';
import { outward } from './outward.ts';
import { blankPosture, type Posture, SHY_MM, turnTo } from './posture.ts';
import { type Hole, isMirrored, type Pose, type Shape, turnDegOf } from './problem.ts';

/**
 * How far outlines may be simplified where there is a gap: a share of it, or at least so much, which is finer than any hand
 * holds a cutter; half of that before they are grown (growing 300 points costs five times what 80 do).
 */
const COARSE_SHARE = 0.06;
const LEAST_COARSE_MM = 0.15;
/** Where there is none: the vertices that are enough, and the area that may be added. */
const ENOUGH = 40;
const MOST_SHARE = 0.001;
/** In hand on every outline with a gap: half a step of the position in x and y, and the grid of the clipping. */
const HAND_MM = 0.002;
/** Circles kept of a shape; of a slender one, whose largest is less than so much of it, more. */
const POLES = 12;
const SLENDER_POLES = 32;
const SLENDER = 0.1;

/** How a shape is to be prepared. */
export interface ShapeOptions {
  readonly gapMm: number;
  /** Poses to try, promising ones first; at least one. Equal ones are dropped. */
  readonly poses: readonly Pose[];
  /** Whether turns between those may be taken too. */
  readonly turnsFreely: boolean;
  /** Whether it may have to lie in a container that is no rectangle. */
  readonly hasOddContainers: boolean;
}

/** Prepare an outline: regions that do not overlap (several when pieces of a blank lie apart), on the grid of SNAP. */
export function prepareShape(regions: readonly Region[], options: ShapeOptions): Shape {
  const { gapMm, poses, turnsFreely, hasOddContainers } = options;
  const outline = ringsOf(regions);
  const hull = convexHull(outline);
  const around = smallestRectangle(hull);
  const areaMm2 = areaOf(regions);
  const coarseMm = Math.max(LEAST_COARSE_MM, COARSE_SHARE * gapMm);
  const few = (rings: readonly Ring[], highest: number) =>
    rings.map((ring) => outward(ring, { highest, mostShare: Infinity, enough: 0 }));
  const bare = gapMm > 0 || hasOddContainers ? few(outline, coarseMm / 2) : [];
  const grown =
    gapMm > 0
      ? few(ringsOf(offset(regrouped(regions, bare), gapMm / 2 + HAND_MM + 2.25 * ARC_SAG_MM)), coarseMm / 2)
      : outline.map((ring) =>
          drawnIn(outward(ring, { highest: Infinity, mostShare: MOST_SHARE, enough: ENOUGH }), SHY_MM),
        );
  const runs = edgeRuns(grown);
  const first = poles(runs, POLES);
  const isSlender = first.length > 0 && 3.1 * first[2] * first[2] < SLENDER * areaMm2;
  const circles = isSlender ? poles(runs, SLENDER_POLES) : first;
  const shape: Shape = {
    outline,
    hull,
    areaMm2,
    hullAreaMm2: ringArea(hull),
    diameterMm: diameter(hull),
    longMm: around.long,
    shortMm: around.short,
    inradiusMm: circles.length > 0 ? Math.max(0, depth(edgeRuns(outline), circles[0], circles[1])) : 0,
    grown,
    halfGapMm: gapMm / 2,
    slackMm:
      gapMm > 0
        ? coarseMm + HAND_MM + 2.25 * ARC_SAG_MM
        : outline.some((r, i) => r.length > grown[i].length)
          ? diameter(hull)
          : 0,
    bare: hasOddContainers ? bare : [],
    poles: circles,
    holes: grown.filter((ring) => ringArea(ring) < 0).map(holeOf),
    poses,
    turnsFreely,
  };
  return { ...shape, poses: different(shape, poses) };
}

/** Rings of simplified regions, put together again; those of several may have grown into one another. */
function regrouped(regions: readonly Region[], rings: readonly Ring[]): Region[] {
  let at = 0;
  const same = regions.map((region) => region.map(() => rings[at++]));
  return same.length > 1 ? unite(same) : same;
}

function holeOf(ring: Ring): Hole {
  const [, , radius = 0] = poles(edgeRuns([ring]), 1);
  return { areaMm2: -ringArea(ring), radius };
}

/** A ring whose edges are moved to their left by so little that their order stays. */
function drawnIn(ring: Ring, by: number): Ring {
  const n = ring.length;
  const result = new Float64Array(n);
  for (let i = 0; i < n; i += 2) {
    const a = (i + n - 2) % n;
    const b = (i + 2) % n;
    let ux = ring[i] - ring[a];
    let uy = ring[i + 1] - ring[a + 1];
    let vx = ring[b] - ring[i];
    let vy = ring[b + 1] - ring[i + 1];
    const u = Math.sqrt(ux * ux + uy * uy);
    const v = Math.sqrt(vx * vx + vy * vy);
    ux /= u;
    uy /= u;
    vx /= v;
    vy /= v;
    // Where both moved edges meet; at a needle's point no further than the needle allows.
    const stretch = Math.max(0.1, 1 + ux * vx + uy * vy);
    result[i] = ring[i] - (by * (uy + vy)) / stretch;
    result[i + 1] = ring[i + 1] + (by * (ux + vx)) / stretch;
  }
  return result;
}

/** Poses at which the finished outline differs from all before. Outlines are compared in full only where their boxes and hulls agree. */
function different(shape: Shape, poses: readonly Pose[]): Pose[] {
  const bareShape = { ...shape, grown: shape.outline, bare: [], poles: new Float64Array(0) };
  const keyOf = ({ edges, minX, minY }: Posture) => {
    const points: [number, number][] = [];
    for (let i = 0; i < edges.length; i += 4) {
      points.push([Math.round((edges[i] - minX) * 1e4), Math.round((edges[i + 1] - minY) * 1e4)]);
    }
    return points.sort((a, b) => a[0] - b[0] || a[1] - b[1]).join(' ');
  };
  const seen: { readonly box: readonly number[]; readonly pose: Pose }[] = [];
  return poses.filter((pose) => {
    const box = placeOfHull(shape.hull, pose);
    const alike = seen.filter((other) => other.box.every((v, i) => Math.abs(v - box[i]) < 2e-4));
    seen.push({ box, pose });
    if (alike.length === 0) return true;
    const key = keyOf(turnTo(blankPosture(bareShape), pose));
    return alike.every((other) => keyOf(turnTo(blankPosture(bareShape), other.pose)) !== key);
  });
}

/** Width, height and the mean of the corners within them, of a hull at a pose: the same where it looks the same. */
function placeOfHull(hull: Ring, pose: Pose): number[] {
  const { cos, sin } = turn(turnDegOf(pose));
  const flip = isMirrored(pose) ? -1 : 1;
  let [minX, minY, maxX, maxY, sumX, sumY] = [Infinity, Infinity, -Infinity, -Infinity, 0, 0];
  for (let i = 0; i < hull.length; i += 2) {
    const x = flip * hull[i] * cos - hull[i + 1] * sin;
    const y = flip * hull[i] * sin + hull[i + 1] * cos;
    minX = Math.min(minX, x);
    maxX = Math.max(maxX, x);
    minY = Math.min(minY, y);
    maxY = Math.max(maxY, y);
    sumX += x;
    sumY += y;
  }
  const n = Math.max(1, hull.length / 2);
  return [maxX - minX, maxY - minY, sumX / n - minX, sumY / n - minY];
}
