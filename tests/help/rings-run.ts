import type { Finding } from '../../src/findings.ts';
import { stream } from '../../src/geometry/random.ts';
import type { Ring } from '../../src/geometry/ring.ts';
import { makeKit } from '../../src/job/kit.ts';
import type { Layer, LayerStack } from '../../src/model/layer.ts';
import type { Wish } from '../../src/model/piece.ts';
import { rings } from '../../src/split/rings.ts';
import { walkNow } from '../../src/walk.ts';
import type { Split } from './split-run.ts';
import { splitFacts } from './stacks.ts';

/** One board size that holds everything in these tests whole. */
export const HUGE = splitFacts({
  boardSizes: [{ sizeMm: [9000, 9000], thicknessMm: 50, densityKgM3: 15, trimMm: 5 }],
});

/** Split a stack into rings, options as they are written in a job. */
export function ringsOf(
  stack: LayerStack,
  written: Readonly<Record<string, unknown>> = {},
  facts: typeof HUGE = HUGE,
  wishes: readonly Wish[] = [],
): Split {
  const findings: Finding[] = [];
  const context = { facts, tell: (finding: Finding) => void findings.push(finding), random: stream(1, 'split', 0) };
  const work = rings.run({ stack, wishes }, rings.options(makeKit('mm')).parse(written), context);
  const blanks = walkNow(work as Exclude<typeof work, Promise<unknown>>);
  const pieces = blanks.flatMap((blank) => blank.pieces);
  return { blanks, pieces, findings, of: (layer) => pieces.filter((piece) => piece.layer === layer) };
}

const onGrid = (value: number) => Math.round(value * 1000) / 1000;

/** A regular polygon of so many corners, about round. */
export function round(x: number, y: number, radius: number, corners = 120): Ring {
  const ring = new Float64Array(2 * corners);
  for (let i = 0; i < corners; i++) {
    ring[2 * i] = onGrid(x + radius * Math.cos((2 * Math.PI * i) / corners));
    ring[2 * i + 1] = onGrid(y + radius * Math.sin((2 * Math.PI * i) / corners));
  }
  return ring;
}

/** A stack of one outline a layer, 50 mm thick. */
export const stackOf = (outlines: readonly Ring[], thicknessMm = 50): LayerStack => ({
  kind: 'flat',
  layers: outlines.map(
    (ring, i): Layer => ({ number: i + 1, bottomMm: i * thicknessMm, thicknessMm, regions: [[ring]] }),
  ),
});
