import type { Finding } from '../../findings.ts';
import type { Box } from '../../geometry/ring.ts';

/** A feature along one row of posts. Outside minXMm…maxXMm it changes nothing; with minXMm above maxXMm nowhere anything. */
export interface Stretch {
  readonly minXMm: number;
  readonly maxXMm: number;
  /** The ground after the feature, from the ground before it. Gives the ground back where the feature does not reach. */
  ground(xMm: number, beforeMm: number): number;
}

/** What a feature does to the ground. Rows ask for a stretch each, so that only the posts in reach are computed. */
export interface Relief {
  /** Outside of it the feature changes nothing. */
  readonly boxMm: Box;
  /** Shortest way from a high to a low of the feature: what the posts must be close enough to show. */
  readonly finestMm: number;
  readonly told?: readonly Finding[];
  row(yMm: number): Stretch;
}

/** The box of a feature without an end. */
export const EVERYWHERE: Box = [-Infinity, -Infinity, Infinity, Infinity];

/** What features need to know of the ground before them. */
export interface GroundBefore {
  readonly sizeMm: readonly [number, number];
  /** Of the sketch before its first feature. */
  readonly levelMm: number;
  /** The closer of the posts' two spacings. */
  readonly stepMm: number;
  heightAt(xMm: number, yMm: number): number;
  rangeMm(): { readonly lowMm: number; readonly highMm: number };
}
