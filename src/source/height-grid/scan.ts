/** Bytes of a text, one by one: no text is split into strings, so that a grid takes the room of its numbers. */

export const NEWLINE = 10;
export const RETURN = 13;
const [TAB, SPACE, COMMA, SEMICOLON] = [9, 32, 44, 59];
const [PLUS, MINUS, POINT, ZERO, NINE, SMALL_E] = [43, 45, 46, 48, 57, 101];

/** The powers of ten that a double holds exactly. */
const TENS = Array.from({ length: 23 }, (_, power) => Number(`1e${power}`));
/** So many digits fit a double exactly. */
const EXACT_DIGITS = 15;
const NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i;

export const isBlank = (byte: number): boolean => byte === SPACE || byte === TAB;
export const isComma = (byte: number): boolean => byte === COMMA || byte === SEMICOLON;
export const isLineEnd = (byte: number): boolean => byte === NEWLINE || byte === RETURN;

/** Where the word that begins at a byte ends. */
export function wordEnd(bytes: Uint8Array, start: number): number {
  let end = start;
  while (end < bytes.length && bytes[end] > SPACE && !isComma(bytes[end])) end++;
  // A control character that is neither blank nor line end is a word of its own: it must not be passed over.
  return end === start ? start + 1 : end;
}

/** Where the next line begins: after \n, \r or both. */
export function nextLine(bytes: Uint8Array, lineEnd: number): number {
  const isPair = bytes[lineEnd] === RETURN && bytes[lineEnd + 1] === NEWLINE;
  return lineEnd + (isPair ? 2 : 1);
}

/** A word as text, for a message or a slow path: at most so many bytes, what cannot be printed as a dot. */
export function wordText(bytes: Uint8Array, start: number, end: number, most = 24): string {
  let text = '';
  for (let i = start; i < Math.min(end, start + most); i++) {
    text += bytes[i] > SPACE && bytes[i] < 127 ? String.fromCharCode(bytes[i]) : '·';
  }
  return end - start > most ? `${text}…` : text;
}

/**
 * The number that a word spells, correctly rounded, or NaN when it spells none (nor does "nan" or "inf").
 * Up to 15 digits are one exact whole number times or by one exact power of ten, so that one rounding is all there is
 * (W. D. Clinger, How to read floating point numbers accurately, 1990); longer ones go through the language's own reader.
 */
export function numberOf(bytes: Uint8Array, start: number, end: number): number {
  let i = start;
  const isNegative = bytes[i] === MINUS;
  if (isNegative || bytes[i] === PLUS) i++;
  let digits = 0;
  let whole = 0;
  let power = 0;
  let hasPoint = false;
  for (; i < end; i++) {
    const byte = bytes[i];
    if (byte >= ZERO && byte <= NINE) {
      whole = whole * 10 + (byte - ZERO);
      digits++;
      if (hasPoint) power--;
    } else if (byte === POINT && !hasPoint) hasPoint = true;
    else break;
  }
  if (digits === 0) return Number.NaN;
  const isPlain = i === end;
  if (!isPlain && (bytes[i] | 32) !== SMALL_E) return Number.NaN;
  if (!isPlain || digits > EXACT_DIGITS || power < -22) return slowNumber(bytes, start, end);
  const value = power < 0 ? whole / TENS[-power] : whole;
  return isNegative ? -value : value;
}

function slowNumber(bytes: Uint8Array, start: number, end: number): number {
  const text = wordText(bytes, start, end, 400);
  return NUMBER.test(text) ? Number(text) : Number.NaN;
}
