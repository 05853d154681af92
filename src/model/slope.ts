import { z } from 'zod';
import { directionDeg, turn } from '../geometry/exact-math.ts';
import { numberText } from '../units.ts';

const RATIO = /^\s*(\d+\.?\d*|\.\d+)\s+in\s+(\d+\.?\d*|\.\d+)\s*$/;
/** Steeper than this is a wall: 1 up for 0.017 along. */
const STEEPEST_DEG = 89;

const notASlope = ({ input }: { readonly input?: unknown }): string =>
  input === undefined
    ? 'A slope is missing.\nWrite 34 for degrees, or 1 in 3.'
    : `${JSON.stringify(input)} is not a slope.\nWrite 34 for degrees, or 1 in 3.`;

/** A slope as an option: a plain number is degrees from level, `1 in 3` rises 1 over 3 along. Degrees come out. */
export const slopeOption = () =>
  z
    .union([z.number(), z.string().regex(RATIO, { error: notASlope })], { error: notASlope })
    .transform((written, context) => {
      const [, rise, run] = (typeof written === 'string' && RATIO.exec(written)) || ['', '', ''];
      const deg = typeof written === 'number' ? written : directionDeg(Number(run), Number(rise));
      if (deg > 0 && deg <= STEEPEST_DEG) return deg;
      const message = `A slope of ${String(written)} is not between 0 and ${STEEPEST_DEG}°.\nWrite 34 for degrees, or 1 in 3.`;
      context.issues.push({ code: 'custom', message, input: written });
      return z.NEVER;
    });

/** Rise over a length of 1. */
export function riseOf(slopeDeg: number): number {
  const { cos, sin } = turn(slopeDeg);
  return sin / cos;
}

/** A slope for people: `33.7° (1 in 1.5)`. */
export const slopeText = (rise: number): string =>
  `${numberText(directionDeg(1, rise), 1)}°${rise > 0 ? ` (1 in ${numberText(1 / rise, rise > 1 ? 2 : 1)})` : ''}`;
