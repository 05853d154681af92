import { massOf } from '../../geometry/mass-of.ts';
import { extent, type Solid } from '../../model/landform.ts';
import type { Up } from '../../model/turned-solid.ts';

/** Sides on which a rock may lie. */
export const BEDS = ['bottom', 'west side', 'east side', 'south side', 'north side'] as const;
export type Bed = (typeof BEDS)[number];

/** Which direction of the rock is up when it lies on a side. */
export const UP_OF: Readonly<Record<Bed, Up>> = {
  bottom: 'z',
  'west side': 'x',
  'east side': '-x',
  'south side': 'y',
  'north side': '-y',
};

/** What layers would make of a rock that lies on one side. */
export interface Bedding {
  readonly bed: Bed;
  /** Area of all treads and soffits together: the surface seen along the direction of the layers. */
  readonly stepsMm2: number;
  /** The part of it where the surface is so flat to the layers that a step ends in a thin lip. */
  readonly lipsMm2: number;
}

/** Flatter to the layers than this (as a cosine, 25°), and a step runs out into a lip over twice as wide as it is thick. */
const LIP_COSINE = 0.906;
/** Flatter than this is a face that a layer's own face makes: no step, no lip. */
const FLAT_COSINE = 1 - 1e-9;
/** A lip is trouble beside its waste: it counts once more (our choice). */
const LIP_WEIGHT = 1;

/**
 * The sides of a rock, the best to lie on first. Cut to enclose the form, each step wastes about half a thickness under its tread, so what
 * is wasted goes by the area seen along the layers' direction, counted as often as the surface passes there; thin lips are where it is
 * nearly parallel to them. Of two opposite sides the one with more of the mass near it is taken: less is glued on overhanging.
 */
export function beddings(solid: Solid): Bedding[] {
  const { positionsMm, triangles } = solid;
  const steps = [0, 0, 0];
  const lips = [0, 0, 0];
  const at = (corner: number, k: number): number => positionsMm[3 * triangles[corner] + k];
  for (let t = 0; t < triangles.length; t += 3) {
    const normal = [0, 1, 2].map((k) => {
      const [p, q] = [(k + 1) % 3, (k + 2) % 3];
      return (
        ((at(t + 1, p) - at(t, p)) * (at(t + 2, q) - at(t, q)) -
          (at(t + 1, q) - at(t, q)) * (at(t + 2, p) - at(t, p))) /
        2
      );
    });
    const area = Math.sqrt(normal[0] * normal[0] + normal[1] * normal[1] + normal[2] * normal[2]);
    for (let k = 0; k < 3; k++) {
      const seen = Math.abs(normal[k]);
      if (area === 0 || seen >= FLAT_COSINE * area) continue;
      steps[k] += seen;
      if (seen > LIP_COSINE * area) lips[k] += seen;
    }
  }
  const { middle } = massOf({ positions: positionsMm, triangles });
  const [minX, minY, maxX, maxY] = extent(solid).box;
  const isWest = middle[0] <= (minX + maxX) / 2;
  const isSouth = middle[1] <= (minY + maxY) / 2;
  const sides: readonly (readonly [Bed, number, boolean])[] = [
    ['bottom', 2, true],
    ['west side', 0, isWest],
    ['east side', 0, !isWest],
    ['south side', 1, isSouth],
    ['north side', 1, !isSouth],
  ];
  const cost = ({ stepsMm2, lipsMm2 }: Bedding) => stepsMm2 + LIP_WEIGHT * lipsMm2;
  return sides
    .map(([bed, k, isNearer]) => ({ bed, stepsMm2: steps[k], lipsMm2: lips[k], isNearer }))
    .sort((a, b) => Number(b.isNearer) - Number(a.isNearer) || cost(a) - cost(b))
    .map(({ bed, stepsMm2, lipsMm2 }) => ({ bed, stepsMm2, lipsMm2 }));
}
