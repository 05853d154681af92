/** The saving of rings is stated against the packed hollow and solid plans of the same job. */
import { expect, test } from 'vitest';
import { layout } from '../src/checks/layout.ts';
import { ringLength } from '../src/geometry/ring.ts';
import { builtin, type Plan, readJob, run } from '../src/index.ts';
import { readSvg } from './help/read-svg.ts';

const text = (split: unknown, more: object = {}) =>
  JSON.stringify({
    name: 'saving',
    source: {
      sketch: { size: [1500, 1300], spacing: 50, features: [{ mound: { at: [720, 660], radius: 590, height: 260 } }] },
    },
    stock: { boards: [{ name: 'EPS', size: [1200, 600], thickness: 25, price: 3.5, trim: 3 }] },
    nest: { boards: { effort: 500 } },
    documents: [],
    split,
    ...more,
  });
const made = (split: unknown, more: object = {}) => run(readJob(text(split, more), 'job.yaml', builtin), new Map());
const told = ({ findings }: Plan) => findings.find(({ code }) => code === 'split/saving')?.message;

const alone = await made({ rings: { lap: 30 } }, { documents: ['board-svg'] });

test('rings alone: what hollow and solid take is what they take when the job says so', async () => {
  const { plan } = alone;
  const [hollow, solid] = await Promise.all([made({ hollow: { lap: 30 } }), made('solid')]);
  const cost = ({ quantities: { boardsBought, price, pieces } }: Plan) =>
    [`${boardsBought} boards to buy for ${price?.toFixed(2)}`, `in ${pieces} pieces`] as const;
  for (const [name, other] of [
    ['hollow takes', hollow.plan],
    ['solid takes', solid.plan],
    ['in rings the job takes', plan],
  ] as const) {
    const [boards, pieces] = cost(other);
    expect(told(plan)).toContain(`${name} ${boards}`);
    expect(told(plan)).toContain(pieces);
  }
  const saved = solid.plan.quantities.boardsBought - plan.quantities.boardsBought;
  expect(saved).toBeGreaterThan(0);
  const share = Math.round((100 * saved) / solid.plan.quantities.boardsBought);
  expect(told(plan)).toContain(`rings save ${saved}, ${share} %`);
  // The comparison changes nothing of the plan itself: blanks lie as the verifier wants them.
  expect(layout(plan)).toEqual([]);
  expect(plan.boards.some(({ placed }) => new Set(placed.map(({ blank }) => blank)).size < placed.length)).toBe(true);
});

test('with much effort all three are laid out once more with little, all alike, which is told; the plan is that of the job', async () => {
  const { plan } = await made({ rings: { lap: 30 } }, { nest: { boards: { effort: 40_000 } } });
  expect(told(plan)).toMatch(
    /^Laid out for comparison with an effort of 30000, all alike, rings take \d+ boards? to buy/,
  );
  expect(told(plan)).toMatch(/hollow takes \d+ boards .*\(.*\)\. solid takes \d+ boards/);
  expect((plan.job.nest as { boards: { effort: number } }).boards.effort).toBe(40_000);
  expect(plan.quantities.boardsBought).toBeLessThanOrEqual(alone.plan.quantities.boardsBought);
});

test('other ways, and best, which tells of each way itself, state no saving of their own', async () => {
  expect(told((await made('solid')).plan)).toBeUndefined();
  const { plan } = await made({ best: ['solid', { rings: { lap: 30 } }] });
  expect(told(plan)).toBeUndefined();
  expect(plan.findings.find(({ code }) => code === 'split/best')?.message).toContain('rings is taken');
});

test('where hollow cannot be, that is told', async () => {
  const { plan } = alone;
  const count = plan.quantities.boardsBought + 1;
  const stock = { boards: [{ name: 'EPS', size: [1200, 600], thickness: 25, price: 3.5, trim: 3, count }] };
  expect(told((await made({ rings: { lap: 30 } }, { stock })).plan)).toMatch(/solid cannot be: .*more (is|are) needed/);
});

test('on a drawing a shared cut is drawn once, with the inner ring', () => {
  const { plan, files } = alone;
  const outlines = plan.pieces.reduce(
    (sum, { region }) => sum + region.reduce((mm, ring) => mm + ringLength(ring), 0),
    0,
  );
  const shared = plan.blanks.reduce(
    (sum, { sharedCuts }) => sum + sharedCuts.reduce((mm, line) => mm + lineLength(line), 0),
    0,
  );
  expect(shared).toBeGreaterThan(3000);
  let drawn = 0;
  for (const { path, body } of files.filter((file) => file.path.endsWith('.svg'))) {
    for (const { group, id, lines } of readSvg(String(body)).paths.filter((each) => each.group === 'cut')) {
      expect(
        plan.pieces.map(({ name }) => `${group}-${name}`),
        path,
      ).toContain(id);
      for (const { points, closed } of lines) drawn += closed ? ringLength(points) : lineLength(points);
    }
  }
  expect(drawn / (outlines - shared)).toBeCloseTo(1, 4);
});

function lineLength(line: ArrayLike<number>): number {
  let sum = 0;
  for (let i = 2; i < line.length; i += 2) sum += Math.hypot(line[i] - line[i - 2], line[i + 1] - line[i - 1]);
  return sum;
}
