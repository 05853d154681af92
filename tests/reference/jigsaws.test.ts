/**
 * Published jigsaws: boards cut up without waste, so that the least number of boards is known and equals the area bound
 * (source in the data file). The pieces are stored as they lay; gap 0.
 */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { layout as check } from '../../src/checks/layout.ts';
import { blank, board, factsOf, planOf } from '../help/nesting.ts';
import { nest } from '../help/run-nest.ts';

interface Jigsaw {
  readonly name: string;
  readonly size: readonly [number, number];
  readonly knownBoards: number;
  readonly outlines: readonly (readonly number[])[];
}

const { instances } = JSON.parse(readFileSync(new URL('../data/jigsaws.json', import.meta.url), 'utf8')) as {
  instances: readonly Jigsaw[];
};

test.each(instances.map((each) => [each.name, each] as const))('%s', async (_, { size, knownBoards, outlines }) => {
  const blanks = outlines.map((outline, i) => blank(`${i + 1}A`, [Float64Array.from(outline)]));
  const facts = factsOf([board(size)], 0, [], 0.4);
  const { layout } = await nest(blanks, facts, { turns: 'quarter', effort: 100_000 });
  expect(check(planOf(blanks, layout, facts))).toEqual([]);
  expect(layout.bound).toEqual({ boards: knownBoards, why: 'total area' });
  expect(layout.boards.length).toBeGreaterThanOrEqual(knownBoards);
  // A ratchet, not a target: what is reached now.
  expect(layout.boards.length).toBeLessThanOrEqual(Math.ceil(1.3 * knownBoards));
});
