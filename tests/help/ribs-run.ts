import type { Finding } from '../../src/findings.ts';
import { stream } from '../../src/geometry/random.ts';
import { makeKit } from '../../src/job/kit.ts';
import type { Facts } from '../../src/model/facts.ts';
import type { Landform } from '../../src/model/landform.ts';
import type { LayerStack } from '../../src/model/layer.ts';
import type { Piece, Wish } from '../../src/model/piece.ts';
import { ribs as standing } from '../../src/slice/ribs.ts';
import { ribs as lapping } from '../../src/split/ribs.ts';
import { walkNow } from '../../src/walk.ts';
import { boardFacts } from './board-facts.ts';
import { splitFacts } from './stacks.ts';

/** Stand ribs under some ground, with options as they are written in a job. */
export function standRibs(
  landform: Landform,
  written: Record<string, unknown> = {},
  facts: Partial<Facts> = {},
): { stack: LayerStack; findings: Finding[]; codes: string[] } {
  const findings: Finding[] = [];
  const context = {
    facts: { ...boardFacts([50]), zones: [], ...facts },
    tell: (finding: Finding) => void findings.push(finding),
    random: stream(1, 'slice', 0),
  };
  const work = standing.run(landform, standing.options(makeKit('mm')).parse(written), context);
  const stack = walkNow(work as Exclude<typeof work, Promise<unknown>>);
  return { stack, findings, codes: findings.map(({ code }) => code) };
}

/** Cut a stack of ribs into pieces that fit a board. */
export function lapRibs(
  stack: LayerStack,
  written: Record<string, unknown> = {},
  facts = splitFacts(),
  wishes: readonly Wish[] = [],
): { pieces: Piece[]; findings: Finding[] } {
  const findings: Finding[] = [];
  const context = { facts, tell: (finding: Finding) => void findings.push(finding), random: stream(1, 'split', 0) };
  const work = lapping.run({ stack, wishes }, lapping.options(makeKit('mm')).parse(written), context);
  const blanks = walkNow(work as Exclude<typeof work, Promise<unknown>>);
  return { pieces: blanks.flatMap(({ pieces }) => [...pieces]), findings };
}
