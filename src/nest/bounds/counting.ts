import { type BoundCase, ceiling } from './terms.ts';

/** Twice over the square root of three: points in the densest lattice, by area. */
const LATTICE = 2 / Math.sqrt(3);

/**
 * A bound by counting fat items: whatever holds a circle of radius r takes one of the k(r) circles that lie side by side on a
 * board (Oler 1961, for any convex region). Best over the radii that occur. Strong for discs and blobs, weak for the rest.
 * What owned foam takes is judged by its box. O(n²).
 */
export function countingBound({ items, boards, owned }: BoundCase): number {
  const radii = items.map(({ inradiusMm }) => inradiusMm).sort((a, b) => b - a);
  let most = 0;
  for (const [i, radius] of radii.entries()) {
    if (!(radius > 0)) break;
    if (radius === radii[i + 1]) continue;
    const perBoard = Math.max(0, ...boards.map(({ widthMm, heightMm }) => circlesIn(widthMm, heightMm, radius)));
    const elsewhere = owned.reduce((sum, { widthMm, heightMm }) => sum + circlesIn(widthMm, heightMm, radius), 0);
    if (perBoard > 0) most = Math.max(most, ceiling((i + 1 - elsewhere) / perBoard));
  }
  return most;
}

/** Not fewer than the circles of a radius that lie in a rectangle without overlap. */
export function circlesIn(width: number, height: number, radius: number): number {
  const [a, b] = [width - 2 * radius, height - 2 * radius];
  // A hair too narrow is not: the circle is as large as the truth only to some digits.
  if (Math.min(a, b) < -1e-6 * radius) return 0;
  const [across, up] = [Math.max(0, a), Math.max(0, b)];
  return Math.floor((LATTICE * across * up) / (4 * radius * radius) + (across + up) / (2 * radius) + 1 + 1e-9);
}
