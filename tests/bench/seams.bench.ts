/**
 * Seams: 200 layers of a landform of 10 m × 10 m, divided for boards of 2400 × 1200, solid and hollow, beside a plain grid of
 * boards laid on the same foam. A full
 * 10 m square cannot come under 0.83 of its grid: no part of a board has more area for its outline than the board's Cheeger
 * constant allows, 1 m² for 2.39 m (Kawohl, Lachand-Robert 2006, from memory), so its seams are (239 m − 40 m) / 2 at least
 * against 120 m. Read the ratios; what is counted is printed once, the same in every run.
 */
import { bench, describe } from 'vitest';
import { linesInside } from '../../src/geometry/clip.ts';
import { length } from '../../src/geometry/exact-math.ts';
import { stream } from '../../src/geometry/random.ts';
import { boxOf, type Region, ringsOf } from '../../src/geometry/ring.ts';
import { makeKit } from '../../src/job/kit.ts';
import type { LayerStack } from '../../src/model/layer.ts';
import { seamSegments } from '../../src/model/seam.ts';
import { layers } from '../../src/slice/layers.ts';
import { walkNow } from '../../src/walk.ts';
import { boardFacts } from '../help/board-facts.ts';
import { sketched } from '../help/sketched.ts';
import { type Split, split } from '../help/split-run.ts';
import { splitFacts } from '../help/stacks.ts';

const THICKNESS = 20;
const LONG = 2389.5;
const SHORT = 1189.5;

const { field } = sketched({
  size: [10000, 10000],
  spacing: 50,
  features: [
    { mound: { at: [4300, 4700], radius: 4200, height: 3890 } },
    { mound: { at: [7600, 7300], radius: 2300, height: 1460 } },
    { ripples: { height: 117, length: 2100 } },
  ],
});
const facts = splitFacts({
  boardSizes: [{ sizeMm: [2400, 1200], thicknessMm: THICKNESS, densityKgM3: 15, trimMm: 5 }],
});
const context = {
  facts: { ...facts, ...boardFacts([THICKNESS]) },
  tell: () => {},
  random: stream(1, 'slice', 0),
};
const sliced = layers.run(field, layers.options(makeKit('mm')).parse({}), context);
const stack = walkNow(sliced as Exclude<typeof sliced, Promise<unknown>>) as LayerStack;

/** Lines of a plain grid from the south-west corner of a layer's box, as far as they run through foam: total and longest way. */
function gridLengthMm(foam: readonly Region[]): number {
  const [minX, minY, maxX, maxY] = boxOf(ringsOf(foam));
  const lines: Float64Array[] = [];
  for (let x = minX + LONG; x < maxX; x += LONG) lines.push(Float64Array.of(x, minY - 1, x, maxY + 1));
  for (let y = minY + SHORT; y < maxY; y += SHORT) lines.push(Float64Array.of(minX - 1, y, maxX + 1, y));
  return lengthMm(linesInside(lines, foam).flatMap((line) => Array.from(line)));
}

function lengthMm(segments: readonly number[]): number {
  let sum = 0;
  for (let i = 0; i < segments.length; i += 4) {
    sum += length(segments[i + 2] - segments[i], segments[i + 3] - segments[i + 1]);
  }
  return sum;
}

function tellOf(name: string, made: Split): void {
  let [ours, grid, seams] = [0, 0, 0];
  for (const layer of stack.layers) {
    const here = seamSegments(made.of(layer.number));
    ours += lengthMm(here);
    seams += here.length / 4;
    grid += gridLengthMm(made.of(layer.number).map(({ region }) => region));
  }
  const metres = (mm: number) => `${(mm / 1000).toFixed(0)} m`;
  console.log(
    `${name}: ${stack.layers.length} layers, ${made.pieces.length} pieces, ${seams} seams of ${metres(ours)}; a plain grid ${metres(grid)}: ${(ours / grid).toFixed(2)} of it`,
  );
}

describe('200 layers of 10 m × 10 m into pieces', () => {
  for (const name of ['solid', 'hollow'] as const) {
    let made: Split | undefined;
    bench(
      name,
      () => {
        made = split(name, stack, { facts });
      },
      {
        iterations: 1,
        warmupIterations: 0,
        time: 0,
        warmupTime: 0,
        teardown: () => made && tellOf(name, made),
      },
    );
  }
});
