import type { Placement, Point } from '../geometry/ring.ts';
import type { Stock } from './stock.ts';
import type { Work } from './work.ts';

export const TOOLS = ['hot wire', 'knife', 'saw', 'router'] as const;
export const SIDES = ['south', 'north', 'west', 'east'] as const;

export interface Tool {
  readonly kind: (typeof TOOLS)[number];
  readonly kerfMm: number;
  /** Clear depth of the bow; null when not said, as each of what follows. */
  readonly throatMm: number | null;
  /** Of the wire between its holders. */
  readonly wireMm: number | null;
  /** Of the blade that cuts. */
  readonly bladeMm: number | null;
  /** Of the table that a board lies on while it is cut. */
  readonly tableMm: readonly [number, number] | null;
}

/** How deep a tool reaches in from an edge: only a bow has a throat. null when that is not said. */
export const throatOf = ({ kind, throatMm }: Tool): number | null => (kind === 'hot wire' ? throatMm : null);

export interface Cover {
  readonly material: string;
  readonly depthMm: number;
  /** Bulk density; null when it is to be looked up by the material's name. */
  readonly densityKgM3: number | null;
}

/** The side people see the ground from, and the room's word for it: arrows on pieces point there. */
export interface Front {
  readonly side: (typeof SIDES)[number];
  readonly word: string;
}

/** The largest piece a carrier takes; null when not said. */
export interface Carry {
  readonly sizeMm: readonly [number, number] | null;
  readonly massKg: number | null;
}

/** What every piece passes on its way to where it is built: clear sizes; null where not said. */
export interface Way {
  readonly door: { readonly widthMm: number; readonly heightMm: number } | null;
  readonly stair: {
    readonly widthMm: number;
    readonly heightMm: number | null;
    /** Whether it turns a corner at a landing. */
    readonly turns: boolean;
  } | null;
  readonly lift: Inside | null;
  readonly van: Inside | null;
}

/** The room in a van or a lift. */
export interface Inside {
  readonly lengthMm: number;
  /** Of a van, between the wheel arches. */
  readonly widthMm: number;
  readonly heightMm: number;
  readonly payloadKg: number | null;
}

export const TURNS = ['free', 'quarter', 'half', 'fixed'] as const;
/** Which turns a piece may take on its board: any, quarter turns, half turns, none. */
export type Turns = (typeof TURNS)[number];

/** What the job says of one piece alone. */
export interface PieceRule {
  /** Its name. */
  readonly piece: string;
  /** null: as all pieces. */
  readonly turns: Turns | null;
  /** Where it lies, of a piece that is cut already; in the numbers of plan.json. */
  readonly held: Held | null;
}

export interface Held extends Placement {
  readonly board: number;
  /** Name of the board in the stock, or of the saved offcut; null: the only board of the piece's thickness. */
  readonly stock: string | null;
}

/**
 * What a polygon of the plan means. `people`: a deck by others stands here, the foam is cut round it and left clear below;
 * `solid`: the foam under this is kept; `seen`: no slit here, and no seam if it can be helped; `lean`: dressing may load it.
 */
export const ZONE_KINDS = ['people', 'solid', 'seen', 'lean'] as const;

/** A polygon of the plan with a meaning (landform coordinates): simple, run either way. */
export interface Zone {
  readonly kind: (typeof ZONE_KINDS)[number];
  readonly name: string | null;
  readonly outline: readonly Point[];
  /** Of a deck: height of its top; null when not said. */
  readonly levelMm: number | null;
  /** How far the foam keeps off; 0 save round a deck. */
  readonly clearanceMm: number;
  /** What stands on a zone of kind lean, spread over all of it; null when not said. */
  readonly loadKg: number | null;
}

/** What the whole job shares, so that no two plugins can disagree about the board. */
export interface Facts {
  readonly stock: Stock;
  /** Different thicknesses of the boards on sale, rising: measured ones where the job says them. */
  readonly thicknessesMm: readonly number[];
  /** What boards of each thickness are sold as, rising: the same save where a board was measured. */
  readonly soldAs: readonly { readonly thicknessMm: number; readonly nominalMm: number }[];
  /**
   * By thickness, rising: the least money for a square metre of usable board, null where no price is said; and the usable area
   * of all that can be had, null when as many as are needed.
   */
  readonly boardPrices: readonly {
    readonly thicknessMm: number;
    readonly pricePerM2: number | null;
    readonly onHandM2: number | null;
  }[];
  /** Sizes and weights of the boards without money or counts: what a splitter must know. */
  readonly boardSizes: readonly {
    readonly sizeMm: readonly [number, number];
    readonly thicknessMm: number;
    readonly densityKgM3: number;
    readonly trimMm: number;
  }[];
  readonly tool: Tool;
  /** Least clearance between blanks, outline to outline. */
  readonly gapMm: number;
  readonly cover: Cover | null;
  readonly front: Front;
  readonly carry: Carry;
  readonly way: Way;
  readonly zones: readonly Zone[];
  /** What is said of single pieces. */
  readonly pieces: readonly PieceRule[];
  /** What a builder knows of the work. */
  readonly work: Work;
}
