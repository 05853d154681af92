/**
 * How shapes are drawn, as far as it says what they mean: presentation attributes, `style` attributes and `<style>` blocks.
 * Of CSS: rules whose selectors are a name, `.class`, `#id`, `*` or these joined (`path.brow`), in lists, by specificity and
 * order. Not honoured: selectors with combinators or brackets, at-rules, `!important` (read as if not written), variables.
 */
import type { Element } from './xml.ts';

/** Declarations by property. */
export type Declarations = ReadonlyMap<string, string>;

interface Rule {
  readonly tag: string;
  readonly id: string;
  readonly classes: readonly string[];
  readonly weight: number;
  readonly declared: Declarations;
}

/** Every rule is asked of every element: more than any drawing program writes are cut off. */
const MOST_RULES = 1000;
const SELECTOR = /^(\*|[a-zA-Z][\w-]*)?((?:[.#][\w-]+)*)$/;

/** What the `<style>` blocks of a drawing say: which declarations apply to an element, the strongest last set. */
export function readStyles(elements: readonly Element[]): (element: Element) => Declarations {
  const rules = elements.filter(({ name }) => name === 'style').flatMap(({ text }) => rulesOf(text));
  rules.length = Math.min(rules.length, MOST_RULES);
  // Sorting keeps the order of equals: the later one wins.
  rules.sort((a, b) => a.weight - b.weight);
  const ids = new Set(rules.map(({ id }) => id));
  // Elements that no rule can tell apart are asked about once.
  const known = new Map<string, Declarations>();
  return ({ name, attributes }) => {
    const written = attributes.get('id') ?? '';
    const id = ids.has(written) ? written : '';
    const classes = attributes.get('class') ?? '';
    const key = JSON.stringify([name, id, classes]);
    let declared = known.get(key);
    if (declared === undefined) known.set(key, (declared = strongest(rules, name, id, new Set(classes.split(/\s+/)))));
    const own = attributes.get('style');
    return own === undefined ? declared : new Map([...declared, ...declarationsOf(own)]);
  };
}

function strongest(rules: readonly Rule[], name: string, id: string, classes: ReadonlySet<string>): Declarations {
  const declared = new Map<string, string>();
  for (const rule of rules) {
    if ((rule.tag !== '' && rule.tag !== name) || (rule.id !== '' && rule.id !== id)) continue;
    if (!rule.classes.every((each) => classes.has(each))) continue;
    for (const [property, value] of rule.declared) declared.set(property, value);
  }
  return declared;
}

function rulesOf(text: string): Rule[] {
  const plain = text.replace(/\/\*[\s\S]*?(?:\*\/|$)/g, '');
  const rules: Rule[] = [];
  for (let at = 0; at < plain.length; ) {
    const opens = plain.indexOf('{', at);
    if (opens < 0) break;
    const closes = closing(plain, opens);
    const between = plain.slice(at, opens);
    const before = between.slice(between.lastIndexOf(';') + 1).trim();
    // An at-rule's block holds rules for other media.
    if (!before.startsWith('@')) {
      const declared = declarationsOf(plain.slice(opens + 1, closes));
      for (const selector of before.split(',')) {
        const rule = ruleOf(selector.trim(), declared);
        if (rule !== null && rules.length < MOST_RULES) rules.push(rule);
      }
    }
    at = closes + 1;
  }
  return rules;
}

/** Where the brace that opens at a place is closed again; the end when it is not. */
function closing(text: string, opens: number): number {
  let depth = 0;
  for (let i = opens; i < text.length; i++) {
    if (text[i] === '{') depth++;
    else if (text[i] === '}' && --depth === 0) return i;
  }
  return text.length;
}

function ruleOf(selector: string, declared: Declarations): Rule | null {
  const match = SELECTOR.exec(selector);
  if (match === null || selector === '') return null;
  const tag = match[1] === undefined || match[1] === '*' ? '' : match[1];
  const joined = match[2].match(/[.#][\w-]+/g) ?? [];
  const classes = joined.filter((part) => part[0] === '.').map((part) => part.slice(1));
  const ids = joined.filter((part) => part[0] === '#').map((part) => part.slice(1));
  if (ids.length > 1) return null;
  const weight = ids.length * 1e6 + classes.length * 1000 + (tag === '' ? 0 : 1);
  return { tag, id: ids[0] ?? '', classes, weight, declared };
}

/** `stroke: red; display: none` as a map. */
function declarationsOf(text: string): Declarations {
  const declared = new Map<string, string>();
  for (const part of text.split(';')) {
    const colon = part.indexOf(':');
    if (colon < 0) continue;
    const value = part.slice(colon + 1).replace(/!\s*important/i, '');
    declared.set(part.slice(0, colon).trim().toLowerCase(), value.trim());
  }
  return declared;
}
