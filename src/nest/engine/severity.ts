/**
 * How badly two shapes are in each other's way (after Gardeyn, Vanden Berghe, Wauters 2025, arXiv 2509.13329): from the
 * circles inside each, weighed by their sizes. Always above 0 and smooth: it falls as they part, and goes on falling where
 * no two circles overlap any more. It decides nothing: it is asked only where collision.ts says that they meet.
 *
 * It is asked with a limit. Every pair of circles only adds, the largest are added first, so most poor positions are seen
 * through after a row or two.
 *
 * The depth of two circles at a distance d is taken as (r² − d²) / 2r, r being the sum of their radii: the same as r − d
 * where they touch, half of it where they coincide. It needs no square root. Roads not taken: r − d as published (swim,
 * 12 s, three seeds: 72.8 % with it, 73.3 % without); 16 circles (72.0 %) or 8 (71.9 %) in place of 12 (72.4 %).
 */
import type { Posture } from './posture.ts';

/** Depths under this share of the larger diameter fade out with distance in place of ending at 0; as published. */
const FADE = 0.01;

/** How badly they meet, the second moved by (dx, dy); Infinity as soon as it must be more than `most`. */
export function severity(a: Posture, b: Posture, dx: number, dy: number, most: number): number {
  const widest = a.shape.diameterMm > b.shape.diameterMm ? a.shape.diameterMm : b.shape.diameterMm;
  const fade = FADE * widest;
  const scale = Math.sqrt(a.shape.hullAreaMm2 * b.shape.hullAreaMm2);
  const enough = (most * most) / scale;
  const some = a.poles;
  const others = b.poles;
  const n = some.length;
  const m = others.length;
  // A shape without a circle (a line) still meets.
  let sum = fade * fade * 1e-6;
  for (let i = 0; i < n; i += 3) {
    const x = some[i] - dx;
    const y = some[i + 1] - dy;
    const r = some[i + 2];
    for (let j = 0; j < m; j += 3) {
      const ux = others[j] - x;
      const uy = others[j + 1] - y;
      const other = others[j + 2];
      const radii = r + other;
      // Both times twice the radii.
      const depth = radii * radii - ux * ux - uy * uy;
      const faint = 2 * radii * fade;
      const smaller = r < other ? r : other;
      sum += depth >= faint ? (depth * smaller) / (2 * radii) : (fade * faint * smaller) / (2 * faint - depth);
    }
    if (sum > enough) return Infinity;
  }
  return Math.sqrt(sum * scale);
}
