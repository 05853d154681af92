import { cornersOf } from '../geometry/grid-cells.ts';
import { fillNearest } from '../geometry/grid-fill.ts';
import { groundCells } from './ground-cells.ts';
import { extent, type Heightfield, type Landform } from './landform.ts';

export { type GroundSums, groundOf } from './ground-sums.ts';

/**
 * A reckoned length on the grid of a tenth of a nanometre: ground that is meant to lie exactly at a level does, so that flat
 * ground costs no extra layer and loses none.
 */
export function tidyMm(mm: number): number {
  const tidy = Math.round(mm * 1e7) / 1e7 + 0;
  return Number.isFinite(tidy) ? tidy : mm;
}

/** The same ground with other heights, each reckoned from the one before and tidied. Always doubles. */
export function withHeights(field: Heightfield, heightAt: (heightMm: number, post: number) => number): Heightfield {
  const heightsMm = new Float64Array(field.heightsMm.length);
  for (let i = 0; i < heightsMm.length; i++) heightsMm[i] = tidyMm(heightAt(field.heightsMm[i], i));
  return { ...field, heightsMm };
}

/** The same ground, with a nearest height at posts that none hangs on: what lies beyond the footprint must count for nothing. */
export function withNearestBeyond(field: Heightfield): Heightfield {
  const posts = groundPosts(field);
  if (posts === null) return field;
  return { ...field, heightsMm: fillNearest(Float64Array.from(field.heightsMm), posts, field.columns) };
}

/** The posts that the ground hangs on, the corners of those cells: 1 for each; null when all are. */
export function groundPosts(field: Heightfield): Uint8Array | null {
  const cells = groundCells(field);
  return cells && cornersOf(cells, field.columns - 1);
}

/** Lowest and highest post that the ground hangs on, or vertex of a solid. A cell that the footprint cuts counts whole. */
export function groundRange(landform: Landform): { lowMm: number; highMm: number } {
  const posts = landform.kind === 'heightfield' ? groundPosts(landform) : null;
  if (landform.kind === 'solid' || posts === null) return extent(landform);
  let lowMm = Infinity;
  let highMm = -Infinity;
  for (let i = 0; i < posts.length; i++) {
    if (posts[i] === 0) continue;
    if (landform.heightsMm[i] < lowMm) lowMm = landform.heightsMm[i];
    if (landform.heightsMm[i] > highMm) highMm = landform.heightsMm[i];
  }
  return { lowMm, highMm };
}
