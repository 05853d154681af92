import type { Region } from '../../geometry/ring.ts';
import type { Pose, Shape } from './problem.ts';

/** How a shape is to be prepared. */
export interface ShapeOptions {
  readonly gapMm: number;
  /** Poses to try, promising ones first; at least one. Equal ones are dropped. */
  readonly poses: readonly Pose[];
  /** Whether turns between those may be taken too. */
  readonly turnsFreely: boolean;
  /** Whether it may have to lie in a container that is no rectangle. */
  readonly hasOddContainers: boolean;
}

/** Prepare an outline: regions that do not overlap (several when pieces of a blank lie apart), on the grid of SNAP. */
export declare function prepareShape(regions: readonly Region[], options: ShapeOptions): Shape;
