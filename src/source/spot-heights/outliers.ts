import { trendAt, trendOf } from '../../geometry/surface/trend.ts';
import { Triangulation } from '../../geometry/triangulation.ts';
import type { Spots } from './doubles.ts';

/** Score from which a value is told. The published 3.5 told 3 to 7 spots in 200 of faultless smooth hills, 5 tells 1 to 3. */
const LIMIT = 5;
/** The score of a value is its distance from the median times this over the median distance (MAD). */
const OF_MAD = 0.6745;
/** Fewer spots than this have no usual residual. */
const FEWEST = 12;
/** Spots of the hull are led to from one side only: their residuals may be so many times as large. */
const ON_HULL = 3;
/** A residual below this is no blunder, however smooth the ground. */
const LEAST_MM = 1;

/**
 * Spots that fit their neighbours far worse than the spots around them do, the worst first. A spot's residual is its height above
 * what its neighbours lead to: the median of their heights, each carried here along the plane of best fit through them and
 * their neighbours (of the Delaunay triangulation). It is told when its modified z-score (Iglewicz and Hoaglin, "How
 * to detect and handle outliers", ASQC 1993) passes 5 both among the residuals round it and among all, and none
 * beside it is larger. Among all alone, the top and the foot of every hill would be told: ground bends more here than there.
 */
export function outliers(spots: Spots): { at: number; offMm: number }[] {
  const count = spots.zMm.length;
  if (count < FEWEST) return [];
  const { near, isOnHull } = neighboursOf(spots);
  const around = near.map((each, i) => [...new Set(each.flatMap((k) => near[k]))].filter((k) => k !== i));
  const residuals = spots.zMm.map((_, i) => residualOf(spots, i, near[i], around[i]));
  const limit = Math.max(LEAST_MM, limitOf([...residuals]));
  const found: { at: number; offMm: number }[] = [];
  for (let i = 0; i < count; i++) {
    const off = Math.abs(residuals[i]) / (isOnHull[i] ? ON_HULL : 1);
    if (off <= limit || near[i].some((k) => Math.abs(residuals[k]) > Math.abs(residuals[i]))) continue;
    if (off > limitOf(around[i].map((k) => residuals[k]))) found.push({ at: i, offMm: residuals[i] });
  }
  return found.sort((a, b) => Math.abs(b.offMm) - Math.abs(a.offMm) || a.at - b.at);
}

function residualOf({ xMm, yMm, zMm }: Spots, at: number, near: readonly number[], around: readonly number[]): number {
  if (near.length < 3) return 0;
  const pick = (values: Float64Array) => Float64Array.from(around, (k) => values[k]);
  const plane = trendOf({ columns: pick(xMm), rows: pick(yMm), z: pick(zMm) }, 1);
  const above = (k: number) => zMm[k] - trendAt(plane, xMm[k], yMm[k]);
  return above(at) - median(near.map(above));
}

/** How far from 0 a residual among others may lie. */
const limitOf = (residuals: readonly number[]): number => (LIMIT / OF_MAD) * median(residuals.map(Math.abs));

function neighboursOf({ xMm, yMm }: Spots): { near: number[][]; isOnHull: Uint8Array } {
  const neighbours = Array.from(xMm, () => new Set<number>());
  const whole = (values: Float64Array) => values.map((mm) => Math.round(mm * 1000));
  const isOnHull = new Uint8Array(xMm.length);
  const { triangles, twins } = new Triangulation(whole(xMm), whole(yMm));
  for (let e = 0; e < triangles.length; e++) {
    const a = triangles[e];
    const b = triangles[e % 3 === 2 ? e - 2 : e + 1];
    neighbours[a].add(b);
    neighbours[b].add(a);
    if (twins[e] < 0) isOnHull[a] = isOnHull[b] = 1;
  }
  return { near: neighbours.map((each) => [...each]), isOnHull };
}

function median(values: number[]): number {
  values.sort((a, b) => a - b);
  const half = values.length >> 1;
  return values.length % 2 === 1 ? values[half] : (values[half - 1] + values[half]) / 2;
}
