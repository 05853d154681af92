import type { Point } from '../geometry/ring.ts';
import type { Front } from './facts.ts';

/** Where the front lies, in plan. */
export const FRONT_VECTORS: Readonly<Record<Front['side'], Point>> = {
  south: [0, -1],
  north: [0, 1],
  west: [-1, 0],
  east: [1, 0],
};
