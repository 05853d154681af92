/** Nesting: read the ratios within one run, never the times. Seeded; one round of lanes from empty boards. */
import { bench, describe } from 'vitest';
import { layout as check } from '../../src/checks/layout.ts';
import { board, factsOf, lopsidedBlanks, planOf } from '../help/nesting.ts';
import { nest } from '../help/run-nest.ts';

const facts = factsOf([board([2400, 1200], { trimMm: 5 })], 12);
const OPTIONS = { iterations: 5, warmupIterations: 1, time: 0, warmupTime: 0 };
const sink: unknown[] = [];

describe('one round, 2400 × 1200 boards', () => {
  for (const [count, largestMm, points] of [
    [75, 900, 40],
    [75, 900, 300],
    [150, 800, 300],
  ]) {
    const blanks = lopsidedBlanks(3, count, largestMm, points);
    const run = async () => void (sink[0] = await nest(blanks, facts, { effort: 1 }));
    bench(`${count} pieces of ${points} points`, run, OPTIONS);
  }
});

const blanks = lopsidedBlanks(3, 150, 800, 300);
const { layout } = await nest(blanks, facts, { effort: 1 });
const plan = planOf(blanks, layout, facts);

describe('the check of a layout', () => {
  bench('150 pieces of 300 points', () => void (sink[0] = check(plan)), OPTIONS);
});
