import type { Point, Region } from '../geometry/ring.ts';
import type { Covering, Rib } from './rib.ts';
import type { Finish, StandingRock } from './rock.ts';

/** How a leaning wire cuts a layer whose top outline differs from its underside. Landform coordinates. */
export interface Slope {
  /** The ground's outline at the layer's top, within `regions`; empty over a summit. The wire follows it as far as it can. */
  readonly top: readonly Region[];
  /**
   * For each ring of `regions`, in order, where the straight wire stands in turn: foot x, foot y, top x, top y of each
   * station; not closed. Feet run along the ring, which may have more corners. No two of these lines cross, in plan or in space;
   * where foot and top are one point the wire is upright.
   */
  readonly stations: readonly Float64Array[];
}

/** Where a layer is narrower than foam is cut to. */
export interface ThinMm {
  /** The middle of the narrowest width. */
  readonly atMm: Point;
  readonly widthMm: number;
  readonly lengthMm: number;
}

/** One board thickness of the stack. Numbered from 1 at the ground upward. Never empty. */
export interface Layer {
  readonly number: number;
  readonly bottomMm: number;
  readonly thicknessMm: number;
  /** The outline to cut, whole, before hollowing. Free of overlaps, on the grid of SNAP. Landform coordinates. */
  readonly regions: readonly Region[];
  /** Where it is narrower than the least width, the thinnest first; not said when nowhere. */
  readonly thin?: readonly ThinMm[];
  /** Only where it is cut with a leaning wire: then `regions` are its underside. */
  readonly slope?: Slope;
  /** Only of an upright stack: then `regions` lie in the rib's own plane, along it and up, with its slots cut out. */
  readonly rib?: Rib;
  /** Only of a rock that is carved: then `regions` are what is cut before it is glued. */
  readonly finish?: Finish;
}

/** The layers from the ground up. `flat`: they lie. `upright`: they stand as ribs. A splitter says which it takes. */
export interface LayerStack {
  readonly kind: 'flat' | 'upright';
  readonly layers: readonly Layer[];
  /** Over ribs only. */
  readonly covering?: Covering;
  /** Of a rock only. */
  readonly rock?: StandingRock;
}

/** A lap said as a multiple of the thickness: `1.5 x thickness`. */
export const TIMES_THICKNESS = /^\s*(\d+(?:\.\d+)?)\s*[x×]\s*thickness\s*$/;

/** No lap is less: it takes a bead of glue. */
const LEAST_LAP_MM = 5;

/**
 * The lap of a layer of some thickness on the one beneath, as the job says it: millimetres or a multiple of the thickness. When
 * it says none, the layer's height, and no less than two rows of pins and a bead of glue take (common practice, no source).
 */
export function lapMm(said: number | string | undefined, thicknessMm: number): number {
  if (typeof said === 'number') return said;
  const times = said === undefined ? null : TIMES_THICKNESS.exec(said);
  return times ? Math.max(LEAST_LAP_MM, Number(times[1]) * thicknessMm) : Math.max(40, thicknessMm);
}
