import { escaped } from '../../drawing/svg.ts';

/** The report is written so that XML can read it, too: text is escaped as XML wants it. */
export { escaped };

/** A table of plain text. A column of nothing but numbers, with a unit or without, stands right; words stand left. */
export function table(heads: readonly string[], rows: readonly (readonly (string | number)[])[]): string {
  const isRight = heads.map((_, i) => {
    const cells = rows.map((row) => String(row[i])).filter((text) => text !== '');
    return cells.length > 0 && cells.every((text) => NUMBER.test(text));
  });
  const cell = (tag: string, value: string | number, i: number) =>
    `<${tag}${isRight[i] ? ' class="n"' : ''}>${escaped(String(value))}</${tag}>`;
  const head = heads.map((name, i) => cell('th', name, i)).join('');
  const body = rows.map((row) => `<tr>${row.map((value, i) => cell('td', value, i)).join('')}</tr>`).join('\n');
  return `<div class="wide"><table><thead><tr>${head}</tr></thead><tbody>\n${body}\n</tbody></table></div>`;
}

const NUMBER = /^[-–]?[\d.,]+( (m|ft)?[²³]?| kg| lb| mm| cm| in| %)?$/;
