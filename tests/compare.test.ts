/** Ways to build a job, each through the whole pipeline. */
import { beforeAll, describe, expect, test } from 'vitest';
import { builtin, type Comparison, compare, comparisonHtml, comparisonText } from '../src/index.ts';
import { inlineJob } from './help/jobs.ts';

const JOB = `{ name: knoll, source: { sketch: { size: [900, 700], spacing: 20, features: [ { mound: { at: [400, 310], radius: 380, height: 150 } } ] } },
  stock: { boards: [ { name: thin, size: [640, 480], thickness: 25, density: 20, price: 4 }, { name: thick, size: [640, 480], thickness: 40, density: 20, price: 6.5 } ],
           blocks: [ { name: billet, size: [1000, 600], height: 400, price: 30 } ] },
  slice: { layers: { thickness: 25 } }, split: { hollow: { lap: 30 } }, nest: { boards: { effort: 2000 } },
  tool: { kind: hot wire, kerf: 2 }, crew: { people: 2, rate: 12 }, seed: 3 }`;

describe('a job set beside other ways to build it', () => {
  let made: Comparison;
  /** Without the supplier: six ways, all of them shown. */
  let ours: Comparison;
  beforeAll(async () => {
    const { job, files } = inlineJob(JOB);
    const memory = new Map();
    made = await compare(job, files, builtin, { piecePrice: 2.5 }, { memory });
    ours = await compare(job, files, builtin, { piecePrice: null }, { memory });
  });

  test('at most six, the job as it stands among them; the rest is named with its reason', () => {
    expect(made.rows.length).toBeGreaterThan(3);
    expect(made.rows.length).toBeLessThanOrEqual(6);
    expect(made.rows.filter(({ isNow }) => isNow).map(({ name }) => name)).toEqual(['hollow']);
    const all = [...made.rows, ...made.dropped].map(({ name }) => name);
    for (const name of ['solid', 'rings', 'ribs', 'boards of 40 mm', 'own block, billet', "a supplier's cut boards"])
      expect(all).toContain(name);
    expect(new Set(all).size).toBe(all.length);
    for (const { why } of made.dropped) expect(why.length).toBeGreaterThan(10);
  });

  test('what is not worked out is said so, and is never 0', () => {
    const text = comparisonText(made).join('\n');
    expect(text).toContain('not worked out');
    for (const { figures } of made.rows) expect(figures.floatDays).toBeNull();
    expect(text).not.toMatch(/NaN|undefined|null|Infinity/);
  });

  test('ends with what it does not tell, on the screen as on the page', () => {
    const last = comparisonText(made).at(-1) ?? '';
    expect(last).toContain('ask the venue, the fire authority and a competent person');
    expect(comparisonHtml(made)).toContain(last);
  });

  test('blocks are bought whole; a supplier is paid by the piece and leaves no wire work', () => {
    const row = ({ rows }: Comparison, name: string) => rows.find((each) => each.name === name)?.figures;
    expect(row(ours, 'own block, billet')?.wireM).toBeGreaterThan(row(ours, 'hollow')?.wireM ?? Infinity);
    const cut = row(made, "a supplier's cut boards");
    expect(cut?.wireM).toBe(0);
    expect(cut?.hours.cut).toEqual({ least: 0, most: 0 });
  });

  test('the page holds every way, escaped', () => {
    const html = comparisonHtml({ ...made, name: 'a <b> & c' });
    expect(html).toContain('a &lt;b&gt; &amp; c');
    for (const { name } of made.rows) expect(html).toContain(name.replace("'", '&#39;').slice(0, 8));
  });
});
