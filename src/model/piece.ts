import type { Point, Region } from '../geometry/ring.ts';
import type { CarveStation } from './rock.ts';

/** Letters of pieces and joints: none that is misread by hand or in bad light (no I, O, Q, S, Z, B). */
export const LETTERS = 'ACDEFGHJKLMNPRTUVWXY';

/** The letters of the n-th piece (from 0) of a layer: A, C … Y, then AA, AC … */
export function letters(n: number): string {
  const base = LETTERS.length;
  return n < base ? LETTERS[n] : letters(Math.floor(n / base) - 1) + LETTERS[n % base];
}

/** Where a piece meets another piece of its layer. Both hold the joint, with the same label, line and match marks. */
export interface Joint {
  /** Layer number, a stroke and letters: `7/A`. Unique in the job, on both sides of one joint. */
  readonly label: string;
  /** Name of the piece on the other side. */
  readonly neighbour: string;
  /** The shared cut, flat x, y …, open. Its points are points of both pieces' outlines. */
  readonly line: Float64Array;
  /** Points on the line where a short mark crosses into both pieces: one alone and two close together, never symmetric. */
  readonly matches: readonly Point[];
  /**
   * Of a joint with loose tongues: where slots are, x, y of each one's ends on the line. Each goes as deep into either piece as
   * they are thick (TONGUE_DEPTH in split/pieces/seam-styles.ts), in the middle of the height.
   */
  readonly tongues?: readonly Float64Array[];
}

/** A notch in a piece's outline that a hand feels: one toward the front of the room, two to the right of who stands there. */
export interface Nick {
  /** On the outline. */
  readonly at: Point;
  readonly side: 'front' | 'right';
}

/** Glue keeps this far from edges where foam is carved, beyond what is carved there (10 to 20 mm, common practice). */
export const GLUE_BACK_MM = 15;

/** What is cut out as one. Coordinates are the landform's. */
export interface Piece {
  /** Layer number and letters: `7C`. */
  readonly name: string;
  readonly layer: number;
  readonly bottomMm: number;
  readonly thicknessMm: number;
  /** Finished edges, never shifted by the kerf. */
  readonly region: Region;
  readonly areaMm2: number;
  readonly joints: readonly Joint[];
  /** Every pin that enters the piece, from above or below. */
  readonly pins: readonly Point[];
  /** Cuts by which a wire reaches the inner outlines, flat x, y …, open. Empty for a tool that needs none. */
  readonly slits: readonly Float64Array[];
  /** Outline of the next layer's foam where it stands on this piece: glue and placing line. */
  readonly placing: readonly Region[];
  /** Where it takes glue for the next layer; none when not said. */
  readonly glue?: readonly Region[];
  /** Both sides or none: a piece too small to be felt has none. In line with those of other pieces, layer over layer. */
  readonly nicks?: readonly Nick[];
  /** What is seen of its top is a thin shell over a void, and it says so. */
  readonly doNotStep?: boolean;
  /** Of a rock that is carved: the carved surface's line on its top, and how deep it lies at stations along the edge. */
  readonly carved?: { readonly top: readonly Region[]; readonly stations: readonly CarveStation[] };
}

/** What is placed on a board as one: a piece, or several that share cuts. The gap holds between blanks. */
export interface Blank {
  readonly pieces: readonly Piece[];
  /** Cuts that serve two pieces of the blank, flat x, y …, open. */
  readonly sharedCuts: readonly Float64Array[];
}

/** A wish of the layout: that a piece were divided otherwise. */
export interface Wish {
  readonly piece: string;
}
