import { expect, test } from 'vitest';
import type { Solid } from '../../src/model/landform.ts';
import { solidOutlines } from '../../src/slice/layers/solid.ts';
import { mapped, prism, together, turned } from '../help/solids.ts';

const LAYERS = 30;
const LEVELS = Array.from({ length: LAYERS + 1 }, (_, k) => 6 * k);

/** A lumpy tyre of a body with undersides in every layer. */
const LUMPS = mapped(
  turned(
    Array.from({ length: 61 }, (_, k) => [90 + 25 * Math.sin(k / 2.3), 3 * k] as const).concat([
      [30, 180],
      [40, 90],
      [30, 0],
    ]),
    48,
    160,
    150,
  ),
  (x, y, z) => [x + 4 * Math.sin(z / 9), y + 3 * Math.cos(x / 31), z],
);
const LEANING = mapped(LUMPS, (x, y, z) => [x + 70, y + 0.2 * z, z]);

test.each<[string, Solid, 'proud' | 'shy' | 'middle']>([
  ['proud', LUMPS, 'proud'],
  ['middle', LUMPS, 'middle'],
  ['shy', { ...LUMPS, isSimple: true }, 'shy'],
  ['shy of bodies that overlap', together(LUMPS, LEANING), 'shy'],
])('%s: progress grows from layer to layer, in many steps and none of them long', (_, solid, cut) => {
  const walk = solidOutlines(solid, LEVELS, cut);
  const told: number[] = [];
  for (let step = walk.next(); !step.done; step = walk.next()) told.push(step.value as number);
  expect(told.length).toBeGreaterThanOrEqual(2 * LAYERS);
  expect(told.at(-1)).toBe(1);
  const leaps = told.map((done, i) => done - (told[i - 1] ?? 0));
  expect(Math.min(...leaps)).toBeGreaterThan(0);
  expect(Math.max(...leaps)).toBeLessThan(0.05);
});

test('a layer between levels that a body does not reach is empty, whatever lies on them', () => {
  // Tops and feet on levels, several flat faces in one plane, one body standing on another with less of a foot.
  const foot = [
    [0, 0],
    [90, 10],
    [70, 80],
  ] as const;
  const stack = together(
    prism(foot, 12, 24),
    mapped(prism(foot, 24, 36), (x, y, z) => [0.5 * x + 10, 0.5 * y + 10, z]),
    mapped(prism(foot, 24, 36), (x, y, z) => [x + 200, y, z]),
  );
  for (const cut of ['proud', 'shy', 'middle'] as const) {
    const walk = solidOutlines(stack, LEVELS.slice(0, 10), cut);
    let step = walk.next();
    while (!step.done) step = walk.next();
    expect(step.value.map((regions) => regions.length)).toEqual([0, 0, 1, 1, 2, 2, 0, 0, 0]);
  }
});
