import { refuse } from '../../findings.ts';
import { MOST_POSTS } from '../../model/landform.ts';

/** Refuse a grid of more posts than are taken in. */
export const tooMany = (file: string, columns: number, rows: number): never =>
  refuse(
    'source/too-many-posts',
    `The grid has ${columns} × ${rows} posts or more: over the ${MOST_POSTS} that are taken in.`,
    'Resample the grid to wider posts, or cut out the ground that you need.',
    { file },
  );

/** Refuse a file of no bytes. */
export const emptyFile = (file: string): never =>
  refuse('source/empty-file', `The file is empty or was not given.`, 'Name a file that holds the grid.', { file });

/** Refuse a file that is no text, naming what it seems to be. */
export const notText = (file: string, kind: string): never =>
  refuse(
    'source/not-text',
    `The file is not a plain-text grid; it seems to be ${kind}.`,
    'Export the heights as an ASCII grid, in UTF-8.',
    {
      file,
    },
  );

/** Refuse a word that no header has. */
export const strangeWord = (file: string, word: string, words: readonly string[], line: number): never =>
  refuse(
    'source/grid-header',
    `"${word}" is not a word of a grid's header: those are ${words.join(', ')}.`,
    'Take the line out, or export the heights as an ASCII grid.',
    { file, line, column: 1 },
  );

/** Refuse a word that stands there twice. */
export const twice = (file: string, word: string, line: number): never =>
  refuse('source/grid-header', `${word} is said twice.`, 'Keep the one that is true.', { file, line });

/** Refuse a word without its number. */
export const noNumber = (file: string, word: string, text: string, line: number): never =>
  refuse(
    'source/grid-header',
    `${word} needs a number${text ? `, not "${text}"` : ''}.`,
    'Write decimals with a point.',
    {
      file,
      line,
    },
  );

/** Refuse a line that holds more than a word and a number. */
export const twoNumbers = (file: string, word: string, line: number): never =>
  refuse('source/grid-header', `More than a number stands after ${word}.`, 'Put one word and one number in a line.', {
    file,
    line,
  });

/** Refuse a header that lacks a word. */
export const missing = (file: string, word: string): never =>
  refuse('source/grid-header', `The header does not say ${word}.`, `Add a line: ${word} and its number.`, { file });

/** Refuse a number of columns or rows that is none. */
export const badCount = (file: string, word: string, count: number): never =>
  refuse(
    'source/too-few-posts',
    `${word} is ${count}: ground needs at least 2 × 2 posts, in whole numbers.`,
    'Mend the header.',
    {
      file,
    },
  );

/** Refuse a distance between posts that is none. */
export const badStep = (file: string): never =>
  refuse(
    'source/spacing',
    'The distance between posts must be above 0.',
    'Mend cellsize (or dx and dy) in the header.',
    { file },
  );

/** Refuse a file that cannot hold what its header promises. */
export const tooShort = (file: string, columns: number, rows: number): never =>
  refuse(
    'source/too-few-numbers',
    `The header promises ${columns} × ${rows} numbers; the file is too short to hold them.`,
    'Fetch the file again: it was cut off, or the header is not its own.',
    { file },
  );
