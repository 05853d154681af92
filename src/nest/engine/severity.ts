/**
 * How badly two shapes are in each other's way (Gardeyn, Vanden Berghe, Wauters 2025, arXiv 2509.13329): from the circles
 * inside each, weighed by their sizes. Always above 0 and smooth: it falls as they part, and goes on falling where no two
 * circles overlap any more. It decides nothing: it is asked only where collision.ts says that they meet.
 *
 * It is asked with a limit. Every pair of circles only adds, the largest are added first, so most poor positions are seen
 * through after a row or two.
 */
import type { Posture } from './posture.ts';

/** Depths under this share of the larger diameter fade out with distance in place of ending at 0; as published. */
const FADE = 0.01;

/** How badly they meet, the second moved by (dx, dy); Infinity as soon as it must be more than `most`. */
export function severity(a: Posture, b: Posture, dx: number, dy: number, most: number): number {
  const widest = a.shape.diameterMm > b.shape.diameterMm ? a.shape.diameterMm : b.shape.diameterMm;
  const fade = FADE * widest;
  const fade2 = fade * fade;
  const scale = Math.sqrt(a.shape.hullAreaMm2 * b.shape.hullAreaMm2);
  const enough = (most * most) / scale;
  const some = a.poles;
  const others = b.poles;
  const n = some.length;
  const m = others.length;
  // A shape without a circle (a line) still meets.
  let sum = fade2 * 1e-6;
  for (let i = 0; i < n; i += 3) {
    const x = some[i] - dx;
    const y = some[i + 1] - dy;
    const r = some[i + 2];
    for (let j = 0; j < m; j += 3) {
      const ux = others[j] - x;
      const uy = others[j + 1] - y;
      const other = others[j + 2];
      const depth = r + other - Math.sqrt(ux * ux + uy * uy);
      sum += (depth >= fade ? depth : fade2 / (2 * fade - depth)) * (r < other ? r : other);
    }
    if (sum > enough) return Infinity;
  }
  return Math.sqrt(sum * scale);
}
