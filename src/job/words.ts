import type { z } from 'zod';
import { nearest } from '../registry.ts';

/**
 * What is said of a value that a schema refuses, in builder's words: what is wrong, then after a line break the way out.
 * Schemas may carry messages of their own in the same form. Given to zod as the error map of a call, so a message that a
 * schema carries comes first.
 */
export function words(issue: z.core.$ZodRawIssue): string {
  const { code, input } = issue;
  const key = String(issue.path?.at(-1) ?? 'the value');
  if (input === undefined) return missing(key);
  switch (code) {
    case 'invalid_type':
      return input === null ? empty(key) : wrongType(input, issue.expected);
    case 'invalid_value':
      return input === null ? empty(key) : notOneOf(input, issue.values.map(String));
    case 'too_small':
      return beyond(input, Number(issue.minimum), issue.inclusive === false ? 'above' : 'least');
    case 'too_big':
      return beyond(input, Number(issue.maximum), issue.inclusive === false ? 'below' : 'most');
    case 'not_multiple_of':
      return `${shown(input)} is not a multiple of ${issue.divisor}.\nWrite one that is.`;
    case 'invalid_format':
      return `${shown(input)} is not of the form ${issue.pattern ?? issue.format}.\nWrite it in that form.`;
    case 'unrecognized_keys':
      // faults.ts makes one fault of each key; it needs the keys that there are.
      return keysOf(issue.inst).join('\n');
    case 'invalid_union':
      // faults.ts looks into the choices.
      return '';
    default:
      return `${shown(input)} cannot stand here.\nSee the schema: lynchet schema job.`;
  }
}

export const missing = (key: string): string => `"${key}" is missing.\nAdd it: ${key}: …`;

export const empty = (key: string): string =>
  /^\d+$/.test(key)
    ? 'This entry of the list is empty.\nWrite one, or take it out.'
    : `"${key}" has no value.\nWrite one, or take the key out.`;

/** "x" is not one of a, b, c; with the one that was probably meant. */
export function notOneOf(value: unknown, choices: readonly string[]): string {
  const guess = typeof value === 'string' ? nearest(value, choices) : undefined;
  const what = choices.length === 1 ? `"${choices[0]}"` : `one of ${choices.join(', ')}`;
  return `${shown(value)} is not ${what}.\n${guess ? `Did you mean ${guess}?` : choices.length === 1 ? `Write ${what}.` : 'Write one of these.'}`;
}

/** A value as it may be quoted in a sentence. */
export function shown(value: unknown): string {
  if (typeof value === 'string') {
    const characters = [...value];
    return JSON.stringify(characters.length > 40 ? `${characters.slice(0, 40).join('')}…` : value);
  }
  if (Array.isArray(value)) return value.length === 0 ? 'an empty list' : 'a list';
  if (typeof value === 'object' && value !== null) return 'a group of keys';
  return String(value);
}

const TYPES: Readonly<Record<string, readonly [what: string, wayOut: string]>> = {
  number: ['a number', 'Write a number, as 12 or 0.5.'],
  int: ['a whole number', 'Write a whole number, as 3.'],
  boolean: ['true or false', 'Write true or false.'],
  array: ['a list', 'Write a list: [a, b], or lines that start with a hyphen.'],
  tuple: ['a list', 'Write a list: [a, b].'],
  object: ['a group of keys', 'Write it as { key: value }.'],
  record: ['a group of keys', 'Write it as { key: value }.'],
};

function wrongType(input: unknown, expected: string): string {
  if (expected === 'string') {
    const wayOut = typeof input === 'object' ? 'Write a text.' : `Put it in quotes: "${String(input)}".`;
    return `${shown(input)} is not text.\n${wayOut}`;
  }
  const [what, wayOut] = TYPES[expected] ?? [`a ${expected}`, `Write a ${expected}.`];
  return `${shown(input)} is not ${what}.\n${wayOut}`;
}

function beyond(input: unknown, limit: number, side: 'above' | 'below' | 'least' | 'most'): string {
  if (typeof input === 'number') {
    const wrong = { above: 'is not above', below: 'is not below', least: 'is less than', most: 'is more than' }[side];
    const wayOut = { above: 'more than', below: 'less than', least: 'at least', most: 'at most' }[side];
    return `${shown(input)} ${wrong} ${limit}.\nWrite ${wayOut} ${limit}.`;
  }
  const items = typeof input === 'string' ? 'characters' : 'entries';
  const count = typeof input === 'string' || Array.isArray(input) ? input.length : Object.keys(Object(input)).length;
  if (count === 0) return `${typeof input === 'string' ? 'The text' : 'The list'} is empty.\nWrite at least ${limit}.`;
  return `${shown(input)} has ${count} ${items}.\nWrite at ${side === 'most' || side === 'below' ? 'most' : 'least'} ${limit}.`;
}

/** The keys of a strict object's schema; none for a schema of another kind. */
function keysOf(schema: unknown): string[] {
  const shape = (schema as { _zod?: { def?: { shape?: object } } } | undefined)?._zod?.def?.shape;
  return shape ? Object.keys(shape) : [];
}
