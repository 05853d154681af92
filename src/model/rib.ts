/** Where the plane of an upright rib stands, through the middle of its thickness: its point (u, v) lies at originMm + u × along, v higher. */
export interface Frame {
  readonly originMm: readonly [x: number, y: number, z: number];
  /** Of length 1, in plan. Whoever has it to the right looks at the face that is drawn: from the south, or from the east. */
  readonly along: readonly [x: number, y: number];
}

/** Where another rib passes through one. Coordinates of the rib's own plane. */
export interface Crossing {
  /** Number of the other rib. */
  readonly layer: number;
  /** The middle of the slot. */
  readonly atMm: number;
  readonly widthMm: number;
  /** Where the slots of the two meet: half way up. */
  readonly meetMm: number;
  /** Where this rib's slot opens. At the top: it stands before the other one is let down into it. */
  readonly opens: 'top' | 'bottom';
}

/** What an upright layer is besides its outline. */
export interface Rib {
  readonly frame: Frame;
  /** In words: `line 3 from the west`. */
  readonly gridLine: string;
  /** Along the rib. */
  readonly crossings: readonly Crossing[];
}

/** What is laid over ribs to carry the cover: scrim, cloth, thin board. */
export interface Covering {
  readonly material: string;
  readonly thicknessMm: number;
  /** About what hangs down at the edges of the ground. */
  readonly sidesMm2: number;
  /** Where it comes in boards: how many lie over the ground with their joints on ribs, sides not counted. */
  readonly boards?: { readonly sizeMm: readonly [number, number]; readonly count: number };
}

/** Which way a rib runs, in plan. */
export const isWestEast = ({ along }: Frame): boolean => along[0] !== 0;
