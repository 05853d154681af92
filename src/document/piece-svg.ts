import { lettered } from '../drawing/lettering.ts';
import { boxOfMarks, type Mark, marksOf, type Page, shifted } from '../drawing/page.ts';
import { pageToSvg } from '../drawing/svg.ts';
import type { OutputFile } from '../model/plan.ts';
import { revision } from '../model/revision.ts';
import { definePlugin } from '../plugin.ts';
import { CAUTIONS } from '../workshop/cautions.ts';
import { checkBar, PRINT_TRUE, scaleText, standing } from './board/blocks.ts';
import type { PlanWords } from './board/board-page.ts';
import { toldOfDrawings } from './board/crowded.ts';
import type { BoardDrawing, PieceDrawing } from './board/draw-board.ts';
import { drawnBoards } from './board/drawn-boards.ts';
import { legend } from './board/legend.ts';
import { scaleOption } from './board/scale-option.ts';

const MARGIN_MM = 10;
const TEXT_MM = 5;

/**
 * One full-size drawing a piece, as it lies on its board: for a machine, or to cut templates of card. The same groups as a board's;
 * under the piece, in `guide`, what it is, a check bar both ways and the legend.
 */
export const pieceSvg = definePlugin({
  api: 1,
  stage: 'document',
  name: 'piece-svg',
  summary: 'full-size drawing of each piece, one SVG file a piece, in millimetres',
  options: (kit) => kit.z.strictObject({ scale: scaleOption(kit) }),
  *run(plan, { scale }, { tell }) {
    const drawings = yield* drawnBoards(plan, scale, 0.6);
    const words = { plan, revision: revision(plan), scale };
    const files: OutputFile[] = [];
    for (const [i, drawing] of drawings.entries()) {
      for (const piece of drawing.pieces) {
        const body = pageToSvg(piecePage(drawing, piece, words));
        files.push({ path: fileName(piece.piece.name, files), mediaType: 'image/svg+xml', body });
      }
      yield 0.6 + (0.4 * (i + 1)) / drawings.length;
    }
    toldOfDrawings(plan, drawings).forEach(tell);
    return files;
  },
});

/** `piece-7C.svg`; names that plugins of others give are cut down to what every system takes, and numbered where two meet. */
function fileName(piece: string, files: readonly OutputFile[]): string {
  const plain = piece.replace(/[^A-Za-z0-9-]+/g, '-').slice(0, 60);
  const isTaken = (path: string) => files.some((file) => file.path.toLowerCase() === path.toLowerCase());
  let path = `piece-${plain}.svg`;
  for (let n = 2; isTaken(path); n++) path = `piece-${plain}-${n}.svg`;
  return path;
}

function piecePage(drawing: BoardDrawing, { piece, groups }: PieceDrawing, words: PlanWords): Page {
  const { plan, revision, scale } = words;
  const box = boxOfMarks(marksOf(groups)) ?? [0, 0, 0, 0];
  const print = `Lynchet, revision ${revision}`;
  const name = `piece ${piece.name}, board ${drawing.board.number} of ${plan.boards.length}`;
  const rows = [name, plan.name, print, scale === 1 ? PRINT_TRUE : scaleText(plan, piece, scale)];
  const lines = legend(plan.unit);
  const bar = checkBar(plan.unit);
  const topMm = box[3] - box[1] + 2 * MARGIN_MM;
  const rowsMm = rows.length * 1.7 * TEXT_MM;
  const legendTopMm = topMm + rowsMm + 4 + bar.heightMm + 4;
  const under: Mark[] = [
    ...rows.map((text, i) =>
      lettered(text, { heightMm: TEXT_MM, xMm: MARGIN_MM, yMm: topMm + (1 + 1.7 * i) * TEXT_MM }),
    ),
    ...shifted(bar.marks, MARGIN_MM, topMm + rowsMm + 4),
    ...shifted(standing(bar).marks, lines.widthMm + 2 * MARGIN_MM, topMm),
    ...shifted(lines.marks, MARGIN_MM, legendTopMm),
  ];
  const said = boxOfMarks(under) ?? [0, 0, 0, 0];
  return {
    widthMm: Math.ceil(Math.max(box[2] - box[0], said[2] - MARGIN_MM) + 2 * MARGIN_MM),
    heightMm: Math.ceil(Math.max(said[3], legendTopMm + lines.heightMm) + MARGIN_MM),
    title: `${plan.name}: ${name}`,
    description: `${print}. ${PRINT_TRUE} ${CAUTIONS[0]}`,
    groups: [
      ...groups.map(({ id, marks }) => ({ id, marks: shifted(marks, MARGIN_MM - box[0], MARGIN_MM - box[1]) })),
      { id: 'guide', marks: under },
    ],
  };
}
