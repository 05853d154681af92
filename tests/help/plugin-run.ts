import { CannotMake, type Fault, type Finding } from '../../src/findings.ts';
import { stream } from '../../src/geometry/random.ts';
import { makeKit } from '../../src/job/kit.ts';
import type { Landform } from '../../src/model/landform.ts';
import type { AnyPlugin } from '../../src/registry.ts';
import type { Unit } from '../../src/units.ts';
import { walkNow } from '../../src/walk.ts';

export interface Ran<T> {
  readonly made: T;
  readonly findings: readonly Finding[];
}

/** Run a source or a shaper with options as they are written in a job. */
export function runPlugin<T extends Landform>(
  plugin: AnyPlugin,
  input: unknown,
  written: Record<string, unknown>,
  {
    unit = 'mm',
    facts = {},
    others = {},
  }: { unit?: Unit; facts?: Record<string, unknown>; others?: Record<string, Landform> } = {},
): Ran<T> {
  const findings: Finding[] = [];
  const options = plugin.options(makeKit(unit)).parse(written);
  const context = {
    facts,
    others,
    tell: (finding: Finding) => void findings.push(finding),
    random: stream(5, plugin.stage, 0),
  };
  return { made: walkNow(plugin.run(input, options, context) as T), findings };
}

/** The one fault that some work is refused with. Fails when it is not refused, or in another way. */
export function refusal(work: () => unknown): Fault {
  try {
    work();
  } catch (error) {
    if (error instanceof CannotMake && error.faults.length === 1) return error.faults[0];
    throw error;
  }
  throw new Error('this was not refused');
}

export const codes = ({ findings }: Ran<Landform>): string[] => findings.map(({ code }) => code);
