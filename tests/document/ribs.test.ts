/** What people and programs get of a plan of ribs. */
import { Ajv2020 } from 'ajv/dist/2020.js';
import { beforeAll, describe, expect, test } from 'vitest';
import { planFileSchema, planSchema } from '../../src/model/files.ts';
import { groundOf } from '../../src/model/ground.ts';
import { type Made, run } from '../../src/run.ts';
import { inlineJob } from '../help/jobs.ts';
import { readReport } from '../help/read-report.ts';
import { foamOver } from '../help/rib-laws.ts';

const JOB = `{ name: Heather bank, source: { sketch: { size: [1900, 1300], spacing: 50, level: 70,
    features: [ { mound: { at: [800, 700], radius: 700, height: 90 } } ] } },
  zones: [ { kind: people, name: singer, outline: [[1200, 200], [1500, 200], [1500, 500], [1200, 500]], level: 200 } ],
  stock: { boards: [ { name: EPS 100, size: [1000, 500], thickness: 30, measured: 29.4, density: 20, price: 6 } ] },
  slice: { ribs: { spacing: [300, 350], covering: { material: 3 mm plywood, thickness: 3, size: [1220, 810] } } }, split: ribs,
  nest: { boards: { effort: 3000 } }, front: { side: north, word: STALLS }, documents: [ report, cut-list, board-svg ] }`;

let made: Made;
const body = (path: string) => made.files.find((file) => file.path === path)?.body as string;
beforeAll(async () => {
  const { job, files } = inlineJob(JOB);
  made = await run(job, files);
});

describe('a plan of ribs', () => {
  test('stops for nothing', () => {
    expect(made.plan.findings.filter(({ level }) => level === 'stop')).toEqual([]);
    expect(made.plan.deviation).toBeNull();
  });

  test('is written with a frame for each rib and piece, and passes the schema that is published', () => {
    const file = planFileSchema.parse(JSON.parse(body('plan.json')));
    const passes = new Ajv2020({ allErrors: true }).compile(planSchema() as object);
    passes(JSON.parse(body('plan.json')));
    expect(passes.errors ?? []).toEqual([]);
    expect(file.layers.length).toBe(made.plan.stack.layers.length);
    for (const { rib } of file.layers) expect(rib?.gridLine).toMatch(/^line \d from the (south|west)$/);
    // By the file alone: pieces of two ribs, put where their frames say, meet where the plan says that they cross.
    let met = 0;
    for (const { number, rib } of file.layers) {
      for (const { layer, atMm, meetMm } of rib?.crossings ?? []) {
        const [own, other] = [number, layer].map((each) => file.pieces.filter((piece) => piece.layer === each));
        const { originMm, along } = own[0].frame ?? { originMm: [0, 0, 0], along: [0, 0] };
        const [x, y] = [originMm[0] + atMm * along[0], originMm[1] + atMm * along[1]];
        const across = other[0].frame ?? { originMm: [0, 0, 0], along: [0, 0] };
        const v = (x - across.originMm[0]) * across.along[0] + (y - across.originMm[1]) * across.along[1];
        const ringsOf = (pieces: typeof own) => pieces.map(({ rings }) => rings.map((ring) => Float64Array.from(ring)));
        const ends = [...foamOver(ringsOf(own), atMm), ...foamOver(ringsOf(other), v)].sort((a, b) => a - b);
        expect(ends.length).toBe(4);
        for (const end of ends.slice(1, 3)) expect(Math.abs(end - meetMm)).toBeLessThan(0.1);
        met++;
      }
    }
    expect(met).toBeGreaterThan(20);
  });

  test('counts the covering: the sloping ground and its sides', () => {
    const { coveringM2 } = made.plan.quantities;
    const sides = made.plan.stack.covering?.sidesMm2 ?? 0;
    expect(coveringM2).toBeCloseTo((groundOf(made.plan.landform).surfaceAreaMm2 + sides) / 1e6, 9);
    expect(coveringM2).toBeGreaterThan(1.9 * 1.3);
  });

  test('counts the boards of the covering with each joint on a rib', () => {
    const { count } = made.plan.stack.covering?.boards ?? { count: 0 };
    const lines = made.plan.stack.layers.map(({ rib }) => rib?.frame.originMm ?? [0, 0, 0]);
    const across = [0, ...new Set(lines.map(([x]) => x).filter((x) => x > 0)), 1900];
    const up = [0, ...new Set(lines.map(([, y]) => y).filter((y) => y > 0)), 1300];
    const reach = (places: number[], long: number) => {
      let [count, at] = [0, 0];
      while (at < places[places.length - 1]) {
        at = Math.max(...places.filter((place) => place <= at + long));
        count++;
      }
      return count;
    };
    const { surfaceAreaMm2, planAreaMm2 } = groundOf(made.plan.landform);
    const [a, b] = [1220, 810].map((side) => (side * planAreaMm2) / surfaceAreaMm2);
    expect(count).toBe(Math.min(reach(across, a) * reach(up, b), reach(across, b) * reach(up, a)));
    expect(count).toBeGreaterThanOrEqual(Math.ceil(surfaceAreaMm2 / (1220 * 810)));
    expect(readReport(body('report.html')).text).toContain('1220 × 810 × 3 mm, each joint on a rib');
  });

  test('has two pins in each lap that is high enough, through both of its tongues, deep under the covering', () => {
    const { pins, pieces, stack, quantities } = made.plan;
    const lines = new Map(
      pieces.flatMap(({ layer, joints }) => joints.map(({ label, line }) => [label, { layer, line }])),
    );
    const high = [...lines.values()].filter(
      ({ line }) => Math.min(...line.filter((_, i) => i % 2 === 1 && line[i] > 0)) > 42,
    );
    expect(high.length).toBeGreaterThan(5);
    expect(pins.length).toBeGreaterThanOrEqual(2 * high.length);
    expect(pins.length).toBeLessThanOrEqual(2 * lines.size);
    expect(quantities.pins).toBe(pins.length);
    for (const { at, fromLayer, toLayer, bottomMm, lengthMm, isPulled } of pins) {
      expect([toLayer, isPulled]).toEqual([fromLayer, false]);
      const { frame } = stack.layers[toLayer - 1].rib ?? { frame: { originMm: [0, 0, 0], along: [0, 0] } };
      const u = (at[0] - frame.originMm[0]) * frame.along[0] + (at[1] - frame.originMm[1]) * frame.along[1];
      const foam = pieces.filter(({ layer }) => layer === toLayer).map(({ region }) => foamOver([region], u));
      // One tongue over the other: the pin has its bite in both.
      const [lower, upper] = foam.filter(({ length }) => length === 2).sort((one, other) => one[0] - other[0]);
      expect(Math.abs(lower[1] - upper[0])).toBeLessThan(1e-6);
      expect(bottomMm).toBeGreaterThanOrEqual(lower[0] + 10);
      expect(bottomMm).toBeLessThanOrEqual(lower[1] - 15);
      expect(bottomMm + lengthMm).toBeGreaterThanOrEqual(upper[0] + 15);
      expect(bottomMm + lengthMm).toBeCloseTo(upper[1] - 20, 6);
    }
  });

  test('has a report that shows the grid, each rib with its pieces and the ribs that pass, and whose deck it is', () => {
    const read = readReport(body('report.html'));
    const { layers } = made.plan.stack;
    const [grid] = read.figures.filter(({ title }) => title === 'The ribs of Heather bank from above');
    const wanted = layers.flatMap(({ number }) => [`${number}`, `${number}`]);
    expect(grid.texts.map(({ text }) => text).sort()).toEqual([...wanted, 'DECK BY OTHERS'].sort());
    for (const { number, rib } of layers) {
      const [figure] = read.figures.filter(({ title }) => title === `Rib ${number}, ${rib?.gridLine}`);
      const own = made.plan.pieces.filter(({ layer }) => layer === number);
      const joints = new Set(own.flatMap((piece) => piece.joints.map(({ label }) => label)));
      const passing = rib?.crossings.map(({ layer }) => `${layer}`) ?? [];
      expect(figure.texts.map(({ text }) => text).sort()).toEqual(
        [...own.map(({ name }) => name), ...joints, ...passing].sort(),
      );
      expect(figure.paths.filter(({ look }) => look === 'piece').length).toBe(own.length);
    }
    expect(read.text).toContain(`${layers.length} ribs, ${made.plan.pieces.length} pieces`);
    expect(read.text).toContain('3 mm plywood');
    expect(read.text).toContain('for laps and waste (assumed)');
    expect(read.text).toContain('Foam carries shape, not people.');
    expect(read.text).not.toContain('Layer 1 of');
  });

  test('letters each piece on its board with its line, the edge that is up, the front and the rib of each slot', () => {
    const boards = made.files.filter(({ path }) => path.startsWith('board-')).map((file) => file.body as string);
    const all = boards.join('\n');
    const crowded = made.plan.findings.filter(({ code }) => code === 'document/crowded');
    expect(crowded).toEqual([]);
    for (const { layer } of made.plan.pieces) {
      const { rib } = made.plan.stack.layers[layer - 1];
      expect(all).toContain(`rib ${layer}, ${rib?.gridLine}, `);
      for (const crossing of rib?.crossings ?? []) expect(all).toContain(`>rib ${crossing.layer}<`);
    }
    expect(all).toContain('>UP<');
    expect(all).toContain('this face away from STALLS');
    expect(all).toContain('STALLS to the right');
  });
});

test('ribs without their splitter are refused with the way to it', async () => {
  const { job, files } = inlineJob(JOB.replace('split: ribs', 'split: solid'));
  await expect(run(job, files)).rejects.toMatchObject({
    faults: [{ code: 'split/upright', where: { path: 'split' }, fix: expect.stringContaining('split: ribs') }],
  });
});
