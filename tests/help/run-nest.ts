import type { Finding } from '../../src/findings.ts';
import { stream } from '../../src/geometry/random.ts';
import type { Facts } from '../../src/model/facts.ts';
import type { Layout } from '../../src/model/layout.ts';
import type { Blank } from '../../src/model/piece.ts';
import { boards } from '../../src/nest/boards.ts';
import { type Driver, QUIET, walk } from '../../src/walk.ts';

export interface NestOptions {
  readonly turns?: 'free' | 'quarter' | 'half' | 'fixed';
  readonly effort?: number;
  readonly offcut?: number;
  readonly seed?: number;
  readonly driver?: Driver;
}

/** Nest blanks as a run does, and what was told about it. */
export async function nest(
  blanks: readonly Blank[],
  facts: Facts,
  { turns = 'free', effort = 40_000, offcut = 150, seed = 1, driver = QUIET }: NestOptions = {},
): Promise<{ layout: Layout; findings: Finding[] }> {
  const findings: Finding[] = [];
  const context = { facts, tell: (finding: Finding) => void findings.push(finding), random: stream(seed, 'nest', 0) };
  const layout = await walk(boards.run(blanks, { turns, effort, offcut }, context), driver, boards.tasks);
  return { layout, findings };
}
