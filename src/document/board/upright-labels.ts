import { toPage } from '../../drawing/page.ts';
import { boxOf, placed as put } from '../../geometry/ring.ts';
import type { Front } from '../../model/facts.ts';
import { FRONT_VECTORS } from '../../model/front.ts';
import type { Rib } from '../../model/rib.ts';
import type { PieceOnBoard } from './on-board.ts';

/** What is lettered on a piece of a rib in place of what a lying piece says. */
export interface UprightLabels {
  /** Under its name, the count of pieces aside. */
  readonly rows: readonly [line: string, side: string];
  /** The end of each slot, in page space, with the rib that goes in. */
  readonly slots: readonly { readonly text: string; readonly edge: Float64Array }[];
}

/** Which line a piece of a rib stands on, where its drawn face looks, and which rib goes into each slot. */
export function uprightLabels(
  { piece, placement }: PieceOnBoard,
  { frame, gridLine, crossings }: Rib,
  front: Front,
  boardHeightMm: number,
): UprightLabels {
  const [from, , to] = boxOf(piece.region);
  const slots = crossings
    .filter(({ atMm }) => atMm > from && atMm < to)
    .map(({ layer, atMm, widthMm, meetMm }) => {
      const edge = Float64Array.of(atMm - widthMm / 2, meetMm, atMm + widthMm / 2, meetMm);
      return { text: `rib ${layer}`, edge: toPage(put(edge, placement), boardHeightMm) };
    });
  return { rows: [gridLine, sideOf(frame.along, front, placement.mirrored)], slots };
}

/** Where the front lies for who looks at the drawn face with the upper edge up. */
function sideOf([east, north]: readonly [number, number], { side, word }: Front, mirrored: boolean): string {
  const [x, y] = FRONT_VECTORS[side];
  const way = mirrored ? -1 : 1;
  // Whoever has the rib's direction to the right looks against its face: a quarter turn clockwise from it.
  const face = way * (north * x - east * y);
  if (face !== 0) return face > 0 ? `this face to ${word}` : `this face away from ${word}`;
  return way * (east * x + north * y) > 0 ? `${word} to the right` : `${word} to the left`;
}
