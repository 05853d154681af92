/** Text safe inside HTML elements and attributes. Control characters, which HTML may not hold, are dropped. */
export const escaped = (text: string): string =>
  text
    // biome-ignore lint/suspicious/noControlCharactersInRegex: these are the characters to drop
    .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f]/g, '')
    .replace(/&/g, '&amp;')
    .replace(/</g, '&lt;')
    .replace(/>/g, '&gt;')
    .replace(/"/g, '&quot;')
    .replace(/'/g, '&#39;');

/** A table: numbers stand right, words left. Cells are plain text. */
export function table(heads: readonly string[], rows: readonly (readonly (string | number)[])[]): string {
  const cell = (tag: string, value: string | number) =>
    `<${tag}${isNumeric(value) ? ' class="n"' : ''}>${escaped(String(value))}</${tag}>`;
  const isNumericColumn = heads.map((_, i) => rows.length > 0 && rows.every((row) => isNumeric(row[i])));
  const head = heads.map((name, i) => `<th${isNumericColumn[i] ? ' class="n"' : ''}>${escaped(name)}</th>`).join('');
  const body = rows.map((row) => `<tr>${row.map((value) => cell('td', value)).join('')}</tr>`).join('\n');
  return `<div class="wide"><table><thead><tr>${head}</tr></thead><tbody>\n${body}\n</tbody></table></div>`;
}

const isNumeric = (value: string | number): boolean => typeof value === 'number' || /^[-–]?[\d.,]+$/.test(value);
