import { edgeRuns } from '../geometry/edge-runs.ts';
import { poles } from '../geometry/poles.ts';
import type { Ring } from '../geometry/ring.ts';

/** A remainder that foam is cut from again. */
export interface Remainder {
  readonly name: string;
  readonly thicknessMm: number;
  readonly rings: readonly Ring[];
}

/** A boulder that remainders are large enough for: half an ellipsoid that stands on its widest layer. */
export interface LeftRock {
  readonly thicknessMm: number;
  /** What each layer is cut from, from the ground up. */
  readonly from: readonly string[];
  /** Finished, without the carver's allowance. */
  readonly acrossMm: number;
  readonly heightMm: number;
}

/** Fewer layers make a cushion, no boulder; a smaller one is a stone that is carved out of one piece (our choice). */
const LEAST_LAYERS = 3;
const LEAST_ACROSS_MM = 250;
/** As high as half its width and no higher than its width: boulders that stand by themselves (common practice, no source). */
const LOWEST = 0.35;
const HIGHEST = 1;
/** Left on for the carver all round (common practice, no source). */
const ALLOWANCE_MM = 20;

/**
 * The largest boulder of each thickness that can be built from what is left, the largest first. Layer i of n is a disc within the i-th
 * largest circle that any remainder holds; a half ellipsoid of radius R cut proud asks for R √(1 − (i / n)²), so R is the least of what each
 * layer allows. One boulder a thickness: what is left after it is smaller.
 */
export function rocksFrom(remainders: readonly Remainder[]): LeftRock[] {
  const thicknesses = [...new Set(remainders.map(({ thicknessMm }) => thicknessMm))].sort((a, b) => a - b);
  return thicknesses
    .flatMap((thicknessMm) => {
      const circles = remainders
        .filter((each) => each.thicknessMm === thicknessMm)
        .map(({ name, rings }) => ({ name, radiusMm: poles(edgeRuns(rings), 1)[2] ?? 0 }))
        .sort((a, b) => b.radiusMm - a.radiusMm || (a.name < b.name ? -1 : 1));
      return largest(circles, thicknessMm) ?? [];
    })
    .sort((a, b) => b.acrossMm * b.acrossMm * b.heightMm - a.acrossMm * a.acrossMm * a.heightMm);
}

function largest(
  circles: readonly { readonly name: string; readonly radiusMm: number }[],
  thicknessMm: number,
): LeftRock | null {
  let best: LeftRock | null = null;
  let [most, size] = [Infinity, 0];
  for (let n = LEAST_LAYERS; n <= circles.length; n++) {
    // The n-th layer is the smallest; those before need more of their circles than with fewer layers above them.
    most = Infinity;
    for (let i = 0; i < n; i++) most = Math.min(most, circles[i].radiusMm / Math.sqrt(1 - (i / n) * (i / n)));
    const acrossMm = 2 * (most - ALLOWANCE_MM);
    const heightMm = n * thicknessMm - ALLOWANCE_MM;
    if (acrossMm < LEAST_ACROSS_MM || heightMm > HIGHEST * acrossMm || heightMm < LOWEST * acrossMm) continue;
    const volume = acrossMm * acrossMm * heightMm;
    if (volume <= size) continue;
    size = volume;
    best = { thicknessMm, from: circles.slice(0, n).map(({ name }) => name), acrossMm, heightMm };
  }
  return best;
}
