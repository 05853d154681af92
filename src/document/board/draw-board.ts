import { coarser, segmentsOf, spotsIn } from '../../drawing/fit.ts';
import { freeRoom } from '../../drawing/free-room.ts';
import { frame, type Group, type Line, type Mark, type Page, shifted, toPage, turnedUp } from '../../drawing/page.ts';
import { PENS, TEXT_HEIGHTS_MM } from '../../drawing/pen.ts';
import type { LayoutBoard } from '../../model/layout.ts';
import type { Piece } from '../../model/piece.ts';
import type { Plan } from '../../model/plan.ts';
import { CAUTIONS } from '../../workshop/cautions.ts';
import { type Block, checkBar, legend, PRINT_TRUE, titleBlock } from './blocks.ts';
import { textBlock } from './label-blocks.ts';
import { COARSE_MM, labeller } from './labeller.ts';
import { cutMark, onBoard, type PieceOnBoard, placeMarks, slitMarks } from './on-board.ts';
import { type PieceName, pieceLabels } from './piece-labels.ts';
import { uprightLabels } from './upright-labels.ts';

export interface BoardDrawing {
  /** As large as the board; groups cut, slit, mark, label, guide. */
  readonly page: Page;
  readonly names: readonly PieceName[];
  /** Lettering that found no clear room, by piece. */
  readonly crowded: readonly { readonly piece: string; readonly what: readonly string[] }[];
}

/** How fine room for blocks is looked for in the waste, and the air around a block. */
const CELL_MM = 4;
const BLOCK_AIR_MM = 4;

/**
 * Draw a board at true size, whatever the file it goes into. `blocks`: put title block, check bars and legend into the
 * waste, as far as they have room there.
 */
export function drawBoard(plan: Plan, board: LayoutBoard, { blocks }: { blocks: boolean }): BoardDrawing {
  const [widthMm, heightMm] = board.sizeMm;
  const pieces = new Map(plan.pieces.map((piece) => [piece.name, piece]));
  const lying = board.placed.map((placed) => {
    const piece = pieces.get(placed.piece);
    if (!piece) throw new Error(`board ${board.number} holds piece ${placed.piece}, which the plan does not have`);
    return onBoard(piece, placed, heightMm);
  });
  const blankOf = board.placed.map(({ blank }) => blank);
  const inLayer = layerCounts(plan.pieces);
  const { unit } = plan;
  const { gapMm, front } = plan.facts;
  const labels = lying.map((one) => {
    const rib = plan.stack.layers[one.piece.layer - 1]?.rib;
    const upright = rib ? uprightLabels(one, rib, front, heightMm) : null;
    return pieceLabels(one, {
      unit,
      gapMm,
      front,
      upright,
      of: inLayer.get(one.piece.layer) ?? 1,
    });
  });

  const guide = guideMarks(board);
  const groups: Group[] = [
    {
      id: 'cut',
      marks: lying.map((one, i) =>
        cutMark(
          one,
          lying.filter((_, k) => blankOf[k] === blankOf[i]),
        ),
      ),
    },
    { id: 'slit', marks: lying.flatMap(slitMarks) },
    { id: 'mark', marks: lying.flatMap((one) => placeMarks(one, gapMm)) },
    { id: 'label', marks: labels.flatMap(({ marks }) => marks) },
    { id: 'guide', marks: blocks ? [...guide, ...blocksInWaste(plan, board, lying, guide)] : guide },
  ];
  return {
    page: {
      widthMm,
      heightMm,
      title: `${plan.name}: board ${board.number} of ${plan.boards.length}`,
      description: `${board.stock}, ${board.thicknessMm} mm thick. ${PRINT_TRUE} ${CAUTIONS[0]}`,
      groups,
    },
    names: labels.map(({ name }) => name),
    crowded: labels
      .map(({ crowded }, i) => ({ piece: lying[i].piece.name, what: crowded }))
      .filter(({ what }) => what.length > 0),
  };
}

/** The board's edge, its trim, and its new offcuts with their names. */
function guideMarks(board: LayoutBoard): Mark[] {
  const [widthMm, heightMm] = board.sizeMm;
  const trimMm = board.trimMm;
  const rings: Line[] = (board.rings ?? []).map((ring) => ({ points: toPage(ring, heightMm), closed: true }));
  const edge = rings.length > 0 ? rings : [frame(0, 0, widthMm, heightMm)];
  if (trimMm > 0) edge.push(frame(trimMm, trimMm, widthMm - trimMm, heightMm - trimMm));
  const marks: Mark[] = [{ pen: PENS.edge, id: 'edge', title: 'edge of the board, and of its trim', lines: edge }];
  for (const { name, rings } of board.offcuts) {
    const outline = rings.map((ring) => toPage(ring, heightMm));
    marks.push({
      pen: PENS.offcut,
      title: `offcut ${name}`,
      lines: outline.map((points) => ({ points, closed: true })),
    });
    const coarse = outline.map((ring) => coarser(ring, COARSE_MM));
    const lines = segmentsOf(coarse);
    const label = labeller(lines);
    label.put(
      TEXT_HEIGHTS_MM.filter((height) => height <= 14).map((heightMm) => textBlock([{ text: name, heightMm }])),
      spotsIn(coarse, lines),
    );
    marks.push(...label.marks);
  }
  return marks;
}

/** Title block, check bars both ways and legend, each where the waste has room for it, lying or standing. */
function blocksInWaste(plan: Plan, board: LayoutBoard, lying: readonly PieceOnBoard[], guide: readonly Mark[]): Mark[] {
  const [widthMm, heightMm] = board.sizeMm;
  const room = freeRoom(widthMm, heightMm, CELL_MM);
  for (const { outline } of lying) room.takeRegion(outline);
  for (const { lines } of guide) room.takeLines(lines);
  if (board.rings) {
    // What the outline of a saved offcut leaves out of its box is not foam.
    const box = frame(0, 0, widthMm, heightMm).points;
    room.takeRegion([box, ...board.rings.map((ring) => toPage(ring, heightMm))]);
  }
  const marks: Mark[] = [];
  const put = ({ widthMm, heightMm, marks: drawn }: Block) => {
    const at = room.find(widthMm + 2 * BLOCK_AIR_MM, heightMm + 2 * BLOCK_AIR_MM);
    if (!at) return false;
    const [x, y] = [at[0] + BLOCK_AIR_MM, at[1] + BLOCK_AIR_MM];
    room.takeBox([x, y, x + widthMm, y + heightMm]);
    marks.push(...shifted(drawn, x, y));
    return true;
  };
  const bar = checkBar(plan.unit);
  for (const block of [titleBlock(plan, board), legend()]) if (!put(block)) put(standing(block));
  put(bar);
  put(standing(bar));
  return marks;
}

const standing = ({ widthMm, heightMm, marks }: Block): Block => ({
  widthMm: heightMm,
  heightMm: widthMm,
  marks: turnedUp(marks, widthMm),
});

/** How many pieces each layer has. */
function layerCounts(pieces: readonly Piece[]): Map<number, number> {
  const counts = new Map<number, number>();
  for (const { layer } of pieces) counts.set(layer, (counts.get(layer) ?? 0) + 1);
  return counts;
}
