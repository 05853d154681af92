/** How many carry a piece: one rule, and every paper says the same of every plan. */
import { describe, expect, test } from 'vitest';
import { assemblyPdf } from '../../src/document/assembly-pdf.ts';
import { drawBoard, sharedOf } from '../../src/document/board/draw-board.ts';
import { cutListPdf } from '../../src/document/cut-list-pdf.ts';
import { CARRYING } from '../../src/document/sheets/carrying.ts';
import { CUTTING } from '../../src/document/sheets/cutting.ts';
import type { Block } from '../../src/drawing/flow/block.ts';
import { type Region, rectangle } from '../../src/geometry/ring.ts';
import type { OutputFile, Plan } from '../../src/model/plan.ts';
import { rulesWith } from '../../src/model/rules.ts';
import { handsOf } from '../../src/workshop/hands.ts';
import { flatLiftKg } from '../../src/workshop/lifting.ts';
import { pieceMasses } from '../../src/workshop/quantities.ts';
import { pieceOf } from '../help/pieced.ts';
import { readPdf } from '../help/read-pdf.ts';
import { smallPlan } from '../help/small-plan.ts';

function saying(twoPersonMm: number, massKg: number | null): Plan {
  const plan = smallPlan();
  const work = { ...plan.facts.work, rules: rulesWith({ twoPersonMm }) };
  return { ...plan, facts: { ...plan.facts, work, carry: { ...plan.facts.carry, massKg } } };
}

describe('two carry', () => {
  const { facts } = saying(1200, null);
  const hands = (wide: number, deep: number, massKg: number, mostKg: number | null = null) => {
    const region: Region = [rectangle(0, 0, wide, deep)];
    return handsOf(pieceOf('1A', region), massKg, { ...facts, carry: { ...facts.carry, massKg: mostKg } });
  };

  test('what is over the rule both ways, or over half as much again one way', () => {
    expect([hands(1200, 1200, 1), hands(1210, 1190, 1), hands(1800, 300, 1)]).toEqual([1, 1, 1]);
    expect([hands(1210, 1201, 1), hands(1801, 300, 1)]).toEqual([2, 2]);
  });

  test('what is heavier than the job says of one, or than the lifting equation has', () => {
    expect([hands(400, 300, 5, 5), hands(400, 300, 5.1, 5)]).toEqual([1, 2]);
    const most = flatLiftKg(1000);
    expect([hands(1000, 1100, most), hands(1000, 1100, most + 0.01), hands(1000, 1100, most + 0.01, 90)]).toEqual([
      1, 2, 2,
    ]);
  });
});

const table = (blocks: readonly Block[], head: string) =>
  blocks.flatMap((block) => (block.kind === 'table' && block.head[0] === head ? block.rows : []));

const peopleIn = async (paper: typeof cutListPdf | typeof assemblyPdf, plan: Plan): Promise<number> => {
  const [file] = (await paper.run(
    plan,
    { paper: 'A4', measures: 'auto' } as never,
    { tell: () => {} } as never,
  )) as OutputFile[];
  const { pages } = await readPdf(file.body as Uint8Array);
  const words = pages.flatMap(({ texts }) => texts.map(({ text }) => text)).join(' ');
  return words.match(/\bpeople\b/g)?.length ?? 0;
};

describe('labels, assembly, cut list, cutting plan and carry sheet agree', async () => {
  const NOBODY = saying(5000, null);
  const apart = [await peopleIn(cutListPdf, NOBODY), await peopleIn(assemblyPdf, NOBODY)];

  test.each([
    ['large ones', saying(300, null)],
    ['long ones', saying(600, null)],
    ['heavy ones', saying(5000, 0.15)],
  ])('%s', async (_, plan) => {
    const masses = pieceMasses(plan.pieces, plan.boards);
    const two = plan.pieces.filter((piece) => handsOf(piece, masses.get(piece.name) ?? 0, plan.facts) === 2);
    const names = two.map(({ name }) => name);
    expect(names.length).toBeGreaterThan(0);
    expect(names.length).toBeLessThan(plan.pieces.length);
    const carried = table(CARRYING.blocks(plan), 'Piece').filter((row) => row[3] === '2');
    expect(carried.map(([name]) => name)).toEqual(names);
    const boards = plan.boards.filter(({ placed }) => placed.some(({ piece }) => names.includes(piece)));
    const held = table(CUTTING.blocks(plan), 'Board').filter((row) => row.at(-1) === '2');
    expect(held.map(([number]) => number).sort()).toEqual(boards.map(({ number }) => `${number}`).sort());
    expect(await peopleIn(cutListPdf, plan)).toBe(apart[0] + names.length);
    expect(await peopleIn(assemblyPdf, plan)).toBe(apart[1] + names.length);
    const drawn = plan.boards.flatMap((board) => drawBoard(sharedOf(plan), board).pieces);
    const labelled = drawn.filter(({ groups }) => JSON.stringify(groups).includes('TWO PEOPLE CARRY'));
    expect(labelled.map(({ piece }) => piece.name).sort()).toEqual([...names].sort());
  });
});
