import { refuse } from '../../findings.ts';
import { length } from '../../geometry/exact-math.ts';
import type { Kit } from '../../plugin.ts';
import { numberText } from '../../units.ts';
import type { GroundBefore, Relief } from './relief.ts';

/** The work grows with the third power; so many take a second or so. */
const MOST_SPOTS = 1000;

/** Two spots nearer than this are one place with two heights: no tape tells them apart. */
const SAME_PLACE_MM = 1;

/** Pivots below this (of 1 for a spot alone) leave no digits to join the spots with. */
const LEAST_PIVOT = 1e-11;

/** Options of heights that the ground must pass through. */
export const spotsOptions = (kit: Kit) =>
  kit.z.strictObject({
    points: kit.z
      .array(kit.z.tuple([kit.length(), kit.length(), kit.length()]))
      .min(1)
      .max(MOST_SPOTS)
      .describe('[x, y, height above 0] of each'),
    reach: kit
      .length({ above: 0 })
      .optional()
      .describe('how far a spot moves the ground around it; left out, so far that it meets some fifty others'),
  });

interface SpotsOptions {
  readonly points: readonly (readonly [number, number, number])[];
  readonly reach?: number | undefined;
}

/**
 * Move the ground smoothly so that it passes through every spot, and leave it where no spot reaches. What is missing at
 * the spots is joined by compactly supported radial functions, φ(r) = (1 − r)⁴ (4r + 1) with r = distance / reach < 1:
 * smooth to the second derivative, and in the plane always solvable (Wendland, "Piecewise polynomial, positive definite
 * and compactly supported radial functions of minimal degree", 1995). A spot at a post is met exactly, one between posts
 * as nearly as four flat triangles can follow a curved ground. Between spots the ground may rise or fall beyond them: the
 * more, the steeper it goes from spot to spot in a small part of the reach. Refuses two spots in one place.
 */
export function spots({ points, reach }: SpotsOptions, ground: GroundBefore, path: string): Relief {
  const reachMm = reach ?? usualReachMm(ground.sizeMm, points.length);
  const missingMm = points.map(([x, y, z]) => z - ground.heightAt(x, y));
  const weights = weightsOf(points, missingMm, reachMm, path);
  const xs = points.map(([x]) => x);
  const ys = points.map(([, y]) => y);
  return {
    boxMm: [Math.min(...xs) - reachMm, Math.min(...ys) - reachMm, Math.max(...xs) + reachMm, Math.max(...ys) + reachMm],
    finestMm: reachMm,
    row(yMm) {
      const near = points.map((_, i) => i).filter((i) => Math.abs(ys[i] - yMm) <= reachMm);
      const nearXs = new Float64Array(near.map((i) => xs[i]));
      const squaredDys = new Float64Array(near.map((i) => (ys[i] - yMm) * (ys[i] - yMm)));
      const nearWeights = new Float64Array(near.map((i) => weights[i]));
      const ground = (xMm: number, beforeMm: number) => {
        let movedMm = 0;
        for (let i = 0; i < nearXs.length; i++) {
          const dx = xMm - nearXs[i];
          const squared = dx * dx + squaredDys[i];
          // Without this the sum would miss the spot by its rounding.
          if (squared === 0) return points[near[i]][2];
          movedMm += nearWeights[i] * wendland(Math.sqrt(squared) / reachMm);
        }
        return beforeMm + movedMm;
      };
      return { minXMm: Math.min(...nearXs) - reachMm, maxXMm: Math.max(...nearXs) + reachMm, ground };
    },
  };
}

/** Four times the distance between spots that are spread evenly, at most right across. */
const usualReachMm = ([width, depth]: readonly [number, number], count: number): number =>
  Math.min(length(width, depth), 4 * Math.sqrt((width * depth) / count));

function wendland(r: number): number {
  if (r >= 1) return 0;
  const rest = (1 - r) * (1 - r);
  return rest * rest * (4 * r + 1);
}

/** How much of its function each spot gets, so that at every spot the sum is what is missing there. Cholesky's method. */
function weightsOf(points: SpotsOptions['points'], missingMm: readonly number[], reachMm: number, path: string) {
  const n = points.length;
  const lower = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      const distanceMm = length(points[i][0] - points[j][0], points[i][1] - points[j][1]);
      if (i !== j && distanceMm < SAME_PLACE_MM) tooNear(points, i, path);
      let rest = wendland(distanceMm / reachMm);
      for (let k = 0; k < j; k++) rest -= lower[i * n + k] * lower[j * n + k];
      if (i === j && rest < LEAST_PIVOT) tooNear(points, i, path);
      lower[i * n + j] = i === j ? Math.sqrt(rest) : rest / lower[j * n + j];
    }
  }
  const weights = new Float64Array(missingMm);
  for (let i = 0; i < n; i++) {
    for (let k = 0; k < i; k++) weights[i] -= lower[i * n + k] * weights[k];
    weights[i] /= lower[i * n + i];
  }
  for (let i = n - 1; i >= 0; i--) {
    for (let k = i + 1; k < n; k++) weights[i] -= lower[k * n + i] * weights[k];
    weights[i] /= lower[i * n + i];
  }
  return weights;
}

function tooNear(points: SpotsOptions['points'], i: number, path: string): never {
  const [x, y] = points[i];
  const distances = points.slice(0, i).map(([otherX, otherY]) => length(x - otherX, y - otherY));
  const nearest = distances.indexOf(Math.min(...distances));
  const gapMm = numberText(distances[nearest], 3);
  return refuse(
    'source/spots-too-near',
    `Spots ${nearest + 1} and ${i + 1} are ${gapMm} mm apart: no smooth ground can be told to pass both.`,
    'Take one of them out.',
    { path: `${path}.points.${i}`, atMm: [x, y] },
  );
}
