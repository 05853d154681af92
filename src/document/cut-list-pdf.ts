import type { Block } from '../drawing/flow/block.ts';
import { boxOf } from '../geometry/ring.ts';
import type { Plan } from '../model/plan.ts';
import { definePlugin } from '../plugin.ts';
import { handsOf } from '../workshop/hands.ts';
import { boardOfPiece, cutLengthMm, pieceMasses } from '../workshop/quantities.ts';
import { paperOption } from './pages/papers.ts';
import { areaText, massText, sizeText, wayText } from './report/amounts.ts';
import { sheetFile } from './sheets/sheet-file.ts';

/**
 * cut-list.pdf: every piece in a row to tick, layer by layer, with what cut-list.csv says in short: board, size of its box on
 * the ground, area, weight, cut length, joints, pins.
 */
export const cutListPdf = definePlugin({
  api: 1,
  stage: 'document',
  name: 'cut-list-pdf',
  summary: 'every piece in a row to tick, layer by layer, with its board, size, weight and cuts',
  options: (kit) => kit.z.strictObject({ paper: paperOption(kit) }),
  async run(plan, { paper }, { tell }) {
    if (plan.pieces.length === 0) return [];
    const choices = { path: 'cut-list.pdf', title: 'Cut list', paper, lying: true };
    return [await sheetFile(plan, choices, listBlocks(plan), tell)];
  },
});

function listBlocks(plan: Plan): Block[] {
  const { pieces, boards, stack, unit, quantities: q } = plan;
  const boardOf = boardOfPiece(boards);
  const masses = pieceMasses(pieces, boards);
  const group = stack.kind === 'flat' ? 'Layer' : 'Rib';
  return [
    { kind: 'heading', level: 1, text: `${q.pieces} pieces on ${q.boards} boards` },
    {
      kind: 'text',
      text: `${massText(q.foamMassKg, unit)} of foam, ${wayText(q.cutLengthM, unit)} to cut, ${q.joints} joints, ${q.pins} pins.`,
    },
    ...stack.layers.flatMap(({ number }): Block[] => {
      const own = pieces.filter(({ layer }) => layer === number);
      const rows = own.map((piece, i) => {
        const [minX, minY, maxX, maxY] = boxOf(piece.region);
        const mass = masses.get(piece.name) ?? 0;
        return [
          piece.name,
          `${i + 1} of ${own.length}`,
          `${boardOf.get(piece.name)?.number ?? ''}`,
          sizeText([maxX - minX, maxY - minY], unit),
          areaText(piece.areaMm2 / 1e6, unit),
          `${massText(mass, unit)}${handsOf(piece, mass, plan.facts) === 2 ? ', two people' : ''}`,
          wayText(cutLengthMm(piece) / 1000, unit),
          piece.joints.map(({ label }) => label).join(' '),
          `${piece.pins.length}`,
        ];
      });
      return [
        { kind: 'heading', level: 2, text: `${group} ${number} of ${stack.layers.length}` },
        { kind: 'table', head: HEAD, rows, right: [2, 4, 6, 8], ticks: true },
      ];
    }),
  ];
}

const HEAD = ['piece', 'of the layer', 'board', 'size', 'area', 'weight', 'cut length', 'joints', 'pins'];
