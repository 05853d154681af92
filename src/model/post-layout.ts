import { MOST_POSTS } from './landform.ts';

/** Where posts stand: column × stepXMm, row × stepYMm from the south-west corner. */
export interface PostLayout {
  readonly columns: number;
  readonly rows: number;
  readonly stepXMm: number;
  readonly stepYMm: number;
}

/** Intervals along the longest side when the job does not say how far apart the posts stand. */
const INTERVALS = 300;

/** The spacing when the job names none. */
export const usualSpacingMm = ([widthMm, depthMm]: readonly [number, number]): number =>
  Math.max(widthMm, depthMm) / INTERVALS;

/**
 * Lay the posts out: as near to the spacing as whole steps allow, each direction for itself, so that the last post stands
 * on the edge. At least two a side. Null when there would be more than MOST_POSTS.
 */
export function gridOf([widthMm, depthMm]: readonly [number, number], spacingMm: number): PostLayout | null {
  const across = Math.max(1, Math.round(widthMm / spacingMm));
  const along = Math.max(1, Math.round(depthMm / spacingMm));
  const fits = (across + 1) * (along + 1) <= MOST_POSTS;
  return fits ? { columns: across + 1, rows: along + 1, stepXMm: widthMm / across, stepYMm: depthMm / along } : null;
}
