import type { Point } from '../geometry/ring.ts';

/** The longest pin: skewers are sold up to 300 mm, and a longer one does not go straight by hand (common practice, no source). */
export const MOST_PIN_MM = 300;
/** The lengths in which skewers are sold, where the job does not say (common practice, no source). */
export const SOLD_PINS_MM: readonly number[] = [100, 150, 200, 250, 300];
/** The upper end of a pin that stays is this far below the carved surface. */
export const UNDER_SURFACE_MM = 20;
/** And this far at least in the highest layer, where that is thick enough. */
export const BITE_MM = 15;

/** A pin straight down through two layers or more that are in line there. */
export interface PinThrough {
  readonly at: Point;
  /** Lowest and highest layer that it enters. */
  readonly fromLayer: number;
  readonly toLayer: number;
  /** Its lower end, above the ground that the stack stands on. */
  readonly bottomMm: number;
  /** Whole millimetres, fives but in thin layers: what is cut from stock. Of a pulled one, with what it is held by. */
  readonly lengthMm: number;
  /** Its upper end would come too near the carved surface: pulled when the glue has set, before carving. */
  readonly isPulled: boolean;
}
