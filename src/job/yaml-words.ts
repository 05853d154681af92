import type { ErrorCode } from 'yaml';

/** What is wrong with a YAML file, in plain words, and the way out, by the reader's code. */
export const YAML_WORDS: Readonly<Partial<Record<ErrorCode, readonly [what: string, wayOut: string]>>> = {
  ALIAS_PROPS: ['An alias has an anchor or a tag of its own.', 'Take it out.'],
  BAD_ALIAS: ['An anchor or alias has no name, or one that cannot be.', 'Name it with letters and digits.'],
  BAD_DIRECTIVE: ['A line that starts with % is not understood.', 'Take it out.'],
  BAD_DQ_ESCAPE: ['A backslash in "…" is followed by a letter that means nothing.', "Write '…' instead, or \\\\."],
  BAD_INDENT: [
    'The indent does not fit the lines above, or a bracket is not closed.',
    'Start keys of one group in the same column.',
  ],
  BAD_PROP_ORDER: ['An anchor or tag stands in the wrong place.', 'Put it right before its value.'],
  BAD_SCALAR_START: ['A value may not start with this character.', 'Put the value in quotes.'],
  BLOCK_AS_IMPLICIT_KEY: ['Two keys stand on one line.', 'Write one a line, or { a: 1, b: 2 }.'],
  BLOCK_IN_FLOW: ['Lines with hyphens or keys stand inside brackets.', 'Write them as [a, b] or { a: 1 }.'],
  DUPLICATE_KEY: ['This key stands here twice.', 'Keep one of the two.'],
  IMPOSSIBLE: ['This cannot be read.', 'Write it anew.'],
  KEY_OVER_1024_CHARS: ['A key is longer than 1024 characters.', 'Look for a missing line break or quote.'],
  MISSING_CHAR: [
    'A bracket, quote, comma, colon or space is missing.',
    'Close what was opened; put a space after : and -.',
  ],
  MULTILINE_IMPLICIT_KEY: ['A key runs over more than one line.', 'Look for a missing colon, quote or bracket.'],
  MULTIPLE_ANCHORS: ['A value has two anchors.', 'Keep one.'],
  MULTIPLE_TAGS: ['A value has two tags.', 'Take them out.'],
  NON_STRING_KEY: ['A key is not text.', 'Write the key as a word.'],
  RESOURCE_EXHAUSTION: ['This is nested too deep.', 'A job needs no more than ten levels.'],
  TAB_AS_INDENT: ['A tab is used to indent.', 'Use spaces.'],
  TAG_RESOLVE_FAILED: [
    'A tag (a word that starts with !) has no meaning here.',
    'Take it out, or put the text in quotes.',
  ],
  UNEXPECTED_TOKEN: ['Something stands here that does not belong.', 'Look for a missing comma, quote or line break.'],
  BAD_COLLECTION_TYPE: ['A tag does not fit its value.', 'Take the tag out.'],
};

/** After these the values read are not those that were meant: nothing more is said of them. */
export const MANGLED: ReadonlySet<ErrorCode> = new Set(
  (Object.keys(YAML_WORDS) as ErrorCode[]).filter(
    (code) =>
      !['DUPLICATE_KEY', 'TAG_RESOLVE_FAILED', 'BAD_DIRECTIVE', 'NON_STRING_KEY', 'BAD_DQ_ESCAPE'].includes(code),
  ),
);
