import { type Ordinate, ordinates } from '../../geometry/ordinates.ts';
import { type Point, placed, type Ring } from '../../geometry/ring.ts';
import type { LayoutBoard } from '../../model/layout.ts';
import type { Piece } from '../../model/piece.ts';

/** A numbered point of an outline, in board coordinates. */
export interface NumberedMark extends Ordinate {
  readonly number: number;
}

/** A piece as it is marked on its board without a printer. Board coordinates: from the left end of the lower edge. */
export interface Measured {
  readonly piece: Piece;
  /** True outlines as they lie, and for each the marks, numbered on from one to the next. */
  readonly rings: readonly Ring[];
  readonly marks: readonly (readonly NumberedMark[])[];
  /** How far straight lines from mark to mark are from the true outlines at most. */
  readonly deviationMm: number;
  readonly pins: readonly Point[];
  /** Ends of the cuts by which a wire reaches the inner outlines. */
  readonly slits: readonly Float64Array[];
}

export interface MeasuringMm {
  readonly spacingMm: number;
  readonly toleranceMm: number;
  readonly stepMm: number;
}

/** The pieces of a board measured off, from left to right. */
export function measuredPieces(board: LayoutBoard, pieces: ReadonlyMap<string, Piece>, how: MeasuringMm): Measured[] {
  const measured = board.placed.flatMap((place) => {
    const piece = pieces.get(place.piece);
    if (!piece) return [];
    const lay = (points: Float64Array) => placed(points, place);
    const rings = piece.region.map(lay);
    let number = 0;
    let deviationMm = 0;
    const marks = rings.map((ring) => {
      const { marks, deviation } = ordinates(ring, {
        spacing: how.spacingMm,
        tolerance: how.toleranceMm,
        step: how.stepMm,
      });
      deviationMm = Math.max(deviationMm, deviation);
      return marks.map((mark) => ({ ...mark, number: ++number }));
    });
    const pins = piece.pins.map((at): Point => {
      const [x, y] = lay(new Float64Array(at));
      return [x, y];
    });
    return [{ piece, rings, marks, deviationMm, pins, slits: piece.slits.map(lay) }];
  });
  const left = ({ marks }: Measured) => marks[0][0].x;
  return measured.sort((a, b) => left(a) - left(b) || a.piece.bottomMm - b.piece.bottomMm);
}
