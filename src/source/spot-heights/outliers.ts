import { Triangulation } from '../../geometry/triangulation.ts';
import type { Spots } from './doubles.ts';

/** Score from which a value counts as an outlier: what Iglewicz and Hoaglin recommend. */
const PUBLISHED = 3.5;
/** Ground is rougher than errors of measuring are: spots are told from so many times the published score. */
const ROUGHER = 2;
/** Fewer spots than this have no usual residual. */
const FEWEST = 10;
/** A residual below this is no blunder, however smooth the ground. */
const LEAST_MM = 1;

/**
 * Spots that fit their neighbours far worse than spots of this ground usually do, the worst first. A spot's residual is its
 * height above the median plane: the median of what its neighbours' heights would be here if the ground sloped as the whole
 * does; neighbours are those of the Delaunay triangulation. It is told when 0.6745 · |residual − median| ÷ MAD passes the limit
 * (modified z-score: Iglewicz and Hoaglin, "How to detect and handle outliers", ASQC 1993) and no neighbour's is larger.
 */
export function outliers(spots: Spots, slope: (xMm: number, yMm: number) => number): { at: number; offMm: number }[] {
  const count = spots.zMm.length;
  if (count < FEWEST) return [];
  const neighbours = neighboursOf(spots);
  const above = spots.zMm.map((z, i) => z - slope(spots.xMm[i], spots.yMm[i]));
  const residuals = above.map((z, i) => {
    const near = neighbours[i];
    return near.length === 0 ? 0 : z - median(near.map((k) => above[k]));
  });
  const middle = median([...residuals]);
  const offs = residuals.map((residual) => Math.abs(residual - middle));
  const usual = median([...offs]);
  const limit = Math.max(LEAST_MM, (ROUGHER * PUBLISHED * usual) / 0.6745);
  const found: { at: number; offMm: number }[] = [];
  for (let i = 0; i < count; i++) {
    if (offs[i] > limit && neighbours[i].every((k) => offs[k] <= offs[i])) found.push({ at: i, offMm: residuals[i] });
  }
  return found.sort((a, b) => Math.abs(b.offMm) - Math.abs(a.offMm) || a.at - b.at);
}

function neighboursOf({ xMm, yMm }: Spots): number[][] {
  const neighbours = Array.from(xMm, () => new Set<number>());
  const whole = (values: Float64Array) => values.map((mm) => Math.round(mm * 1000));
  const { triangles } = new Triangulation(whole(xMm), whole(yMm));
  for (let e = 0; e < triangles.length; e++) {
    const a = triangles[e];
    const b = triangles[e % 3 === 2 ? e - 2 : e + 1];
    neighbours[a].add(b);
    neighbours[b].add(a);
  }
  return neighbours.map((each) => [...each]);
}

function median(values: number[]): number {
  values.sort((a, b) => a - b);
  const half = values.length >> 1;
  return values.length % 2 === 1 ? values[half] : (values[half - 1] + values[half]) / 2;
}
