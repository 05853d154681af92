import { turn } from '../../geometry/exact-math.ts';
import { isInRing, type Point } from '../../geometry/ring.ts';
import type { Kit } from '../../plugin.ts';
import { courseOf } from './course.ts';
import { type ProfileName, profileOf, profileOption, ratioBeyond } from './profiles.ts';
import type { Relief } from './relief.ts';

/** Options of ground set to a level: an outline, or a rectangle. */
export const shelfOptions = (kit: Kit) =>
  kit.z
    .strictObject({
      outline: kit.z.array(kit.point()).min(3).optional().describe('corners, either way round'),
      at: kit.point().optional().describe('the middle of a rectangle'),
      size: kit.size().optional().describe('of the rectangle, before it is turned'),
      turn: kit.z.number().min(-360).max(360).default(0).describe('degrees, counter-clockwise'),
      level: kit.length().describe('height of the shelf above 0, whatever the ground was'),
      ramp: kit
        .length({ least: 0 })
        .prefault(0)
        .describe('width outside the outline over which it runs into the ground'),
      profile: profileOption(kit),
    })
    .refine(
      ({ outline, at, size }) =>
        (outline === undefined) === (at !== undefined) && (at === undefined) === (size === undefined),
      'A shelf has an outline, or at and size.\nWrite one or the other.',
    );

interface ShelfOptions {
  readonly outline?: readonly Point[] | undefined;
  readonly at?: Point | undefined;
  readonly size?: readonly [number, number] | undefined;
  readonly turn: number;
  readonly level: number;
  readonly ramp: number;
  readonly profile: ProfileName;
}

/**
 * Set the ground to the level inside the outline, whether it was higher or lower. Outside it the ground moves towards the
 * level by profile(distance from the outline / ramp); without a ramp the edge is upright.
 */
export function shelf(options: ShelfOptions): Relief {
  const { level: levelMm, ramp: rampMm } = options;
  const ring = outlineOf(options);
  const profile = profileOf(options.profile);
  const course = courseOf(ring, true, rampMm);
  return {
    boxMm: course.boxMm,
    finestMm: Infinity,
    row(yMm) {
      // Inside, the row runs from one edge of the ring to another, so the span of the edges holds it.
      const { minXMm, maxXMm, distance } = course.row(yMm);
      const ground = (xMm: number, beforeMm: number) => {
        if (isInRing(xMm, yMm, ring)) return levelMm;
        const share = profile(ratioBeyond(distance(xMm), rampMm));
        return share === 1 ? levelMm : beforeMm + (levelMm - beforeMm) * share;
      };
      return { minXMm, maxXMm, ground };
    },
  };
}

function outlineOf({ outline, at, size, turn: turnDeg }: ShelfOptions): Float64Array {
  if (outline !== undefined) return new Float64Array(outline.flat());
  const [atX, atY] = at as Point;
  const [width, depth] = size as readonly [number, number];
  const { cos, sin } = turn(turnDeg);
  const corners = [-width, -depth, width, -depth, width, depth, -width, depth];
  const ring = new Float64Array(8);
  for (let i = 0; i < 8; i += 2) {
    const x = corners[i] / 2;
    const y = corners[i + 1] / 2;
    ring[i] = atX + x * cos - y * sin;
    ring[i + 1] = atY + x * sin + y * cos;
  }
  return ring;
}
