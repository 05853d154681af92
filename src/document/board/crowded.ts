import type { Finding } from '../../findings.ts';
import type { BoardDrawing } from './draw-board.ts';

/** Most pieces that the note names one by one. */
const MOST_NAMED = 12;

/** One note for all lettering that found no clear room, or nothing when all did. */
export function crowdedNote(drawings: readonly BoardDrawing[]): Finding | undefined {
  const pieces = drawings.flatMap(({ crowded }) => crowded);
  if (pieces.length === 0) return undefined;
  const named = pieces.slice(0, MOST_NAMED).map(({ piece, what }) => `${piece} (${what.join(', ')})`);
  const others = pieces.length - named.length;
  return {
    level: 'note',
    code: 'document/crowded',
    message: `On the templates there is no clear room for all lettering of ${named.join('; ')}${others > 0 ? ` and ${others} more pieces` : ''}.`,
    fix: 'Write it on the piece by hand before it is cut.',
    where: pieces.length === 1 ? { piece: pieces[0].piece } : {},
  };
}
