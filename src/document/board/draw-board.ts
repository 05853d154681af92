import type { Group } from '../../drawing/page.ts';
import type { Point } from '../../geometry/ring.ts';
import type { LayoutBoard } from '../../model/layout.ts';
import type { Piece } from '../../model/piece.ts';
import type { Plan } from '../../model/plan.ts';
import { lengthText } from '../../units.ts';
import { handsOf } from '../../workshop/hands.ts';
import { pieceMasses } from '../../workshop/quantities.ts';
import { cutOrder } from './cut-order.ts';
import { guideMarks, plugMarks, wasteCuts } from './guide-marks.ts';
import { textBlock } from './label-blocks.ts';
import { leadersOut } from './leaders.ts';
import { cutMark, onBoard, type PieceOnBoard, placeMarks, slitMarks } from './on-board.ts';
import { type PieceName, pieceLabels } from './piece-labels.ts';
import { uprightLabels } from './upright-labels.ts';

/** What is drawn of one piece where it lies on its board: the groups of a board, for it alone and its outline whole. */
export interface PieceDrawing {
  readonly piece: Piece;
  readonly groups: readonly Group[];
}

/** A board at true size or smaller, drawn once for every document that shows it. */
export interface BoardDrawing {
  readonly board: LayoutBoard;
  readonly widthMm: number;
  readonly heightMm: number;
  /** cut, slit, mark, label, guide; what has no place of its own on the board (title block, legend) is not in them. */
  readonly groups: readonly Group[];
  readonly pieces: readonly PieceDrawing[];
  readonly lying: readonly PieceOnBoard[];
  /** Number and piece of each cut, in their order. */
  readonly cuts: readonly (readonly [number: number, piece: string])[];
  readonly names: readonly PieceName[];
  /** Lettering that found no clear room, by piece. */
  readonly crowded: readonly { readonly piece: string; readonly what: readonly string[] }[];
}

/** What drawing all boards of a plan shares. */
interface Shared {
  readonly plan: Plan;
  readonly pieces: ReadonlyMap<string, Piece>;
  readonly masses: ReadonlyMap<string, number>;
  readonly inLayer: ReadonlyMap<number, number>;
  readonly pinTexts: ReadonlyMap<string, string>;
}

export function sharedOf(plan: Plan): Shared {
  const inLayer = new Map<number, number>();
  for (const { layer } of plan.pieces) inLayer.set(layer, (inLayer.get(layer) ?? 0) + 1);
  return {
    plan,
    pieces: new Map(plan.pieces.map((piece) => [piece.name, piece])),
    masses: pieceMasses(plan.pieces, plan.boards),
    inLayer,
    pinTexts: new Map(
      plan.pins.map(({ at, lengthMm, isPulled }) => {
        const length = lengthText(lengthMm, plan.unit).replace(/ \S+$/, '');
        return [at.join(), isPulled ? `${length} pull` : length];
      }),
    ),
  };
}

/** In plan, where the seat of a rock faces while it lies on its side; null where it stands as it is glued, and for all other ground. */
function seatOf({ stack: { rock } }: Plan): Point | null {
  return rock && rock.seat[2] === 0 ? [rock.seat[0], rock.seat[1]] : null;
}

/** Draw a board at the size that the plan has it. */
export function drawBoard(shared: Shared, board: LayoutBoard): BoardDrawing {
  const { plan, pieces, masses, inLayer, pinTexts } = shared;
  const [widthMm, heightMm] = board.sizeMm;
  const { unit } = plan;
  const { gapMm, front } = plan.facts;
  const lying = board.placed.map((placed) => {
    const piece = pieces.get(placed.piece);
    if (!piece) throw new Error(`board ${board.number} holds piece ${placed.piece}, which the plan does not have`);
    return onBoard(piece, placed, heightMm, pinTexts);
  });
  const order = cutOrder(board, lying);
  const blankOf = board.placed.map(({ blank }) => blank);
  const number = (i: number): number => order.get(blankOf[i]) ?? 0;
  const last = order.size + (board.breakDowns?.length ?? 0);

  const labels = lying.map((one, i) => {
    const rib = plan.stack.layers[one.piece.layer - 1]?.rib;
    return pieceLabels(one, {
      unit,
      gapMm,
      front,
      upright: rib ? uprightLabels(one, rib, front, heightMm) : null,
      seat: seatOf(plan),
      of: inLayer.get(one.piece.layer) ?? 1,
      board: board.number,
      cut: [number(i), last],
      isForTwo: handsOf(one.piece, masses.get(one.piece.name) ?? 0, plan.facts) === 2,
    });
  });

  const cut = lying.map((one, i) =>
    cutMark(
      one,
      lying.filter((_, k) => blankOf[k] === blankOf[i]),
    ),
  );
  const marks = lying.map((one) => placeMarks(one, gapMm));
  const guide = guideMarks(board, lying);
  const waste = wasteCuts(board, order, lying, guide);
  const plugs = plugMarks(lying, board);
  const leaders = leadersOut(
    labels.map(({ outside, anchor, marks: inside }, i) => ({
      rows: outside,
      anchor,
      inside: [...inside, ...marks[i], ...slitMarks(lying[i])],
    })),
    { widthMm, heightMm, board, lying, drawn: [...guide, ...waste, ...plugs] },
  );
  // A name has to be somewhere: where neither piece nor waste has room for it, it stands small at the roomiest place, and that is told.
  const lettering = labels.map(({ marks, name, anchor: [x, y] }, i) => {
    const isNamed = name !== null || leaders[i].marks.length > 0;
    const least = textBlock([{ text: lying[i].piece.name, heightMm: 2.5, underlined: true }]);
    return [...marks, ...leaders[i].marks, ...(isNamed ? [] : least.draw(x, y, 0))];
  });
  const groups: Group[] = [
    { id: 'cut', marks: cut },
    { id: 'slit', marks: [...lying.flatMap(slitMarks), ...waste] },
    { id: 'mark', marks: marks.flat() },
    {
      id: 'label',
      marks: [...labels.flatMap(({ marks }) => marks), ...leaders.flatMap(({ marks }) => marks), ...plugs],
    },
    { id: 'guide', marks: guide },
  ];
  return {
    board,
    widthMm,
    heightMm,
    groups,
    lying,
    pieces: lying.map((one, i) => ({
      piece: one.piece,
      groups: [
        { id: 'cut', marks: [cutMark(one)] },
        { id: 'slit', marks: slitMarks(one) },
        { id: 'mark', marks: marks[i] },
        { id: 'label', marks: lettering[i] },
      ],
    })),
    cuts: lying
      .map((one, i): [number, string] => [number(i), one.piece.name])
      .sort((a, b) => a[0] - b[0] || (a[1] < b[1] ? -1 : 1)),
    names: labels.map(({ name, anchor: [x, y] }, i) => name ?? { text: lying[i].piece.name, x, y, heightMm: 5 }),
    crowded: labels
      .map(({ crowded }, i) => ({ piece: lying[i].piece.name, what: [...crowded, ...leaders[i].crowded] }))
      .filter(({ what }) => what.length > 0),
  };
}
