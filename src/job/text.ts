import type { Kit } from '../plugin.ts';

const MOST_CHARACTERS = 300;

/** A name or a few words in any script, told by code points: an emoji counts once. */
export const text = ({ z }: Kit) =>
  z
    .string()
    .refine((words) => words.trim() !== '', { error: 'The text is empty.\nWrite at least one character.' })
    .refine((words) => [...words].length <= MOST_CHARACTERS, {
      error: ({ input }) => `The text has ${[...String(input)].length} characters.\nWrite at most ${MOST_CHARACTERS}.`,
    })
    .meta({ minLength: 1, maxLength: MOST_CHARACTERS });
