import type { Finding } from '../findings.ts';

/** So many of a kind are told one by one when the check does not say: more nobody reads. */
const MOST_ALIKE = 3;
/** So many of the rest are named. */
const MOST_NAMED = 12;

/** Findings of one kind, the worst first: the first few one by one, the last of them with how many more there are and which. */
export function told<T>(
  worstFirst: readonly T[],
  findingOf: (each: T) => Finding,
  nameOf: (each: T) => string,
  most = MOST_ALIKE,
): Finding[] {
  const findings = worstFirst.slice(0, most).map(findingOf);
  const more = [...new Set(worstFirst.slice(most).map(nameOf))];
  const last = findings.at(-1);
  if (more.length === 0 || !last) return findings;
  return [...findings.slice(0, -1), { ...last, message: `${last.message} And ${more.length} more: ${listed(more)}.` }];
}

/** Names in a row, the first dozen. */
export const listed = (names: readonly string[]): string =>
  `${names.slice(0, MOST_NAMED).join(', ')}${names.length > MOST_NAMED ? ' …' : ''}`;
