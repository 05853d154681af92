/** By how much a delivered board may be thinner and thicker. */
export interface Tolerance {
  readonly belowMm: number;
  readonly aboveMm: number;
  readonly source: string;
}

/**
 * What the standards let pass. EPS: EN 13163, class T(2), as bachl.cz declares it. XPS: EN 13164, class T1, as ravago building
 * solutions declare it. Null for other foams: ask the maker.
 */
export function thicknessTolerance(foam: string, thicknessMm: number): Tolerance | null {
  if (foam === 'EPS') return { belowMm: 2, aboveMm: 2, source: 'EN 13163, T(2)' };
  if (foam !== 'XPS') return null;
  const aboveMm = thicknessMm < 50 ? 2 : thicknessMm <= 120 ? 3 : 6;
  return { belowMm: 2, aboveMm, source: 'EN 13164, T1' };
}

/** By how much a stack may be off: all boards one way, and where each is off at random (root of the sum of squares). */
export const stackTolerance = ({ belowMm, aboveMm }: Tolerance, layers: number) => ({
  lowestMm: -layers * belowMm,
  highestMm: layers * aboveMm,
  randomMm: Math.sqrt(layers) * Math.max(belowMm, aboveMm),
});
