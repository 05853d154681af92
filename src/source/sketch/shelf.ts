import { turn } from '../../geometry/exact-math.ts';
import { isInRing, type Point } from '../../geometry/ring.ts';
import type { Kit } from '../../plugin.ts';
import { courseOf } from './course.ts';
import type { GroundBefore, Relief } from './relief.ts';
import { RAMP_FAULT, reachOf, type SettingOptions, saysRampOnce, setterOf, settingOptions } from './setting.ts';

/** Options of ground set to a level: an outline, or a rectangle. */
export const shelfOptions = (kit: Kit) =>
  kit.z
    .strictObject({
      outline: kit.z.array(kit.point()).min(3).optional().describe('corners, either way round'),
      at: kit.point().optional().describe('the middle of a rectangle'),
      size: kit.size().optional().describe('of the rectangle, before it is turned'),
      turn: kit.z.number().min(-360).max(360).default(0).describe('degrees, counter-clockwise'),
      level: kit.length().describe('height of the shelf above 0, whatever the ground was'),
      ...settingOptions(kit),
    })
    .refine(
      ({ outline, at, size }) =>
        (outline === undefined) === (at !== undefined) && (at === undefined) === (size === undefined),
      'A shelf has an outline, or at and size.\nWrite one or the other.',
    )
    .refine(saysRampOnce, RAMP_FAULT);

interface ShelfOptions extends SettingOptions {
  readonly outline?: readonly Point[] | undefined;
  readonly at?: Point | undefined;
  readonly size?: readonly [number, number] | undefined;
  readonly turn: number;
  readonly level: number;
}

/**
 * Set the ground to the level inside the outline, whether it was higher or lower. Outside it the ramp or slope runs into the
 * ground; without either the edge is upright.
 */
export function shelf(options: ShelfOptions, ground: GroundBefore): Relief {
  const levelMm = options.level;
  const ring = outlineOf(options);
  const { lowMm, highMm } = ground.rangeMm();
  const course = courseOf(ring, true, reachOf(options, Math.max(highMm - levelMm, levelMm - lowMm)));
  const set = setterOf(options);
  return {
    boxMm: course.boxMm,
    finestMm: Infinity,
    row(yMm) {
      // Inside, the row runs from one edge of the ring to another, so the span of the edges holds it.
      const { minXMm, maxXMm, distance } = course.row(yMm);
      const ground = (xMm: number, beforeMm: number) =>
        set(levelMm, isInRing(xMm, yMm, ring) ? 0 : distance(xMm), beforeMm);
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
