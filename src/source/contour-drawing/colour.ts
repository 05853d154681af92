import names from 'color-name';

/** No colour is written longer. */
const LONGEST = 100;

/** A CSS colour as `#rrggbb` (transparency is left off); what is no plain colour, such as none or a gradient, in small letters. */
export function colourOf(written: string): string {
  const text = written.slice(0, LONGEST).trim().toLowerCase();
  const hex = /^#([0-9a-f]{3,8})$/.exec(text)?.[1];
  if (hex !== undefined && (hex.length === 3 || hex.length === 4)) {
    return `#${[...hex.slice(0, 3)].map((digit) => digit + digit).join('')}`;
  }
  if (hex !== undefined && (hex.length === 6 || hex.length === 8)) return `#${hex.slice(0, 6)}`;
  const shares = /^rgba?\(\s*([\d.]+)(%?)[\s,]+([\d.]+)(%?)[\s,]+([\d.]+)(%?)\s*(?:[,/][^)]*)?\)$/.exec(text);
  if (shares !== null) {
    return hexOf([1, 3, 5].map((i) => Number(shares[i]) * (shares[i + 1] === '%' ? 2.55 : 1)));
  }
  return Object.hasOwn(names, text) ? hexOf(names[text]) : text;
}

const hexOf = (parts: readonly number[]): string =>
  `#${parts.map((part) => Math.min(255, Math.round(part)).toString(16).padStart(2, '0')).join('')}`;
