import type { CannotMake, Fault, Finding } from '../../src/findings.ts';
import { stream } from '../../src/geometry/random.ts';
import { makeKit } from '../../src/job/kit.ts';
import type { LayerStack } from '../../src/model/layer.ts';
import type { Blank, Piece, Wish } from '../../src/model/piece.ts';
import { hollow } from '../../src/split/hollow.ts';
import { solid } from '../../src/split/solid.ts';
import { walkNow } from '../../src/walk.ts';
import { splitFacts } from './stacks.ts';

const SOLID = solid.options(makeKit('mm'));
const HOLLOW = hollow.options(makeKit('mm'));

export interface Split {
  readonly blanks: readonly Blank[];
  readonly pieces: readonly Piece[];
  readonly findings: readonly Finding[];
  /** Pieces of a layer. */
  of(layer: number): Piece[];
}

export interface SplitOptions {
  readonly facts?: ReturnType<typeof splitFacts>;
  readonly wishes?: readonly Wish[];
  readonly lap?: number;
  readonly leastVoid?: number;
  /** Other options of hollow, as a job says them. */
  readonly more?: Readonly<Record<string, unknown>>;
  readonly seams?: {
    readonly style?: 'butt' | 'key' | 'tongue';
    readonly stagger?: number;
    readonly clearance?: number;
  };
}

/** Run a splitter on a stack. */
export function split(
  name: 'solid' | 'hollow',
  stack: LayerStack,
  { facts = splitFacts(), wishes = [], lap, leastVoid = 200, more = {}, seams = {} }: SplitOptions = {},
): Split {
  const findings: Finding[] = [];
  const context = { facts, tell: (finding: Finding) => void findings.push(finding), random: stream(1, 'split', 0) };
  const input = { stack, wishes };
  const work =
    name === 'solid'
      ? solid.run(input, SOLID.parse({ seams }), context)
      : hollow.run(input, HOLLOW.parse({ lap, leastVoid, ...more, seams }), context);
  const blanks = walkNow(work as Exclude<typeof work, Promise<unknown>>);
  const pieces = blanks.flatMap((blank) => blank.pieces);
  return { blanks, pieces, findings, of: (layer) => pieces.filter((piece) => piece.layer === layer) };
}

/** The faults with which some work is refused. */
export function faultsOf(work: () => unknown): readonly Fault[] {
  try {
    work();
  } catch (error) {
    return (error as CannotMake).faults ?? [];
  }
  return [];
}
