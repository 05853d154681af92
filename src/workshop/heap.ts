import { PI, pow, turn } from '../geometry/exact-math.ts';
import { KPA_PER_KG_M2 } from './foam-load.ts';

/** Loose dry ground stands no steeper (sand: EN 1991-1-1, table A.7, as transcribed). */
const REPOSE_DEG = 30;

/** The base of a heap as high as so much: height over the tangent of its angle, in the unit of the height. */
export function heapRadius(height: number, reposeDeg: number): number {
  const { cos, sin } = turn(reposeDeg);
  return (height * cos) / sin;
}

/** A heap of loose stuff poured on a flat floor: a cone at its angle of repose. */
export function heapOf(
  volumeM3: number,
  reposeDeg = REPOSE_DEG,
): { readonly radiusM: number; readonly heightM: number } {
  const { cos, sin } = turn(reposeDeg);
  const radiusM = pow((3 * volumeM3 * cos) / (PI * sin), 1 / 3);
  return { radiusM, heightM: (radiusM * sin) / cos };
}

/** What a heap presses under its middle, kN/m². */
export const heapKNM2 = (volumeM3: number, densityKgM3: number): number =>
  heapOf(volumeM3).heightM * densityKgM3 * KPA_PER_KG_M2;
