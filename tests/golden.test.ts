/**
 * Whole drawings, compared letter by letter. A mismatch writes `<name>.now.svg` beside the golden one: open both, and when
 * the new one is right, `UPDATE_GOLDEN=1 npx vitest run tests/golden.test.ts` takes it. A finding that is not announced here fails.
 */
import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { boardSvg } from '../src/document/board-svg.ts';
import { stackFigure } from '../src/document/report/figures.ts';
import { layerFigure } from '../src/document/report/layer-figure.ts';
import { sectionFigures } from '../src/document/report/section-figure.ts';
import type { Finding } from '../src/findings.ts';
import { boxOf, type Point, placed as put } from '../src/geometry/ring.ts';
import type { OutputFile, Plan } from '../src/model/plan.ts';
import { type Made, run } from '../src/run.ts';
import { walkNow } from '../src/walk.ts';
import { ottersBank, riverStones } from './help/drawn-jobs.ts';

const isUpdating = process.env.UPDATE_GOLDEN === '1';

/** Enough to see a figure by. The report's own style would change every golden with it. */
const STYLE =
  'path{fill:none;stroke:#000;fill-rule:evenodd;vector-effect:non-scaling-stroke}.pin{fill:#000}.glue{fill:#eee;stroke:none}.below,.foam{fill:#ddd}.piece,.top{fill:#fff}.wall-lit{fill:#eee}.wall{fill:#ccc}.wall-dark{fill:#aaa}.cover{stroke-dasharray:5 3}text{text-anchor:middle}';

/** A figure of the report as a file that can be opened, an element a line so that a change can be read. */
const alone = (svg: string): string =>
  `${svg
    .replace('<svg ', '<svg xmlns="http://www.w3.org/2000/svg" ')
    .replace(/(?<=^<svg[^>]*>)/, `<style>${STYLE}</style>`)
    .replaceAll('><', '>\n<')}\n`;

interface Lying {
  readonly piece: string;
  readonly turnDeg: number;
  /** Where the lower left corner of the piece's box comes to lie. */
  readonly at: Point;
}

/** A board with pieces laid by hand: what a search finds may change, what is drawn of it may not. */
function board(plan: Plan, lying: readonly Lying[]): string {
  const [first] = plan.boards;
  const placed = lying.map(({ piece, turnDeg, at }, i) => {
    const region = plan.pieces.find(({ name }) => name === piece)?.region ?? [];
    const turned = { turnDeg, mirrored: false, xMm: 0, yMm: 0 };
    const [minX, minY] = boxOf(region.map((ring) => put(ring, turned)));
    const [xMm, yMm] = [minX, minY].map((least, axis) => Math.round((at[axis] - least) * 1000) / 1000);
    return { ...turned, piece, blank: i + 1, xMm, yMm };
  });
  const told: Finding[] = [];
  const context = { facts: {}, tell: (finding: Finding) => void told.push(finding), random: () => 0.5 };
  const laid = { ...plan, boards: [{ ...first, number: 1, placed, offcuts: [], runIns: [], breakDowns: [] }] };
  const work = boardSvg.run(laid, { scale: 1 }, context) as Generator<number, readonly OutputFile[], never>;
  const [file] = walkNow(work);
  expect(told).toEqual([]);
  return file.body as string;
}

const layer = ({ stack, ...plan }: Plan, number: number): string => {
  const at = stack.layers.findIndex((each) => each.number === number);
  return layerFigure({ ...plan, stack }, stack.layers[at], stack.layers[at - 1], stack.layers[at + 1]).svg;
};

const CASES = [
  {
    job: ottersBank,
    announced: ['slice/stack-height', 'checks/treads'],
    drawings: {
      'otters-bank.board': ({ plan }: Made) =>
        board(plan, [
          { piece: '2A', turnDeg: 0, at: [12.5, 20] },
          { piece: '3A', turnDeg: 214.5, at: [800, 30] },
        ]),
      'otters-bank.layer-1': ({ plan }: Made) => alone(layer(plan, 1)),
      'otters-bank.section': ({ plan }: Made) => alone(sectionFigures(plan)[0].svg),
    },
  },
  {
    job: riverStones,
    announced: ['slice/stack-height', 'checks/least-bearing', 'checks/not-held', 'checks/feather', 'checks/treads'],
    drawings: {
      'river-stones.board': ({ plan }: Made) =>
        board(plan, [
          { piece: '4A', turnDeg: 0, at: [9, 7.5] },
          { piece: '3C', turnDeg: 90, at: [180, 90] },
        ]),
      'river-stones.layer-3': ({ plan }: Made) => alone(layer(plan, 3)),
      'river-stones.stack': ({ plan }: Made) => alone(stackFigure(plan).svg),
    },
  },
];

describe.each(CASES.map((each) => ({ ...each, name: each.job().name })))('$name', ({ job, announced, drawings }) => {
  const made = run(job().job, job().files);

  test('tells what is announced, and nothing else', async () => {
    const { plan } = await made;
    expect(plan.findings.map(({ code }) => code)).toEqual(announced);
  });

  test.each(Object.entries(drawings))('%s', async (name, draw) => {
    const path = (ending: string) => fileURLToPath(new URL(`golden/${name}${ending}`, import.meta.url));
    const now = draw(await made);
    rmSync(path('.now.svg'), { force: true });
    if (isUpdating) writeFileSync(path('.svg'), now);
    const golden = existsSync(path('.svg')) ? readFileSync(path('.svg'), 'utf8') : '';
    if (now !== golden) writeFileSync(path('.now.svg'), now);
    // The whole text would fill the terminal.
    expect(now === golden, `${name}.svg is drawn otherwise: compare it with ${name}.now.svg in tests/golden`).toBe(
      true,
    );
  });
});
