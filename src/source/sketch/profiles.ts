import type { Kit } from '../../plugin.ts';

/**
 * How a feature falls from its middle to its foot. Each is a function of the distance ratio t: 0 in the middle, where it
 * is 1, and 1 at the foot, beyond which it is 0.
 *
 * - `smooth`: 1 − 3t² + 2t³. Level at the top and at the foot, steepest half-way.
 * - `round`: √(1 − t²). A dome: half an ellipsoid, upright at the foot.
 * - `cone`: 1 − t. A straight slope to a point.
 * - `bell`: (1 − t²)³. A broad top and a long thin foot.
 * - `flat`: 1. A table with an upright edge; between two posts it becomes a slope one spacing long.
 */
export const PROFILES = ['smooth', 'round', 'cone', 'bell', 'flat'] as const;
export type ProfileName = (typeof PROFILES)[number];
/** Height as a share of the whole, at a distance ratio t ≥ 0. */
export type Profile = (t: number) => number;

const FORMULAS: Readonly<Record<ProfileName, Profile>> = {
  smooth: (t) => 1 - t * t * (3 - 2 * t),
  round: (t) => Math.sqrt(1 - t * t),
  cone: (t) => 1 - t,
  bell: (t) => (1 - t * t) * (1 - t * t) * (1 - t * t),
  flat: () => 1,
};

/** The profile of a name. */
export function profileOf(name: ProfileName): Profile {
  const formula = FORMULAS[name];
  return (t) => (t <= 1 ? formula(t) : 0);
}

/** The option of every feature that has a foot. */
export const profileOption = ({ z }: Kit) =>
  z.enum(PROFILES).default('smooth').describe('how it runs from its middle to its foot');

/** Distance ratio on a slope that starts at 0 and is so long; one without length is upright. */
export const ratioBeyond = (beyondMm: number, slopeMm: number): number => (beyondMm <= 0 ? 0 : beyondMm / slopeMm);
