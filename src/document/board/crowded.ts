import { writable } from '../../drawing/lettering.ts';
import { MISSING } from '../../drawing/letters.ts';
import type { Finding } from '../../findings.ts';
import type { Plan } from '../../model/plan.ts';
import type { BoardDrawing } from './draw-board.ts';

/** Most pieces that the note names one by one, and most of what each lacks. */
const MOST_NAMED = 12;
const MOST_SAID = 4;

const listed = (what: readonly string[]): string =>
  what.length <= MOST_SAID
    ? what.join(', ')
    : `${what.slice(0, MOST_SAID).join(', ')} and ${what.length - MOST_SAID} more`;

/** What is told of drawings: lettering that found no room, characters that are drawn as boxes. */
export const toldOfDrawings = (plan: Plan, drawings: readonly BoardDrawing[]): Finding[] =>
  [crowdedNote(drawings), lettersNote(plan)].filter((finding) => finding !== undefined);

/** One note for all lettering that found no clear room, or nothing when all did. */
function crowdedNote(drawings: readonly BoardDrawing[]): Finding | undefined {
  const pieces = drawings.flatMap(({ crowded }) => crowded);
  if (pieces.length === 0) return undefined;
  const named = pieces.slice(0, MOST_NAMED).map(({ piece, what }) => `${piece} (${listed(what)})`);
  const others = pieces.length - named.length;
  return {
    level: 'note',
    code: 'document/crowded',
    message: `On the templates there is no clear room for all lettering of ${named.join('; ')}${others > 0 ? ` and ${others} more pieces` : ''}.`,
    fix: 'Write it on the piece by hand before it is cut.',
    where: pieces.length === 1 ? { piece: pieces[0].piece } : {},
  };
}

/** Single strokes are there for Latin letters: what else a job's words hold is drawn as open boxes, and that is said. */
function lettersNote({ name, facts, boards }: Plan): Finding | undefined {
  const words = [name, facts.front.word, ...new Set(boards.map(({ stock }) => stock))];
  const boxed = words.filter((text) => writable(text).includes(MISSING));
  if (boxed.length === 0) return undefined;
  return {
    level: 'note',
    code: 'document/letters',
    message: `Lettering is single strokes of Latin letters: in ${boxed.map((text) => `"${text}"`).join(', ')} each character that it lacks is drawn as an open box. The titles of the files hold the words whole.`,
    fix: 'Add a name in Latin letters if a crew is to read it on the templates.',
    where: {},
  };
}
