import { parse } from 'csv-parse/sync';
import { refuse, type Where } from '../../findings.ts';

/** A file longer than this is no list of spots that the surface could take. */
const MOST_BYTES = 64 << 20;
/** Bytes of one line, or of one quoted field with line ends in it. */
const MOST_RECORD = 10_000;
/** Lines by which the separator is found. */
const SAMPLE = 50;

/** One line of the file that is neither empty nor a comment. */
export interface RecordLine {
  readonly fields: readonly string[];
  readonly line: number;
}

/** How the fields of a file stand apart, and whether 3,5 is a number in it. */
export interface Form {
  readonly separator: string;
  readonly hasDecimalComma: boolean;
}

/** The text of a file, UTF-8 or (with a byte order mark) UTF-16, its line ends all alike. Refused when it is no text. */
export function textOf(bytes: Uint8Array, file: string): string {
  if (bytes.length > MOST_BYTES) tooLong(bytes.length, file);
  const isWide = bytes[0] === 0xff && bytes[1] === 0xfe;
  const isWideBig = bytes[0] === 0xfe && bytes[1] === 0xff;
  const text = new TextDecoder(isWide ? 'utf-16le' : isWideBig ? 'utf-16be' : 'utf-8').decode(bytes);
  const zero = text.indexOf('\0');
  if (zero >= 0) notText({ file, line: text.slice(0, zero).split('\n').length });
  return text.replace(/\r\n?/g, '\n');
}

/**
 * Find how fields stand apart: by the first of semicolon, tab, comma, blanks with which most of the first lines hold three
 * numbers or more. With all but the comma a number may be written 3,5.
 */
export function formOf(text: string): Form {
  const lines: string[] = [];
  for (let at = 0; at < text.length && lines.length < SAMPLE; ) {
    const end = text.indexOf('\n', at);
    const line = text.slice(at, Math.min(end < 0 ? text.length : end, at + MOST_RECORD)).trim();
    if (line !== '' && !isComment(line)) lines.push(line);
    at = end < 0 ? text.length : end + 1;
  }
  const forms = [';', '\t', ',', ' '].map((separator) => ({ separator, hasDecimalComma: separator !== ',' }));
  const score = (form: Form) =>
    lines.filter(
      (line) =>
        line
          .split(form.separator === ' ' ? /\s+/ : form.separator)
          .filter((field) => Number.isFinite(numberIn(unquoted(field), form))).length >= 3,
    ).length;
  // Where no line holds three numbers, the first one's fields decide how its faults are told.
  const fieldsOf = ({ separator }: Form) => (lines[0] ?? '').split(separator).length;
  const scores = forms.map((form) => score(form) + Math.min(fieldsOf(form), 999) / 1000);
  return forms[scores.indexOf(Math.max(...scores))];
}

/** Tell every record in turn. Quotes may hold separators and line ends (RFC 4180). Memory is that of one record beside the text. */
export function eachRecord(text: string, { separator }: Form, file: string, take: (record: RecordLine) => void): void {
  let last = 0;
  try {
    parse(text, {
      delimiter: separator === ' ' ? [' ', '\t'] : separator,
      record_delimiter: '\n',
      max_record_size: MOST_RECORD,
      relax_column_count: true,
      relax_quotes: true,
      trim: separator !== ' ' && separator !== '\t',
      skip_empty_lines: true,
      on_record: (found: string[], { lines }) => {
        last = lines;
        const fields = found.map((field) => field.trim());
        const isEmpty = fields.every((field) => field === '');
        const present = separator === ' ' ? fields.filter((field) => field !== '') : fields;
        if (!isEmpty && !isComment(present[0])) take({ fields: present, line: lines });
        return null;
      },
    });
  } catch (error) {
    const { code } = error as { code?: string };
    // The parser tells where it gave up; the fault begins after the last line that it understood.
    if (code === 'CSV_QUOTE_NOT_CLOSED') openQuote({ file, line: last + 1 });
    if (code === 'CSV_MAX_RECORD_SIZE') longLine({ file, line: last + 1 });
    throw error;
  }
}

const NUMBER = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?$/i;
const COMMA_NUMBER = /^[+-]?(?:\d+,?\d*|,\d+)(?:e[+-]?\d+)?$/i;

/** The number that a field holds, or NaN. Never empty text as 0, never "Infinity". */
export function numberIn(field: string, { hasDecimalComma }: Form): number {
  if (NUMBER.test(field)) return Number(field);
  return hasDecimalComma && COMMA_NUMBER.test(field) ? Number(field.replace(',', '.')) : Number.NaN;
}

const isComment = (line: string): boolean => /^(#|%|!|\/\/)/.test(line);
const unquoted = (field: string): string =>
  field
    .trim()
    .replace(/^"(.*)"$/, '$1')
    .trim();

const tooLong = (bytes: number, file: string): never =>
  refuse(
    'source/too-long',
    `The file has ${Math.round(bytes / (1 << 20))} MB; ${MOST_BYTES >> 20} MB are taken.`,
    'Thin the points out, or grid them elsewhere and read them with height-grid.',
    { file },
  );

const notText = (where: Where): never =>
  refuse(
    'source/not-text',
    'The file holds zero bytes: it is no text.',
    'Save the points as plain text or CSV.',
    where,
  );

const openQuote = (where: Where): never =>
  refuse('source/open-quote', 'A quote that opens here is never closed.', 'Close it, or take it out.', where);

const longLine = (where: Where): never =>
  refuse(
    'source/long-line',
    `This line, or a quote that opens in it, goes on for more than ${MOST_RECORD} bytes.`,
    'Close the quote, or save the points one on a line.',
    where,
  );
