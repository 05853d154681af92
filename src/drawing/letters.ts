/** Letters without an accent to take off, and signs, by the usual spelling in plain letters. */
// biome-ignore format: rows of pairs read better than a column
const PLAIN: Readonly<Record<string, string>> = {
  æ: 'ae', Æ: 'AE', œ: 'oe', Œ: 'OE', þ: 'th', Þ: 'Th', ð: 'd', đ: 'd', Đ: 'D', ł: 'l', Ł: 'L', ı: 'i', µ: 'u',
  '…': '...', '‘': "'", '’': "'", '−': '-', '‐': '-', '‑': '-', '•': '·', '→': '->', '←': '<-', '≤': '<=', '≥': '>=',
};

/** What stands for a character that a face lacks and no plain letters spell: drawn as an open box. */
export const MISSING = '\uFFFD';

/**
 * A text in the characters of a face. A letter with an accent it lacks loses the accent; a ligature is spelt out; every kind
 * of space is one space; control and joining characters fall away; the rest become MISSING.
 */
export function inLetters(text: string, has: (character: string) => boolean): string {
  let result = '';
  for (const character of text.normalize('NFC').replace(/\s+/gu, ' ')) {
    if (has(character)) result += character;
    else if (/[\p{Cc}\p{Cf}\p{M}]/u.test(character)) continue;
    else {
      const plain = PLAIN[character] ?? character.normalize('NFD').replace(/\p{M}/gu, '');
      for (const letter of plain) result += has(letter) ? letter : MISSING;
    }
  }
  return result;
}
