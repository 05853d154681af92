import { directionDeg } from '../../geometry/exact-math.ts';
import type { StandingRock } from '../../model/rock.ts';
import { GRAVITY } from '../../units.ts';

/** Dry sand in bags, loose (common practice, no source). */
export const SAND_KG_M3 = 1500;

/** How steady a rock stands. */
export interface Tipping {
  readonly foamKg: number;
  /** Tilted so far it falls by itself: the middle of mass passes the edge. */
  readonly tiltDeg: number;
  /** Level push at its top that tips it, in newtons, and what must lie low in it to stand up to the push that is asked for. */
  readonly tipsAtN: number;
  readonly ballastKg: number;
}

/**
 * Whether a rock tips when it is pushed at its top: the push's moment about the nearest edge against that of its weight. Ballast low in
 * the middle of the seat counts with the same arm. What the ground round the buried part holds is left out: sand gives way.
 */
export function tipping(rock: StandingRock, densityKgM3: number, pushN: number): Tipping {
  const foamKg = (rock.volumeMm3 * densityKgM3) / 1e9;
  const arm = Math.max(0, rock.edgeMm);
  const tipsAtN = (foamKg * GRAVITY * arm) / rock.heightMm;
  const neededKg = arm === 0 ? Infinity : (pushN * rock.heightMm) / (GRAVITY * arm);
  return {
    foamKg,
    tiltDeg: directionDeg(1, rock.massHeightMm === 0 ? 0 : arm / rock.massHeightMm),
    tipsAtN,
    ballastKg: Math.max(0, neededKg - foamKg),
  };
}
