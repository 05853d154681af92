import { missingIn } from '../../drawing/face.ts';
import type { Finding } from '../../findings.ts';
import type { LayoutBoard } from '../../model/layout.ts';
import type { Piece } from '../../model/piece.ts';
import type { Plan } from '../../model/plan.ts';
import { isWestEast } from '../../model/rib.ts';
import { lengthText } from '../../units.ts';

/** What a piece's label says. */
export interface Label {
  readonly name: string;
  /** Under the name, the most needed first. */
  readonly rows: readonly string[];
  /** Beside the name: pinned so that it points to the front of the room; up, on a rib. */
  readonly arrow: { readonly word: string; readonly isUp: boolean };
}

/** `bundle`: pieces of a layer travel together. */
export function labelOf(
  { pieces, stack, name, unit, facts }: Plan,
  piece: Piece,
  board: LayoutBoard | undefined,
  stamp: string,
): Label {
  const own = pieces.filter(({ layer }) => layer === piece.layer);
  const group = stack.kind === 'flat' ? 'layer' : 'rib';
  const beside = [...new Set(piece.joints.map(({ neighbour }) => neighbour))];
  const rib = stack.layers.find(({ number }) => number === piece.layer)?.rib;
  // Ribs are drawn as they are seen from the south or from the east: the label is pinned on that face.
  const stands = rib ? [`${rib.gridLine}, this face ${isWestEast(rib.frame) ? 'south' : 'east'}`] : [];
  const top = stack.kind === 'flat' ? `, top at ${lengthText(piece.bottomMm + piece.thicknessMm, unit)}` : '';
  return {
    name: piece.name,
    rows: [
      `${group} ${piece.layer} of ${stack.layers.length}, ${own.indexOf(piece) + 1} of ${own.length}${top}`,
      ...stands,
      beside.length > 0 ? `beside ${beside.join(', ')}` : 'no joints',
      `bundle ${piece.layer}${board ? `, board ${board.number}` : ''}`,
      `${name}, ${stamp}`,
    ],
    arrow: rib ? { word: 'UP', isUp: true } : { word: facts.front.word, isUp: false },
  };
}

/** What is told where names have letters that stand as open boxes. */
export function boxesTold(job: string, word: string, stamp: string): Finding | null {
  const count = missingIn(job + word);
  if (count === 0) return null;
  return {
    level: 'note',
    code: 'document/letters',
    message: `labels.pdf has ${count} open boxes on each label for characters that its lettering lacks: it has Latin letters only.`,
    fix: `Say names in Latin letters; until then the labels are known by their revision, ${stamp}.`,
    where: {},
  };
}
