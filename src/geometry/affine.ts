/** A map of the plane: (x, y) goes to (a x + c y + e, b x + d y + f). */
export type Affine = readonly [a: number, b: number, c: number, d: number, e: number, f: number];

export const STILL: Affine = [1, 0, 0, 1, 0, 0];

/** The inner map first, then the outer. */
export const after = ([a, b, c, d, e, f]: Affine, [p, q, r, s, t, u]: Affine): Affine => [
  a * p + c * q,
  b * p + d * q,
  a * r + c * s,
  b * r + d * s,
  a * t + c * u + e,
  b * t + d * u + f,
];

/** Where a map takes a point. */
export const mapped = ([a, b, c, d, e, f]: Affine, x: number, y: number): [number, number] => [
  a * x + c * y + e,
  b * x + d * y + f,
];

/** The most by which a map stretches any length: its larger singular value. */
export function stretchOf([a, b, c, d]: Affine): number {
  const half = (a * a + b * b + c * c + d * d) / 2;
  const area = a * d - b * c;
  return Math.sqrt(half + Math.sqrt(Math.max(0, half * half - area * area)));
}
