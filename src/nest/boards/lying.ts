import { type Placement, placed, type Region } from '../../geometry/ring.ts';
import type { Blank } from '../../model/piece.ts';

/** A blank as it lies on its board, piece by piece. */
export interface Lying {
  /** Number of the blank on the board. */
  readonly blank: number;
  readonly pieces: readonly {
    readonly name: string;
    readonly region: Region;
    readonly slits: readonly Float64Array[];
  }[];
}

/** Put a blank where a placement says. */
export const lying = ({ pieces }: Blank, at: Placement, blank: number): Lying => ({
  blank,
  pieces: pieces.map(({ name, region, slits }) => ({
    name,
    region: region.map((ring) => placed(ring, at)),
    // A mirrored line is run backwards: which end is which does not matter here.
    slits: slits.map((slit) => placed(slit, at)),
  })),
});
