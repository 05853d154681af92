/**
 * Transcendental functions that give the same bits on every engine. `Math.sin`, `pow` and their kin may differ in the
 * last bit between two engines, or two releases of one; the arithmetic here is plain JavaScript (fdlibm, via stdlib).
 */
import atan2Of from '@stdlib/math-base-special-atan2';
import cosOf from '@stdlib/math-base-special-cos';
import expOf from '@stdlib/math-base-special-exp';
import lnOf from '@stdlib/math-base-special-ln';
import powOf from '@stdlib/math-base-special-pow';
import sinOf from '@stdlib/math-base-special-sin';

export const PI = Math.PI;

/** Sine of an angle in radians. */
export const sin = (radians: number): number => sinOf(radians);
/** Cosine of an angle in radians. */
export const cos = (radians: number): number => cosOf(radians);
/** Angle of the vector (x, y) in radians, −π…π. */
export const atan2 = (y: number, x: number): number => atan2Of(y, x);
/** e to the x. */
export const exp = (x: number): number => expOf(x);
/** Natural logarithm. */
export const ln = (x: number): number => lnOf(x);
/** x to the y. */
export const pow = (x: number, y: number): number => powOf(x, y);

/** Length of the vector (x, y). `Math.hypot` is left out: its rounding is not the same everywhere. */
export const length = (x: number, y: number): number => Math.sqrt(x * x + y * y);

/** Cosine and sine of a turn in degrees, counter-clockwise. Quarter turns are exact. */
export function turn(turnDeg: number): { readonly cos: number; readonly sin: number } {
  const deg = turnDeg - 360 * Math.floor(turnDeg / 360);
  if (deg === 0) return { cos: 1, sin: 0 };
  if (deg === 90) return { cos: 0, sin: 1 };
  if (deg === 180) return { cos: -1, sin: 0 };
  if (deg === 270) return { cos: 0, sin: -1 };
  const radians = (deg * PI) / 180;
  return { cos: cosOf(radians), sin: sinOf(radians) };
}

/** Direction of the vector (x, y) in degrees, 0 ≤ d < 360. Exact on the axes. */
export function directionDeg(x: number, y: number): number {
  if (y === 0) return x < 0 ? 180 : 0;
  if (x === 0) return y > 0 ? 90 : 270;
  const deg = (atan2Of(y, x) * 180) / PI;
  const full = deg < 0 ? deg + 360 : deg;
  // A hair below the x axis rounds to a whole turn.
  return full === 360 ? 0 : full;
}
