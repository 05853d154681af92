import { length, turn } from '../../geometry/exact-math.ts';
import type { Point } from '../../geometry/ring.ts';
import type { Kit } from '../../plugin.ts';
import type { GroundBefore, Relief } from './relief.ts';
import { RAMP_FAULT, reachOf, type SettingOptions, saysRampOnce, setterOf, settingOptions } from './setting.ts';

/** A post meant to stand on a riser belongs to the step above, whatever rounding says. */
const SAME_MM = 1e-6;

/** Options of a straight flight of steps. */
export const stepsOptions = (kit: Kit) =>
  kit.z
    .strictObject({
      at: kit.point().describe('the middle of the lowest riser, at the foot'),
      direction: kit.z
        .number()
        .min(-360)
        .max(360)
        .default(90)
        .describe('degrees from east, counter-clockwise, in which they climb'),
      width: kit.length({ above: 0 }).describe('across'),
      count: kit.z.int().min(1).max(500).describe('how many risers, and as many treads'),
      going: kit.length({ above: 0 }).describe('of each tread, riser to riser'),
      rise: kit.length({ above: 0 }).describe('of each riser'),
      level: kit.length().optional().describe('height above 0 of the ground at the foot; left out, what it is at `at`'),
      ...settingOptions(kit),
    })
    .refine(saysRampOnce, RAMP_FAULT);

interface StepsOptions extends SettingOptions {
  readonly at: Point;
  readonly direction: number;
  readonly width: number;
  readonly count: number;
  readonly going: number;
  readonly rise: number;
  readonly level?: number | undefined;
}

/**
 * Set the ground to treads: the first at level + rise from the foot on, each a rise higher and a going further, exactly level
 * and exactly so high. Their sides and the far end of the last run into the ground as a shelf does. A riser is as steep as
 * the posts show it: one spacing long.
 */
export function steps(options: StepsOptions, ground: GroundBefore): Relief {
  const {
    at: [atX, atY],
    direction,
    width: widthMm,
    count,
    going: goingMm,
    rise: riseMm,
  } = options;
  const { cos, sin } = turn(direction);
  const footMm = options.level ?? ground.heightAt(atX, atY);
  const lengthMm = count * goingMm;
  const { lowMm, highMm } = ground.rangeMm();
  const reach = reachOf(options, Math.max(highMm - footMm - riseMm, footMm + count * riseMm - lowMm, 0));
  const xs: number[] = [];
  const ys: number[] = [];
  for (const u of [-reach, lengthMm + reach]) {
    for (const v of [-widthMm / 2 - reach, widthMm / 2 + reach]) {
      xs.push(atX + u * cos - v * sin);
      ys.push(atY + u * sin + v * cos);
    }
  }
  const [minXMm, maxXMm] = [Math.min(...xs), Math.max(...xs)];
  const set = setterOf(options);
  return {
    boxMm: [minXMm, Math.min(...ys), maxXMm, Math.max(...ys)],
    finestMm: goingMm,
    row: (yMm) => ({
      minXMm,
      maxXMm,
      ground(xMm, beforeMm) {
        const along = (xMm - atX) * cos + (yMm - atY) * sin;
        const across = Math.abs((yMm - atY) * cos - (xMm - atX) * sin);
        const beyondMm = length(beyond(Math.max(-along, along - lengthMm)), beyond(across - widthMm / 2));
        const tread = Math.min(count - 1, Math.max(0, Math.floor((along + SAME_MM) / goingMm)));
        return set(footMm + (tread + 1) * riseMm, beyondMm, beforeMm);
      },
    }),
  };
}

const beyond = (mm: number): number => (mm <= SAME_MM ? 0 : mm);
