/** `best`: several ways to build are tried, each as if alone, and the cheapest that passes the checks is taken. */
import { describe, expect, test } from 'vitest';
import { type AnyPlugin, builtin, CannotMake, definePlugin, type Plan, readJob, registry, run } from '../src/index.ts';
import type { Blank } from '../src/model/piece.ts';
import { QUIET } from '../src/walk.ts';

const NO_FILES = new Map<string, Uint8Array>();
const text = (split: unknown, more: object = {}) =>
  JSON.stringify({
    name: 'ways',
    source: {
      sketch: { size: [640, 470], spacing: 20, features: [{ mound: { at: [310, 250], radius: 330, height: 90 } }] },
    },
    shape: [{ base: { lift: 40 } }],
    stock: { boards: [{ name: 'EPS', size: [500, 400], thickness: 25, price: 3.5, trim: 3 }] },
    nest: { boards: { effort: 600 } },
    documents: [],
    split,
    ...more,
  });
const planOf = async (split: unknown, plugins = builtin, more: object = {}): Promise<Plan> =>
  (await run(readJob(text(split, more), 'job.yaml', plugins), NO_FILES)).plan;
const told = ({ findings }: Plan) => findings.filter(({ code }) => code === 'split/best');

const HOLLOW = { hollow: { lap: 25, leastVoid: 60 } };

/** A way to build that cannot. */
const sunken = definePlugin({
  api: 1,
  stage: 'split',
  name: 'sunken',
  summary: 'refuses',
  options: ({ z }) => z.strictObject({}),
  run: (): readonly Blank[] => {
    throw new CannotMake([{ code: 'split/sunken', message: 'The ground is dry.', fix: 'Wait.', where: {} }]);
  },
});
const withSunken = registry([...builtin.plugins, sunken]);

describe('best', () => {
  test('takes the cheaper of two and builds it exactly as if the job had named it alone', async () => {
    const [solid, hollow, best] = await Promise.all([
      planOf('solid'),
      planOf(HOLLOW),
      planOf({ best: ['solid', HOLLOW] }),
    ]);
    expect(hollow.quantities.price).toBeLessThan(Number(solid.quantities.price));
    const { job, findings, ...rest } = best;
    const { job: alone, findings: before, ...same } = hollow;
    expect(rest).toEqual(same);
    expect(findings.filter(({ code }) => code !== 'split/best')).toEqual(before);
    expect(job).toEqual({
      ...alone,
      split: { best: [{ solid: expect.anything() }, alone.split && { hollow: expect.anything() }] },
    });
    const [finding] = told(best);
    expect(finding).toMatchObject({ level: 'note', where: { path: 'split' } });
    const cost = ({ quantities: { boardsBought, price } }: Plan) =>
      `${boardsBought} boards to buy for ${price?.toFixed(2)}`;
    expect(finding.message).toContain(`hollow is taken: ${cost(hollow)}`);
    expect(finding.message).toContain(`solid would take ${cost(solid)}`);
    expect(finding.message).toContain('dearer');
  });

  test('is written so that it reads back as the same job', () => {
    const { written } = readJob(text({ best: ['solid', HOLLOW] }), 'job.yaml', builtin);
    const again = readJob(JSON.stringify(written), 'plan.json', builtin);
    expect(again.written).toEqual(written);
    expect(again.split.map(({ plugin }) => plugin.name)).toEqual(['solid', 'hollow']);
  });

  test('alone it tries every way there is; one that refuses is told with its reason', async () => {
    const plan = await planOf('best', withSunken);
    const { message } = told(plan)[0];
    const names = withSunken.of('split').map(({ name }: AnyPlugin) => name);
    for (const name of names) expect(message).toContain(name);
    expect(message).toContain('sunken cannot be: The ground is dry.');
    expect((plan.job.split as { best: object[] }).best.map((way) => Object.keys(way)[0])).toEqual(names);
  });

  test('where every way refuses the job is refused with the faults of all', async () => {
    const stock = { boards: [{ name: 'EPS', size: [500, 400], thickness: 25, count: 1, trim: 3 }] };
    const failed = await planOf({ best: ['solid', HOLLOW, 'sunken'] }, withSunken, { stock }).catch((error) => error);
    expect(failed).toBeInstanceOf(CannotMake);
    const codes = failed.faults.map(({ code }: { code: string }) => code);
    expect(codes).toHaveLength(3);
    expect(codes[2]).toBe('split/sunken');
  });

  const nest = { boards: { effort: 32_000 } };

  test('with much effort it compares with little, and lays out in full what comes close', async () => {
    const [hollow, best] = await Promise.all([
      planOf(HOLLOW, builtin, { nest }),
      planOf({ best: ['solid', HOLLOW] }, builtin, { nest }),
    ]);
    expect(best.boards).toEqual(hollow.boards);
    expect(best.evaluations).toBe(hollow.evaluations);
    expect(told(best)[0].message).toMatch(
      /solid would take .*: dearer\. It was laid out with an effort of 30000 only\.$/,
    );
  });

  test('told "enough" from the start, as a limit of the clock does, every way is laid out alike and the cheapest is taken', async () => {
    const driver = { ...QUIET, ask: () => 'enough' as const };
    const limited = async (split: unknown) =>
      (await run(readJob(text(split, { nest }), 'job.yaml', builtin), NO_FILES, { driver })).plan;
    const [solid, hollow, best, other] = await Promise.all(
      ['solid', HOLLOW, { best: ['solid', HOLLOW] }, { best: [HOLLOW, 'solid'] }].map(limited),
    );
    expect(best.quantities.price).toBe(Math.min(Number(solid.quantities.price), Number(hollow.quantities.price)));
    expect(other.boards).toEqual(best.boards);
  });

  test('one way named alone tells of no choice', async () => expect(told(await planOf('solid'))).toEqual([]));
});
