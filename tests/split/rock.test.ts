/** A rock from its job to pieces: laws of what is marked, and every refusal. */
import { beforeAll, describe, expect, test } from 'vitest';
import { CannotMake } from '../../src/findings.ts';
import { distanceToRings, isInside, ringsOf } from '../../src/geometry/ring.ts';
import { run } from '../../src/index.ts';
import type { Plan } from '../../src/model/plan.ts';
import { inlineJob } from '../help/jobs.ts';
import { binaryStl } from '../help/solid-files.ts';
import { mapped, turned } from '../help/solids.ts';

/** A leaning boulder, 37 sides, 420 high, wider east to west. */
const BOULDER = binaryStl(
  mapped(
    turned(
      [
        [0, 0],
        [150, 0],
        [230, 120],
        [190, 300],
        [60, 410],
        [0, 420],
      ],
      37,
      260,
      260,
    ),
    (x, y, z) => [1.3 * x + 0.12 * z, y, z],
  ),
);

const job = (shape: string, split = 'rock', more = '', slice = 'rock', source = 'mesh: { file: b.stl, unit: mm }') =>
  inlineJob(
    `{ name: boulder, source: { ${source} }, shape: [ ${shape} ], slice: ${slice}, split: ${split}, documents: [],
       stock: { boards: [ { name: blue, size: [900, 500], thickness: 50, density: 33, trim: 4 } ] }, nest: { boards: { effort: 2000 } } ${more} }`,
    source.startsWith('mesh') ? { 'b.stl': BOULDER } : {},
  );

const made = async (...of: Parameters<typeof job>): Promise<Plan> => {
  const { job: read, files } = job(...of);
  return (await run(read, files)).plan;
};

const refused = async (...of: Parameters<typeof job>): Promise<string> => {
  try {
    await made(...of);
  } catch (error) {
    if (error instanceof CannotMake) return `${error.faults[0].code} ${error.faults[0].where?.path}`;
    throw error;
  }
  throw new Error('not refused');
};

describe('a rock', () => {
  let plan: Plan;
  beforeAll(async () => {
    plan = await made('rock: { coat: 4, allowance: 18 }');
  });

  test('carving depths reach at least the allowance, at both faces, and are measured to the carved line', () => {
    expect(plan.pieces.length).toBeGreaterThan(4);
    for (const { name, layer, carved } of plan.pieces) {
      const finish = plan.stack.layers[layer - 1].finish;
      if (!carved || !finish) throw new Error(name);
      expect(carved.stations.length).toBeGreaterThan(0);
      for (const { at, topMm, undersideMm } of carved.stations) {
        for (const [deep, face] of [
          [topMm, finish.top],
          [undersideMm, finish.underside],
        ] as const) {
          expect(deep === null).toBe(face.length === 0);
          if (deep === null) continue;
          expect(deep).toBeGreaterThan(18 * 0.97 - 0.2);
          expect(deep).toBeCloseTo(distanceToRings(at[0], at[1], ringsOf(face)), 6);
        }
      }
    }
  });

  test('glue lies within the carved line by at least 15 mm, under foam of the next layer', () => {
    const glued = plan.pieces.filter(({ glue }) => (glue ?? []).length > 0);
    expect(glued.length).toBeGreaterThan(3);
    for (const { layer, glue = [] } of glued) {
      const { finish } = plan.stack.layers[layer - 1];
      const above = plan.stack.layers[layer].regions;
      for (const ring of ringsOf(glue)) {
        for (let i = 0; i < ring.length; i += 2) {
          expect(isInside(ring[i], ring[i + 1], finish?.top ?? [])).toBe(true);
          expect(distanceToRings(ring[i], ring[i + 1], ringsOf(finish?.top ?? []))).toBeGreaterThan(14.9);
          const isOver =
            isInside(ring[i], ring[i + 1], above) || distanceToRings(ring[i], ring[i + 1], ringsOf(above)) < 0.01;
          expect(isOver).toBe(true);
        }
      }
    }
  });

  test('is solid unless asked, save for its ballast; says how it stands, and for whom it is not', async () => {
    const unpushed = await made('rock: { coat: 4 }', '{ rock: { push: 0 } }');
    expect(unpushed.pieces.every(({ region }) => region.length === 1)).toBe(true);
    const hollow = await made('rock: { coat: 4, bed: bottom }', '{ rock: { push: 0, wall: 50 } }');
    expect(hollow.pieces.some(({ region }) => region.length > 1) || hollow.pieces.length > unpushed.pieces.length).toBe(
      true,
    );
    const stands = plan.findings.find(({ code }) => code === 'split/rock-stands');
    expect(stands?.message).toContain('not for climbing');
    const tips = plan.findings.find(({ code }) => code === 'split/rock-tips');
    expect(tips?.message).toMatch(/dry sand|ballast/);
  });

  test('a hard push that no pocket makes up for is watched', async () => {
    const pushed = await made('rock: { coat: 4 }', '{ rock: { push: 2000 } }');
    expect(pushed.findings.find(({ code }) => code === 'split/rock-tips')?.level).toBe('watch');
  });

  test('allowances and burials out of the usual are told', async () => {
    const odd = await made('rock: { coat: 30, allowance: 5, buried: 0 }');
    const codes = odd.findings.map(({ code }) => code);
    expect(codes).toContain('shape/rock-allowance');
    expect(codes).toContain('shape/rock-buried');
  });
});

describe('refusals', () => {
  const SKETCH =
    'sketch: { size: [600, 400], spacing: 20, features: [ { mound: { at: [300, 200], radius: 190, height: 120 } } ] }';

  test('of grounds that are no rock, with the way out', async () => {
    expect(await refused('rock', 'rock', '', 'rock', SKETCH)).toBe('shape/rock-heights shape.rock');
    expect(await refused('', 'rock', '', 'rock')).toBe('slice/no-rock slice.rock');
    expect(await refused('rock', 'rock', '', 'layers')).toBe('split/no-rock split');
    // Turned after it was laid, nobody knows where its seat is.
    expect(await refused('rock, { turn: { by: 90 } }', 'rock')).toBe('slice/no-rock slice.rock');
    expect(await refused('{ crop: { rectangle: [[50, 50], [400, 400]] } }, rock')).toBe('shape/cropped shape.rock');
  });

  test('of coats thicker than the rock, and of too many layers', async () => {
    expect(await refused('rock: { coat: 300 }')).toBe('slice/all-coat shape.rock.coat');
    expect(await refused('rock', 'rock', '', '{ rock: { thickness: 41 } }')).toMatch(/thickness/);
  });
});
