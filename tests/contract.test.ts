/** The same laws for every built-in plugin: what code-style calls the contract. Third parties may hold theirs to it. */
import { readFileSync } from 'node:fs';
import { encode } from 'fast-png';
import { describe, expect, test } from 'vitest';
import { planJson } from '../src/document/plan-json.ts';
import type { Finding } from '../src/findings.ts';
import { stream } from '../src/geometry/random.ts';
import { builtin, makeKit, run, type Step } from '../src/index.ts';
import type { Context, Walk } from '../src/plugin.ts';
import { READS, type StageName } from '../src/stages.ts';
import { walkNow } from '../src/walk.ts';
import { inlineJob, type LoadedJob } from './help/jobs.ts';

const GRID = `ncols 6\nnrows 5\nxllcorner 0\nyllcorner 0\ncellsize 90\nNODATA_value -9
9 41 60 52 20 10
12 80 133 90 44 12
15 96 171 120 63 -9
11 70 118 85 40 8
5 22 37 30 12 3\n`;
const BOARDS =
  '{ boards: [ { name: thin, size: [410, 330], thickness: 25, trim: 3 } ] }, nest: { boards: { effort: 3000 } }';
const bytes = (text: string) => new TextEncoder().encode(text);

/** An open tetrahedron is no solid: a lopsided wedge with five faces, as an OBJ. */
const WEDGE = `v 0 0 0\nv 310 0 0\nv 310 230 0\nv 0 230 0\nv 20 110 140\nv 200 110 170
f 4 3 2 1\nf 1 2 6 5\nf 3 4 5 6\nf 2 3 6\nf 4 1 5\n`;

const PLAN = `<svg xmlns="http://www.w3.org/2000/svg" width="310mm" height="240mm" viewBox="0 0 310 240">
<path id="footprint" d="M5 9H300V200Q290 233 250 233H5z"/><path id="h15" d="M0 200C90 160 200 240 310 190"/>
<ellipse stroke="#aa0033" cx="140" cy="90" rx="80" ry="50"/><path id="brow" d="M90 80L190 100" stroke="red"/>
<circle cx="150" cy="92" r="2"/><text x="153" y="92">48</text></svg>`;

const jobs: LoadedJob[] = [
  inlineJob(
    `{ name: grid, source: { height-grid: { file: g.asc } }, stock: ${BOARDS}, cover: { material: sand, depth: 4 },
       shape: [ { fit: { scale: 1, vertical: 1 } }, { crop: { rectangle: [[20, 15], [401, 322]] } }, { smooth: { reach: 60 } }, { steepest: { slope: 1 in 3 } },
                { base: { lift: 6 } }, cover ], split: solid }`,
    { 'g.asc': bytes(GRID) },
  ),
  inlineJob(
    `{ name: sketch, source: { sketch: { size: [700, 500], spacing: 10, features: [ { mound: { at: [300, 210], radius: 260, height: 140 } } ] } },
       stock: ${BOARDS}, split: { hollow: { lap: 30 } },
       documents: [ board-svg, pages-pdf, cut-list, offcuts, report, cut-list-pdf, measure-off-pdf, assembly-pdf, labels-pdf, trace-up ] }`,
  ),
  inlineJob(
    `{ name: image, source: { height-image: { file: i.png, low: 12, high: 90, size: [390, 260] } }, stock: ${BOARDS}, documents: [] }`,
    {
      'i.png': encode({ width: 3, height: 2, depth: 8, channels: 1, data: new Uint8Array([0, 90, 255, 30, 160, 70]) }),
    },
  ),
  inlineJob(
    `{ name: joined, source: { sketch: { size: [400, 300], spacing: 20, level: 40 } }, split: solid, documents: [ piece-svg: { scale: 2 }, roll-pdf: { width: 610 }, grid-pdf, throw-page ],
       stock: { boards: [ { name: wide, size: [640, 480], thickness: 40 } ] }, nest: { boards: { effort: 3000 } },
       shape: [ { join: { with: { height-grid: { file: g.asc, unit: mm } }, at: [120, -40], take: blend, width: 60 } },
                { terrace: { step: 40, ramp: 0.2 } }, { flatten: { outline: [[50, 60], [170, 90], [90, 200]], level: 55, ramp: 40 } },
                { mirror: { sides: west-east } }, { turn: { by: 90 } } ] }`,
    { 'g.asc': bytes(GRID) },
  ),
  inlineJob(
    `{ name: tiff, source: { geotiff: { file: t.tif, noData: fill } }, shape: [ { fit: { width: 300, height: 110 } } ], stock: ${BOARDS}, split: solid, documents: [] }`,
    { 't.tif': new Uint8Array(readFileSync(new URL('data/geotiff/int16-holes.tif', import.meta.url))) },
  ),
  inlineJob(`{ name: spots, source: { spot-heights: { file: s.csv, spacing: 21 } }, stock: ${BOARDS} }`, {
    's.csv': bytes('x,y,z\n0,10,32\n310,0,50\n330,260,29\n20,240,35\n150,130,96\n210,90,81\n'),
  }),
  inlineJob(
    `{ name: best, source: { sketch: { size: [700, 500], spacing: 10, features: [ { mound: { at: [300, 210], radius: 260, height: 140 } } ] } },
       stock: { boards: [ { name: thin, size: [410, 330], thickness: 20, measured: 19.3, price: 2 }, { name: thick, size: [410, 330], thickness: 40, price: 4.1 } ] },
       slice: { layers: { thickness: best, thin: drop, least: 60 } }, split: solid, nest: { boards: { effort: 3000 } }, documents: [] }`,
  ),
  inlineJob(
    `{ name: drawn, source: { contour-drawing: { file: p.svg, legend: { brow: ridge, '#a03': 35 }, spacing: 9 } }, stock: ${BOARDS}, split: solid, documents: [] }`,
    { 'p.svg': bytes(PLAN) },
  ),
  inlineJob(
    `{ name: rings, source: { sketch: { size: [700, 500], spacing: 10, features: [ { mound: { at: [330, 250], radius: 240, height: 160 } } ] } },
       stock: { boards: [ { name: thin, size: [410, 330], thickness: 25, trim: 3 } ] }, nest: { boards: { effort: 1000 } }, split: { rings: { lap: 12, steep: keep } }, documents: [ board-svg ] }`,
  ),
  inlineJob(
    `{ name: rock, source: { mesh: { file: w.obj, unit: mm } }, shape: [ { rock: { coat: 3, allowance: 15 } } ], slice: rock, split: { rock: { push: 20 } },
       stock: ${BOARDS}, documents: [] }`,
    { 'w.obj': bytes(WEDGE) },
  ),
  inlineJob(
    `{ name: ribs, source: { sketch: { size: [900, 700], spacing: 30, level: 60, features: [ { mound: { at: [400, 310], radius: 360, height: 70 } } ] } },
       slice: { ribs: { spacing: 190, covering: { material: card, thickness: 2 } } }, split: { ribs: { lap: 45 } }, stock: ${BOARDS}, documents: [ report, board-svg, assembly-pdf, labels-pdf, trace-up ] }`,
  ),
  inlineJob(
    `{ name: work, source: { sketch: { size: [700, 500], spacing: 20, features: [ { mound: { at: [300, 210], radius: 260, height: 140 } } ] } },
       stock: { boards: [ { name: EPS, size: [410, 330], thickness: 40, price: 3, trim: 3 } ] }, nest: { boards: { effort: 1000 } }, cover: { material: sand, depth: 4 },
       ready: { date: 2027-06-11, today: 2027-04-12 }, crew: { people: 3 }, tool: { supply: { volts: 48, amps: 5, current: DC } },
       documents: [ clock, buying-list, block-sheet, wire-sheet, cutting-plan, carry-and-van, floor-sheet, risk-sheet, strike-list ] }`,
  ),
  inlineJob(
    `{ name: wedge, source: { mesh: { file: w.obj } }, slice: { layers: { cut: sloped } }, stock: ${BOARDS} }`,
    { 'w.obj': bytes(WEDGE) },
  ),
];

interface Seen {
  readonly step: Step;
  readonly input: unknown;
  readonly context: Pick<Context, 'facts' | 'others'>;
}

/** What each step of a job was given, caught on its way. */
async function seenIn({ job, files }: LoadedJob): Promise<Seen[]> {
  const seen: Seen[] = [];
  const watched = <S extends StageName>(step: Step<S>): Step<S> => ({
    ...step,
    plugin: {
      ...step.plugin,
      run: (input: unknown, options: unknown, context: Context) => {
        seen.push({ step, input, context });
        return step.plugin.run(input, options, context);
      },
    },
  });
  const { plan } = await run(
    {
      ...job,
      source: watched(job.source),
      shape: job.shape.map(watched),
      slice: watched(job.slice),
      split: job.split.map(watched),
      nest: watched(job.nest),
      documents: job.documents.map(watched),
    },
    files,
  );
  // Written by the driver itself, whatever the job asks for.
  const plain = { stage: 'document', plugin: planJson, options: {}, path: 'documents' } as const;
  return [...seen, { step: plain, input: plan, context: { facts: {} as Context['facts'], others: {} } }];
}

const seen = (await Promise.all(jobs.map(seenIn))).flat();

function context({ step: { stage }, context: { facts, others } }: Seen, findings: Finding[] = []) {
  return {
    facts,
    others,
    tell: (finding: Finding) => void findings.push(finding),
    random: stream(7, stage, 0),
  };
}

const runOnce = async (each: Seen, findings: Finding[] = []) => {
  const { step, input } = each;
  const work = await step.plugin.run(input, step.options, context(each, findings));
  return walkNow(work, step.plugin.tasks);
};

test('every built-in plugin is met here', () => {
  const met = new Set(seen.map(({ step }) => `${step.stage}/${step.plugin.name}`));
  const all = builtin.plugins.map(({ stage, name }) => `${stage}/${name}`);
  expect(all.filter((name) => !met.has(name))).toEqual([]);
});

describe.each(seen.map((each) => [`${each.step.stage}/${each.step.plugin.name}`, each] as const))('%s', (_, each) => {
  test('leaves its input alone, and twice the same gives the same', async () => {
    const before = structuredClone(each.input);
    const first = await runOnce(each);
    expect(each.input).toEqual(before);
    expect(await runOnce(each)).toEqual(first);
  });

  test('what it makes survives being copied to a worker', async () => {
    const made = await runOnce(each);
    expect(structuredClone(made)).toEqual(made);
  });

  test('its progress only grows, within 0 and 1, and "enough" ends it with a value', async () => {
    const work = await each.step.plugin.run(each.input, each.step.options, context(each));
    if (typeof work !== 'object' || work === null || typeof (work as Walk<unknown>).next !== 'function') return;
    let last = 0;
    let results: unknown[] = [];
    const walking = work as Walk<unknown>;
    for (let step = walking.next({ say: 'go', results }); !step.done; step = walking.next({ say: 'enough', results })) {
      results = [];
      if (typeof step.value === 'number') {
        expect(step.value).toBeGreaterThanOrEqual(last);
        expect(step.value).toBeLessThanOrEqual(1);
        last = step.value;
      } else {
        for (const { task, input } of step.value.lanes) results.push(walkNow(each.step.plugin.tasks?.[task]?.(input)));
      }
    }
  });

  test('what it tells has a code of its stage, a place in words and a way out', async () => {
    const findings: Finding[] = [];
    await runOnce(each, findings);
    for (const { code, message, fix } of findings) {
      expect(code).toMatch(new RegExp(`^${each.step.stage}/[a-z][a-z-]*$`));
      expect(message.length).toBeGreaterThan(10);
      expect(fix.length).toBeGreaterThan(5);
    }
  });

  test('its options pass their own checks when read back', () => {
    const { plugin, options } = each.step;
    expect(plugin.options(makeKit('mm')).parse(options)).toEqual(options);
    expect(plugin.summary.length).toBeLessThan(100);
    expect(Object.keys(READS)).toContain(plugin.stage);
  });
});
