import { offset } from '../../geometry/clip.ts';
import { distanceToRings, isInside, type Region, ringLength, ringsOf } from '../../geometry/ring.ts';
import { GLUE_BACK_MM } from '../../model/piece.ts';
import type { CarveStation, Finish } from '../../model/rock.ts';
import { roundedShortBy, SAG_MM } from '../pieces/offsets.ts';

/** Fewer than this on an outline tell nothing of its form. */
const LEAST_STATIONS = 6;

/** Where glue may lie on a face: inside its carved line, kept back from it by no less than a cut edge asks for. */
export const glueWithin = (face: readonly Region[]): Region[] =>
  offset(face, -(GLUE_BACK_MM + roundedShortBy(SAG_MM)), { sag: SAG_MM });

/**
 * Stations along a piece's outer edge and how deep the carved surface lies there, level, at the top face and at the underside: the nearest
 * way to its line. Evenly along the edge from its first point, none where it was cut by a seam.
 */
export function stationsOf(
  region: Region,
  rough: readonly Region[],
  finish: Finish,
  spacingMm: number,
): CarveStation[] {
  const [outer] = region;
  const length = ringLength(outer);
  const count = Math.max(LEAST_STATIONS, Math.round(length / spacingMm));
  const edge = ringsOf(rough);
  const stations: CarveStation[] = [];
  const stepMm = length / count;
  let [walked, next] = [0, stepMm / 2];
  for (let i = 0; i < outer.length; i += 2) {
    const [x, y] = [outer[i], outer[i + 1]];
    const j = (i + 2) % outer.length;
    const [dx, dy] = [outer[j] - x, outer[j + 1] - y];
    const side = Math.sqrt(dx * dx + dy * dy);
    for (; next <= walked + side && stations.length < count; next += stepMm) {
      const part = side === 0 ? 0 : (next - walked) / side;
      const at = [x + part * dx, y + part * dy] as const;
      if (distanceToRings(at[0], at[1], edge) > ON_EDGE_MM) continue;
      stations.push({ at, topMm: depth(at, finish.top), undersideMm: depth(at, finish.underside) });
    }
    walked += side;
  }
  return stations;
}

/** A point of the edge is no farther from it than rounding makes it. */
const ON_EDGE_MM = 0.01;

/** From a place to the line of the carved surface; 0 where it is inside it, which the allowance rules out. */
const depth = ([x, y]: readonly [number, number], face: readonly Region[]): number | null =>
  face.length === 0 ? null : isInside(x, y, face) ? 0 : distanceToRings(x, y, ringsOf(face));
