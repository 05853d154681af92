import { offset, regionsFromRings, unite } from '../../geometry/clip.ts';
import { type EdgeRuns, edgeRuns } from '../../geometry/edge-runs.ts';
import { convexHull, diameter, smallestRectangle } from '../../geometry/hull.ts';
import { depth, poles } from '../../geometry/poles.ts';
import { areaOf, boxOf, type Region, type Ring, ringArea, ringsOf } from '../../geometry/ring.ts';
import { simplified } from '../../geometry/simplify.ts';
import { ARC_SAG_MM, SNAP } from '../../geometry/tolerance.ts';
import type { Blank } from '../../model/piece.ts';

/**
 * How far the outlines that are searched with may be simplified, always outward: a share of the gap, or at least so much,
 * which is finer than any hand holds a cutter.
 */
const COARSE_SHARE = 0.06;
const LEAST_COARSE_MM = 0.15;
/** In hand on every grown outline: half a step of the printed position in x and y, and the grid of the clipping. */
const HAND_MM = 0.002;
/** How far outlines are simplified before they are grown at all, as a share of that: growing 300 points costs five times what 80 do. */
const FIRST_SHARE = 0.5;
/** Circles kept of each outline: long thin ones need many to tell how deep an overlap is. */
const POLES = 12;

/** An area in a shape's hole, after the gap, where another shape may lie. */
export interface Hole {
  readonly ring: Ring;
  readonly areaMm2: number;
  /** The deepest point found and its distance from the edge: x, y, radius. */
  readonly deepest: Float64Array;
}

/**
 * What is to be placed, prepared once. Coordinates are the blank's own: its box starts at (0, 0), on the grid of SNAP.
 * Everything in it is flat data that structuredClone can carry to a worker.
 */
export interface Shape {
  /** The finished edges of all pieces of the blank together, read by even-odd rule. */
  readonly outline: readonly Ring[];
  readonly hull: Ring;
  readonly areaMm2: number;
  readonly hullAreaMm2: number;
  readonly diameterMm: number;
  /** Sides of the smallest rectangle round it. */
  readonly longMm: number;
  readonly shortMm: number;
  /** Radius of a circle that lies inside it. */
  readonly inradiusMm: number;
  /** The outline grown by half the gap and simplified outward: where these do not meet, the gap is kept, in holes too. */
  readonly grown: readonly Ring[];
  /** The same, indexed. */
  readonly grownRuns: EdgeRuns;
  /** How far beyond half the gap that may be. */
  readonly slackMm: number;
  /** The outline simplified outward without the gap: what must lie inside an offcut. Empty where no offcut is odd. */
  readonly bare: readonly Ring[];
  readonly poles: Float64Array;
  readonly holes: readonly Hole[];
  /** Not more than the area of the outline grown by half the gap; and of the holes left in it. For bounds. */
  readonly leastGrownMm2: number;
  readonly leastHolesMm2: readonly number[];
  /** Turns to try, the promising ones first; hundredths of a degree. */
  readonly turnsDeg: readonly number[];
}

/** The blank's outline in its own coordinates, and the point of the landform that is its origin. */
export function ownOutline(blank: Blank): { regions: Region[]; referenceMm: readonly [number, number] } {
  const whole = blank.pieces.length === 1 ? [blank.pieces[0].region] : unite(blank.pieces.map(({ region }) => region));
  const [minX, minY] = boxOf(ringsOf(whole));
  const left = Math.round(minX / SNAP);
  const low = Math.round(minY / SNAP);
  // In whole thousandths, so that the same outline elsewhere in the landform gives the same bits.
  const own = (ring: Ring) => ring.map((v, i) => (Math.round(v / SNAP) - (i % 2 === 0 ? left : low)) / (1 / SNAP));
  const regions = whole.map((region) => region.map(own));
  return { regions, referenceMm: [left / (1 / SNAP), low / (1 / SNAP)] };
}

/**
 * Prepare a shape.
 * @param hasOddOffcuts whether some offcut is no rectangle, so that the bare outline is needed
 * @param turnsFor which turns are to be tried for a hull whose smallest rectangle lies so
 */
export function prepareShape(
  regions: readonly Region[],
  gapMm: number,
  hasOddOffcuts: boolean,
  turnsFor: (hull: Ring, directionDeg: number) => readonly number[],
): Shape {
  const outline = ringsOf(regions);
  const hull = convexHull(outline);
  const around = smallestRectangle(hull);
  const coarseMm = Math.max(LEAST_COARSE_MM, COARSE_SHARE * gapMm);
  const firstMm = FIRST_SHARE * coarseMm;
  const fewer = regionsFromRings(outline.map((ring) => simplified(ring, firstMm)));
  const more = HAND_MM + firstMm + coarseMm + 2.25 * ARC_SAG_MM;
  const coarse = (by: number) => ringsOf(offset(fewer, by + more)).map((ring) => simplified(ring, coarseMm));
  const grown = coarse(gapMm / 2);
  const grownRuns = edgeRuns(grown);
  const circles = poles(grownRuns, POLES);
  // Inside the truth: the points left out took at most so much.
  const inner = gapMm / 2 > 2 * firstMm ? offset(fewer, gapMm / 2 - 2 * firstMm) : regions;
  return {
    outline,
    hull,
    areaMm2: areaOf(regions),
    hullAreaMm2: ringArea(hull),
    diameterMm: diameter(hull),
    longMm: around.long,
    shortMm: around.short,
    inradiusMm:
      circles.length > 0 ? Math.max(0, depth(edgeRuns(ringsOf(fewer)), circles[0], circles[1]) - 2 * firstMm) : 0,
    grown,
    grownRuns,
    slackMm: more + SNAP,
    bare: hasOddOffcuts ? coarse(0) : [],
    poles: circles,
    holes: grown.filter((ring) => ringArea(ring) < 0).map(hole),
    leastGrownMm2: areaOf(inner),
    leastHolesMm2: inner.flatMap((region) => region.slice(1).map((ring) => -ringArea(ring))),
    turnsDeg: turnsFor(hull, around.directionDeg),
  };
}

function hole(ring: Ring): Hole {
  return { ring, areaMm2: -ringArea(ring), deepest: poles(edgeRuns([ring]), 1) };
}
