import type { Block } from '../drawing/flow/block.ts';
import type { Body } from '../drawing/flow/strips.ts';
import type { Finding } from '../findings.ts';
import type { LayoutBoard } from '../model/layout.ts';
import type { Plan } from '../model/plan.ts';
import { definePlugin } from '../plugin.ts';
import { isInFeet, MM_IN, numberText } from '../units.ts';
import { type Measured, measuredPieces } from './measure-off/measured.ts';
import { boardSketch, pieceSketch } from './measure-off/sketches.ts';
import { pieceTables } from './measure-off/tables.ts';
import { paperOption } from './pages/papers.ts';
import { boardText } from './report/amounts.ts';
import { type Measures, measuresOf, measuresOption } from './sheets/measures.ts';
import { sheetFile } from './sheets/sheet-file.ts';

/**
 * measure-off.pdf: every piece marked on its board with a tape, a square and a long straight edge. From a base line along the
 * board's factory edge, at stations, up to each crossing of the outline; corners, peaks and as many points between as
 * straight lines from mark to mark need to stay within the tolerance.
 */
export const measureOffPdf = definePlugin({
  api: 1,
  stage: 'document',
  name: 'measure-off-pdf',
  summary: 'measurements from the edge of each board, to mark the pieces without a printer',
  options: (kit) => {
    const { z, length, unit } = kit;
    return z.strictObject({
      paper: paperOption(kit),
      measures: measuresOption(z),
      spacing: length({ least: 20, most: 1000 })
        .default(isInFeet(unit) ? 4 * MM_IN.in : 100)
        .describe('from one station to the next along the edge'),
      tolerance: length({ least: 1.5, most: 25 })
        .default(3)
        .describe(
          'how far straight lines between marks may be from the outline; more marks are put in until they are not',
        ),
    });
  },
  async run(plan, { paper, measures: choice, spacing, tolerance }, { tell }) {
    if (plan.boards.length === 0) return [];
    const measures = measuresOf(choice, plan.unit);
    const pieces = new Map(plan.pieces.map((piece) => [piece.name, piece]));
    const how = { spacingMm: spacing, toleranceMm: tolerance, stepMm: measures.stepMm };
    const boards = plan.boards.map((board) => ({ board, measured: measuredPieces(board, pieces, how) }));
    const blocks = (body: Body) => [
      ...introduction(plan, measures, spacing, tolerance),
      ...boards.flatMap(({ board, measured }) => boardBlocks(plan, board, measured, measures, spacing, body)),
    ];
    const choices = { path: 'measure-off.pdf', title: 'Measuring off', paper };
    const file = await sheetFile(plan, choices, blocks, tell);
    tell(marksToMake(boards.flatMap(({ measured }) => measured)));
    return [file];
  },
});

function introduction({ boards }: Plan, { unit, text }: Measures, spacingMm: number, toleranceMm: number): Block[] {
  const step = unit === 'mm' ? 'whole millimetres' : 'inches and sixteenths';
  return [
    { kind: 'heading', level: 1, text: 'Marking the boards without a printer' },
    {
      kind: 'list',
      numbered: true,
      items: [
        'Lay the board down as its sketch shows it, printed or better face up. Its lower factory edge is the base line; its left end is 0. Check with a square that the corner at 0 is true; if it is not, strike a base line that is.',
        `Clamp a tape along the base line, 0 at the left end. Measures are in ${step}.`,
        'At each station set a square on the base line and mark each measure up from it, with its number.',
        'Then the extra marks: at corners, at peaks, and where stations alone are too far apart.',
        'Join the marks in the order of their numbers with straight lines, the last to the first. An opening has numbers of its own.',
        'Look over the line before you cut: a mark that stands out of a fair line is a misread measure. Measure it again.',
        'Write name, arrow to the front and joint labels on every piece before it leaves the board.',
      ],
    },
    {
      kind: 'values',
      rows: [
        { label: 'Boards', value: `${boards.length}` },
        { label: 'From station to station', value: `${text(spacingMm)} ${unit}` },
        {
          label: 'Straight lines between marks may be off by',
          value: `${numberText(toleranceMm, 1)} mm`,
          source: 'worked out for each piece and said with it',
        },
      ],
    },
  ];
}

function boardBlocks(
  plan: Plan,
  board: LayoutBoard,
  measured: readonly Measured[],
  measures: Measures,
  spacingMm: number,
  body: Body,
): Block[] {
  const size = boardText(board.sizeMm, board.thicknessMm, plan.unit);
  const kept = board.rings ? ' A kept offcut: strike the base line along the lower side of its box.' : '';
  return [
    { kind: 'page' },
    { kind: 'heading', level: 1, text: `Board ${board.number} of ${plan.boards.length}` },
    { kind: 'text', text: `${board.stock}, ${size}. Check its size before you mark.${kept}` },
    {
      kind: 'figure',
      drawing: boardSketch(board, measured, body.widthMm),
      caption: 'The board as it lies before you. Measures run from 0 to the right, and up from the base line.',
    },
    ...measured.flatMap((each): Block[] => {
      const room = { widthMm: body.widthMm, heightMm: 78 };
      const { piece, marks, deviationMm } = each;
      const joints = piece.joints.map(({ label, neighbour }) => `${label} to ${neighbour}`).join(', ');
      const off = `Straight lines from mark to mark stay within ${numberText(Math.ceil(deviationMm * 10) / 10, 1)} mm of the true outline.`;
      return [
        { kind: 'heading', level: 2, text: `Piece ${piece.name}` },
        {
          kind: 'figure',
          drawing: pieceSketch(each, spacingMm, measures, room),
          caption: `${piece.name}: ${marks.flat().length} marks. ${off}${joints ? ` Joints: ${joints}.` : ''}`,
        },
        ...pieceTables(each, spacingMm, measures),
      ];
    }),
  ];
}

const marksToMake = (measured: readonly Measured[]): Finding => {
  const marks = measured.reduce((sum, { marks }) => sum + marks.flat().length, 0);
  const most = measured.reduce((far, { deviationMm }) => Math.max(far, deviationMm), 0);
  return {
    level: 'note',
    code: 'document/measure-off',
    message: `measure-off.pdf has ${marks} marks for ${measured.length} pieces; joined by straight lines they are at most ${numberText(Math.ceil(most * 10) / 10, 1)} mm off the outlines.`,
    fix: 'A larger tolerance or wider spacing makes fewer marks.',
    where: {},
  };
};
