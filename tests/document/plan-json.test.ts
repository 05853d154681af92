import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { planJson } from '../../src/document/plan-json.ts';
import { ringArea } from '../../src/geometry/ring.ts';
import { readJob } from '../../src/job.ts';
import { type PlanFile, planFileSchema, planSchema } from '../../src/model/files.ts';
import type { OutputFile, Plan } from '../../src/model/plan.ts';
import { pieceMasses } from '../../src/workshop/quantities.ts';
import { GOOD, read } from '../help/job-texts.ts';
import { smallPlan } from '../help/small-plan.ts';
import { testPlugins } from '../help/test-plugins.ts';

const made = (plan: Plan): OutputFile => (planJson.run(plan, {}, {} as never) as OutputFile[])[0];
const parsed = (plan: Plan): PlanFile => JSON.parse(made(plan).body as string);
const finding = {
  level: 'watch',
  code: 'split/narrow',
  message: 'Thin.',
  fix: 'Look.',
  where: { piece: '1D' },
} as const;
const plan = smallPlan({ job: read(GOOD).written, findings: [finding], evaluations: 4217 });

describe('plan.json', () => {
  test('passes the schema that is published', () => {
    const passes = new Ajv2020({ allErrors: true }).compile(planSchema() as object);
    passes(parsed(plan));
    expect(passes.errors ?? []).toEqual([]);
    expect(planFileSchema.safeParse(parsed(plan)).error).toBeUndefined();
    expect(passes({ ...parsed(plan), later: 1 })).toBe(true);
    expect(passes({ ...parsed(plan), lynchet: 2 })).toBe(false);
    const { bound: _, ...without } = parsed(plan);
    expect(passes(without)).toBe(false);
  });

  test('has the fields that are promised', () => {
    const file = parsed(plan);
    expect(Object.keys(file)).toEqual([
      'lynchet',
      'job',
      'layers',
      'pieces',
      'pins',
      'boards',
      'bound',
      'evaluations',
      'quantities',
      'findings',
    ]);
    expect(Object.keys(file.layers[0])).toEqual(['number', 'bottomMm', 'thicknessMm', 'regions']);
    expect(Object.keys(file.pieces[0])).toEqual([
      'name',
      'layer',
      'rings',
      'areaMm2',
      'massKg',
      'joints',
      'pins',
      'slits',
      'nicks',
      'glue',
      'doNotStep',
    ]);
    expect(Object.keys(file.boards[0])).toEqual([
      'number',
      'stock',
      'sizeMm',
      'thicknessMm',
      'trimMm',
      'placed',
      'offcuts',
    ]);
    expect(Object.keys(file.boards[0].placed[0])).toEqual(['piece', 'blank', 'turnDeg', 'mirrored', 'xMm', 'yMm']);
    expect(Object.keys(file.boards[1])).toContain('rings');
    expect(file.findings).toEqual([finding]);
  });

  test('holds the numbers of the plan to the last bit', () => {
    const file = parsed(plan);
    expect(file.layers.map(({ regions }) => regions)).toEqual(
      plan.stack.layers.map(({ regions }) => regions.map((region) => region.map((ring) => [...ring]))),
    );
    for (const [i, piece] of plan.pieces.entries()) {
      const { rings, joints, pins, slits, areaMm2 } = file.pieces[i];
      expect(rings).toEqual(piece.region.map((ring) => [...ring]));
      expect(rings.reduce((sum, ring) => sum + ringArea(new Float64Array(ring)), 0)).toBe(areaMm2);
      expect(joints.map(({ label, neighbour, line }) => [label, neighbour, line])).toEqual(
        piece.joints.map(({ label, neighbour, line }) => [label, neighbour, [...line]]),
      );
      expect(pins).toEqual(piece.pins);
      expect(slits).toEqual(piece.slits.map((slit) => [...slit]));
      expect(file.pieces[i].nicks).toEqual(piece.nicks ?? []);
      expect(file.pieces[i].glue).toEqual((piece.glue ?? []).map((region) => region.map((ring) => [...ring])));
      expect(joints.map(({ matches }) => matches)).toEqual(piece.joints.map(({ matches }) => matches));
    }
  });

  test('lists each pin once', () => {
    expect(parsed(plan).pins).toEqual(plan.pins);
  });

  test('weighs a piece by the density of its board, as the quantities do', () => {
    const heavy = smallPlan();
    const boards = heavy.boards.map((board) => (board.number === 2 ? { ...board, densityKgM3: 29 } : board));
    const masses = pieceMasses(heavy.pieces, boards);
    const file = parsed({ ...heavy, boards });
    expect(masses.size).toBe(heavy.pieces.length);
    for (const { name, massKg } of file.pieces) expect(massKg).toBe(masses.get(name));
    expect(
      parsed({ ...heavy, boards: boards.slice(0, 1) }).pieces.find(({ name }) => name === '2A')?.massKg,
    ).toBeNull();
  });

  test('its job reads back as the job', () => {
    const job = readJob(JSON.stringify(parsed(plan).job), 'plan.json', testPlugins);
    expect(job).toStrictEqual({ ...read(GOOD), unit: 'mm' });
  });

  test('has a line for each piece, and leaves the plan alone', () => {
    const own = smallPlan();
    const text = made(own).body as string;
    expect(
      text.split('\n').filter((line) => line.startsWith('{"name":"1') || line.startsWith('{"name":"2')),
    ).toHaveLength(6);
    expect(own).toEqual(smallPlan());
    expect(made(smallPlan()).body).toBe(text);
  });

  test('is not made of coordinates that are no numbers', () => {
    const broken = smallPlan();
    const pieces = broken.pieces.map((piece) => ({
      ...piece,
      region: [new Float64Array([0, 0, 5, Number.NaN, 3, 9])],
    }));
    expect(() => made({ ...broken, pieces })).toThrow('not a number');
  });
});
