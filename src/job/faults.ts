import type { z } from 'zod';
import type { Fault } from '../findings.ts';
import { nearest } from '../registry.ts';
import type { Path, Places } from './places.ts';
import { shown, words } from './words.ts';

type Issue = z.core.$ZodIssue;

/** More than this helps nobody, and a file of nonsense would take long. */
const MOST_FAULTS = 200;

/** Check a value against a schema: what came out (undefined when it does not pass), and every fault with its place. */
export function check<S extends z.ZodType>(
  schema: S,
  value: unknown,
  path: Path,
  places: Places,
): { value?: z.output<S>; faults: Fault[] } {
  const result = schema.safeParse(value, { error: words, reportInput: true });
  if (result.success) return { value: result.data, faults: [] };
  return { faults: result.error.issues.slice(0, MOST_FAULTS).flatMap((issue) => faultsOf(issue, path, places)) };
}

/** A fault whose text is `what`, a line break, `way out`. */
export function faultAt(code: string, text: string, path: Path, places: Places, of: 'key' | 'value' = 'value'): Fault {
  const [message, ...fix] = text.split('\n');
  return { code, message, fix: fix.join(' '), where: places.where(path, of) };
}

function faultsOf(issue: Issue, above: Path, places: Places): Fault[] {
  const path: Path = [...above, ...(issue.path as Path)];
  if (issue.code === 'unrecognized_keys') {
    const known = issue.message === '' ? [] : issue.message.split('\n');
    return issue.keys.slice(0, MOST_FAULTS).map((key) => unknownKey(key, known, path, places));
  }
  if (issue.code === 'invalid_union' && issue.message === '') return faultsOfChoice(issue, path, places);
  const code = issue.input === undefined && issue.code !== 'custom' ? 'job/missing' : 'job/bad-value';
  return [faultAt(code, issue.message, path, places)];
}

function unknownKey(key: string, known: readonly string[], path: Path, places: Places): Fault {
  const guess = nearest(key, known);
  const group = path.length === 0 ? 'a job' : path.join('.');
  const wayOut = guess
    ? `Did you mean ${guess}?`
    : known.length > 0
      ? `Its keys are ${known.join(', ')}.`
      : 'Take it out.';
  return faultAt(
    'job/unknown-key',
    `${shown(key)} is not a key of ${group}.\n${wayOut}`,
    [...path, key],
    places,
    'key',
  );
}

/** Of several forms, the one that was meant: the first whose outside fits, or all but a limit. Where none fits, what each wants. */
function faultsOfChoice(issue: Extract<Issue, { code: 'invalid_union' }>, path: Path, places: Places): Fault[] {
  const isInside = ({ code, path }: Issue) => path.length > 0 || code === 'unrecognized_keys';
  const isLimit = ({ code }: Issue) => code === 'custom';
  const meant =
    issue.errors.find((issues) => issues.every(isInside)) ?? issue.errors.find((issues) => issues.every(isLimit));
  if (meant) return meant.flatMap((inner) => faultsOf(inner, path, places));
  const wayOut = issue.errors.map(([first]) => first?.message.split('\n')[1] ?? '').filter((text) => text !== '');
  const text = `${shown(issue.input)} has none of the forms that are understood here.\n${[...new Set(wayOut)].join(' Or: ')}`;
  return [faultAt('job/bad-value', text, path, places)];
}
