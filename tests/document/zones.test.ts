/** Decks by others and other zones on the drawings of the report, and the warning on thin shells. */
import { beforeAll, describe, expect, test } from 'vitest';
import { intersect } from '../../src/geometry/clip.ts';
import { areaOf, ringArea } from '../../src/geometry/ring.ts';
import { type OutputFile, type Plan, run } from '../../src/index.ts';
import { inlineJob } from '../help/jobs.ts';
import { readReport } from '../help/read-report.ts';

const JOB = `{ name: deck, source: { sketch: { size: [900, 640], spacing: 20, level: 30, features: [ { mound: { at: [430, 320], radii: [420, 260], height: 120 } } ] } },
  stock: { boards: [ { name: EPS, size: [960, 700], thickness: 25 } ] }, split: { hollow: { lap: 30, leastVoid: 70, underFlats: hollow } },
  zones: [ { kind: people, level: 70, outline: [[470, 250], [700, 250], [700, 400], [470, 410]] },
           { kind: lean, name: tree, outline: [[200, 250], [330, 240], [320, 390]] } ],
  nest: { boards: { effort: 500 } }, documents: [report, board-svg] }`;
let made: { plan: Plan; files: readonly OutputFile[] };
beforeAll(async () => {
  const { job, files } = inlineJob(JOB);
  made = await run(job, files);
});

const figures = () => {
  const html = String(made.files.find(({ path }) => path === 'report.html')?.body);
  return [...html.matchAll(/<svg[\s\S]*?<\/svg>/g)].map(([svg]) => svg);
};

test('what of a piece lies in a zone is drawn on its board, by area as much as the zone covers foam', () => {
  const { figures: read } = readReport(String(made.files.find(({ path }) => path === 'report.html')?.body));
  const boards = read.filter(({ title }) => title.startsWith('Board '));
  const drawn = boards.flatMap(({ paths }) => paths.filter(({ look }) => look === 'zone'));
  const area = drawn.reduce(
    (sum, { rings }) => sum + Math.abs(rings.reduce((all, ring) => all + ringArea(ring), 0)),
    0,
  );
  const lean = [[Float64Array.of(200, 250, 330, 240, 320, 390)]];
  const foam = made.plan.pieces.reduce((sum, { region }) => sum + areaOf(intersect([region], lean)), 0);
  expect(foam).toBeGreaterThan(1000);
  expect(area / foam).toBeCloseTo(1, 2);
  // The deck's outline is an edge of the foam there.
  expect(boards.flatMap(({ paths }) => paths.filter(({ look }) => look === 'deck'))).toEqual([]);
});

test('a thin shell says DO NOT STEP on its board, and nothing else does', () => {
  const boards = made.files.filter(({ path }) => path.endsWith('.svg')).map(({ body }) => String(body));
  const said = boards.reduce((sum, svg) => sum + (svg.match(/<title>DO NOT STEP<\/title>/g)?.length ?? 0), 0);
  expect(said).toBe(made.plan.pieces.filter(({ doNotStep }) => doNotStep).length);
  expect(said).toBeGreaterThan(0);
});

describe('a deck by others', () => {
  test('is drawn in every layer, and in the section that meets it', () => {
    const layers = figures().filter((svg) => /Layer \d+ in plan/.test(svg));
    expect(layers).toHaveLength(made.plan.stack.layers.length);
    for (const svg of layers) {
      expect(svg).toContain('DECK BY OTHERS');
      expect(svg).toContain('MAY BE LOADED');
      expect(svg.match(/class="deck"/g)).toHaveLength(1);
    }
    const sections = figures().filter((svg) => /Section (west|south) to/.test(svg));
    expect(sections.map((svg) => svg.includes('DECK BY OTHERS'))).toEqual([true, false]);
  });

  test('has no foam in plan.json either, which says on what nobody steps', () => {
    const { pieces, job } = JSON.parse(String(made.files.find(({ path }) => path === 'plan.json')?.body));
    expect(job.zones[0]).toMatchObject({ kind: 'people', level: 70, clearance: 25 });
    const marked = pieces.filter(({ doNotStep }: { doNotStep: boolean }) => doNotStep);
    expect(marked.length).toBeGreaterThan(0);
    expect(marked.length).toBeLessThan(pieces.length);
    expect(marked.map(({ name }: { name: string }) => name)).toEqual(
      made.plan.pieces.filter(({ doNotStep }) => doNotStep).map(({ name }) => name),
    );
  });
});
