import { boxOfMarks, type Group, type Mark, marksOf } from '../../drawing/page.ts';
import { turn } from '../../geometry/exact-math.ts';
import type { Box } from '../../geometry/ring.ts';
import type { Plan } from '../../model/plan.ts';
import type { BoardDrawing } from '../board/draw-board.ts';
import type { PieceName } from '../board/piece-labels.ts';

/** What is drawn at its size and cut up: a board, or a piece alone. */
export interface Pattern {
  /** `board 3 of 12`, `piece 7C`. */
  readonly name: string;
  readonly groups: readonly Group[];
  /** In the drawing's coordinates. */
  readonly box: Box;
  readonly names: readonly PieceName[];
}

export const OF = ['boards', 'pieces'] as const;

/** Something is to be traced from these: the edge of a board alone is nothing. */
const TRACED = ['cut', 'slit', 'mark', 'label'];

export const tracedMarks = ({ groups }: Pattern): Mark[] => marksOf(groups.filter(({ id }) => TRACED.includes(id)));

/** The patterns of a plan: its boards whole, or each piece alone, layer by layer. */
export function patternsOf(plan: Plan, drawings: readonly BoardDrawing[], of: (typeof OF)[number]): Pattern[] {
  if (of === 'boards') {
    return drawings.map(({ board, groups, names, widthMm, heightMm }) => ({
      name: `board ${board.number} of ${plan.boards.length}`,
      groups,
      box: [0, 0, widthMm, heightMm],
      names,
    }));
  }
  const order = new Map(plan.pieces.map(({ name }, i) => [name, i]));
  return drawings
    .flatMap(({ pieces, names, board }) => pieces.map((drawn, i) => ({ ...drawn, name: names[i], board })))
    .sort((a, b) => (order.get(a.piece.name) ?? 0) - (order.get(b.piece.name) ?? 0))
    .map(({ piece, groups, name, board }) => ({
      name: `piece ${piece.name}, board ${board.number}`,
      groups,
      box: boxOfMarks(marksOf(groups)) ?? [0, 0, 0, 0],
      names: [name],
    }));
}

/**
 * The strokes of marks after a turn, counter-clockwise as seen: ax, ay, bx, by of each, flat. Lettering counts as the frame and
 * the middle line of its box.
 */
export function strokesOf(marks: readonly Mark[], turnDeg = 0): Float64Array {
  const { cos, sin } = turn(turnDeg);
  const flat: number[] = [];
  const add = (ax: number, ay: number, bx: number, by: number) =>
    flat.push(ax * cos + ay * sin, ay * cos - ax * sin, bx * cos + by * sin, by * cos - bx * sin);
  for (const mark of marks) {
    const box = mark.text ? boxOfMarks([mark]) : null;
    if (box) {
      const [left, top, right, bottom] = box;
      for (const y of [top, (top + bottom) / 2, bottom]) add(left, y, right, y);
      for (const x of [left, right]) add(x, top, x, bottom);
      continue;
    }
    for (const { points, closed } of mark.lines) {
      for (let i = 2; i < points.length; i += 2) add(points[i - 2], points[i - 1], points[i], points[i + 1]);
      const last = points.length - 2;
      if (closed && last > 0) add(points[last], points[last + 1], points[0], points[1]);
    }
  }
  return new Float64Array(flat);
}
