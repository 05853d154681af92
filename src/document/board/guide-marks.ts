import { clearanceAt, coarser, isClear, type Spot, segmentsOf, spotsIn } from '../../drawing/fit.ts';
import { frame, type Line, type Mark, toPage } from '../../drawing/page.ts';
import { PENS, TEXT_HEIGHTS_MM } from '../../drawing/pen.ts';
import { lineAround } from '../../geometry/line-distance.ts';
import { boxOf, isInRegion, type Ring } from '../../geometry/ring.ts';
import type { LayoutBoard } from '../../model/layout.ts';
import { type LabelBlock, textBlock } from './label-blocks.ts';
import { COARSE_MM, labeller } from './labeller.ts';
import type { PieceOnBoard } from './on-board.ts';

/** Half the width of a datum triangle, and how far it reaches into the board. */
const DATUM_MM = 6;
/** Where along an edge datum triangles may stand, as shares of it, from either end. */
const FROM_START = Array.from({ length: 23 }, (_, i) => (2 * i + 3) / 100);
const ENDS = [FROM_START, FROM_START.map((share) => 1 - share)];
const WASTE_TEXTS_MM = [10, 7, 5, 3.5];

/** The board's edge, its trim, the two edges to measure from, patches to keep out of, and its new offcuts with their names. */
export function guideMarks(board: LayoutBoard, lying: readonly PieceOnBoard[]): Mark[] {
  const [widthMm, heightMm] = board.sizeMm;
  const trimMm = board.trimMm;
  const rings: Line[] = (board.rings ?? []).map((ring) => ({ points: toPage(ring, heightMm), closed: true }));
  const edge = rings.length > 0 ? rings : [frame(0, 0, widthMm, heightMm)];
  if (trimMm > 0) edge.push(frame(trimMm, trimMm, widthMm - trimMm, heightMm - trimMm));
  const marks: Mark[] = [{ pen: PENS.edge, id: 'edge', title: 'edge of the board, and of its trim', lines: edge }];
  if (!board.rings) marks.push(...datumMark(widthMm, heightMm, lying));
  const cuts = [...(board.breakDowns ?? []), ...(board.runIns ?? []).map(({ line }) => line)].map((line) =>
    toPage(line, heightMm),
  );
  const drawn = () => [...cuts, ...marks.flatMap(({ lines }) => lines.map(lineOf))];
  for (const ring of board.keepOuts ?? []) {
    const points = toPage(ring, heightMm);
    marks.push({ pen: PENS.edge, title: 'keep out', lines: [{ points, closed: true }] });
    marks.push(...inside([points], 'KEEP OUT', drawn()));
  }
  for (const { name, rings } of board.offcuts) {
    const outline = rings.map((ring) => toPage(ring, heightMm));
    const lines = outline.map((points) => ({ points, closed: true }));
    marks.push({ pen: PENS.offcut, title: `offcut ${name}`, lines });
    marks.push(...inside(outline, `KEEP ${name}`, drawn()));
  }
  return marks;
}

/**
 * Triangles on the two edges to measure from (datum, ISO 5459, from memory), the lower one and the left one: near each end, as far
 * in as they keep clear of the pieces.
 */
function datumMark(widthMm: number, heightMm: number, lying: readonly PieceOnBoard[]): Mark[] {
  const outlines = segmentsOf(lying.flatMap(({ outline }) => outline));
  const half = DATUM_MM;
  const isFree = (x: number, y: number) =>
    isClear({ x, y, halfWidth: half + 1, halfHeight: half + 1, turnDeg: 0 }, outlines) &&
    !lying.some(({ outline }) => isInRegion(x, y, outline));
  const lower = ENDS.map((end) => {
    const x = end.map((share) => share * widthMm).find((x) => isFree(x, heightMm - half));
    return x === undefined ? [] : [closed(x - half, heightMm, x, heightMm - 1.6 * half, x + half, heightMm)];
  });
  const left = ENDS.map((end) => {
    const y = end.map((share) => share * heightMm).find((y) => isFree(half, y));
    return y === undefined ? [] : [closed(0, y - half, 1.6 * half, y, 0, y + half)];
  });
  const lines = [...lower, ...left].flat();
  return lines.length > 0 ? [{ pen: PENS.thin, title: 'edges to measure from', lines }] : [];
}

const closed = (...points: readonly number[]): Line => ({ points: new Float64Array(points), closed: true });

const lineOf = ({ points, closed }: Line): Float64Array => (closed ? lineAround(points) : points);

/** A word at the roomiest place of an outline, clear of other lines; none where it has no room. */
function inside(outline: readonly Ring[], text: string, others: readonly Float64Array[]): readonly Mark[] {
  const coarse = outline.map((ring) => coarser(ring, COARSE_MM));
  const lines = segmentsOf(coarse, others);
  const label = labeller(lines);
  const heights = TEXT_HEIGHTS_MM.filter((height) => height <= 14 && height >= 2.5);
  label.put(
    heights.map((heightMm) => textBlock([{ text, heightMm }])),
    spotsIn(coarse, lines),
  );
  return label.marks;
}

/**
 * Cuts through waste: what breaks the board down, then the way to each blank. Beside each, where the waste has room, its number;
 * the pieces say it too.
 */
export function wasteCuts(
  board: LayoutBoard,
  order: ReadonlyMap<number, number>,
  lying: readonly PieceOnBoard[],
  guide: readonly Mark[],
): Mark[] {
  const [, heightMm] = board.sizeMm;
  const cuts = [
    ...(board.breakDowns ?? []).map((line, i) => ({ line, id: `break-down-${i + 1}`, number: i + 1 })),
    ...(board.runIns ?? []).map(({ blank, line }) => ({ line, id: `run-in-${blank}`, number: order.get(blank) ?? 0 })),
  ]
    .filter(({ line }) => line.length >= 4)
    .map((cut) => ({ ...cut, points: toPage(cut.line, heightMm) }));
  const drawn = guide.flatMap(({ lines }) => lines.map(lineOf));
  const outlines = lying.flatMap(({ outline }) => outline);
  const numbers = labeller(segmentsOf(outlines, [...drawn, ...cuts.map(({ points }) => points)]));
  const isWaste = (x: number, y: number) => !lying.some(({ outline }) => isInRegion(x, y, outline));
  for (const { points, number } of cuts) {
    const block = textBlock([{ text: `${number}`, heightMm: NUMBER_MM }]);
    numbers.put(
      [block],
      besideCut(points, block).filter(({ x, y }) => isWaste(x, y) && isOnBoard(x, y, board)),
    );
  }
  const lines = cuts.map(({ points, id, number }): Mark => {
    return { pen: PENS.waste, id, title: `cut ${number}`, lines: [{ points, closed: false }] };
  });
  return [...lines, ...numbers.marks];
}

const NUMBER_MM = 5;
/** From a cut to the box of its number: half the pen, and the air that the labeller keeps. */
const OFF_CUT_MM = 2.5;

/** Places either side of a cut's first stretch, from its start on. */
function besideCut([ax, ay, bx, by]: Float64Array, { halfWidth, halfHeight }: LabelBlock): Spot[] {
  const dx = bx - ax;
  const dy = by - ay;
  const length = Math.sqrt(dx * dx + dy * dy);
  if (length === 0) return [];
  const [across, down] = [Math.abs(dy) / length, Math.abs(dx) / length];
  const off = across * halfWidth + down * halfHeight + OFF_CUT_MM;
  return [0.15, 0.3, 0.5, 0.7, 0.85].flatMap((share) =>
    [1, -1].map((side) => ({
      x: ax + dx * share - (side * dy * off) / length,
      y: ay + dy * share + (side * dx * off) / length,
      turnsDeg: [0],
      clearance: Infinity,
    })),
  );
}

const isOnBoard = (x: number, y: number, { sizeMm: [widthMm, heightMm] }: LayoutBoard): boolean =>
  x > 0 && y > 0 && x < widthMm && y < heightMm;

/** `WASTE` in each void from which neither a piece nor an offcut comes: its plug is not to be kept. */
export function plugMarks(lying: readonly PieceOnBoard[], { offcuts, sizeMm: [, heightMm] }: LayoutBoard): Mark[] {
  const used = [
    ...lying.map(({ outline }) => outline[0]),
    ...offcuts.map(({ rings }) => toPage(rings[0], heightMm)),
  ].map((ring) => [ring[0], ring[1]] as const);
  return lying.flatMap(({ outline, slits }) =>
    outline.slice(1).flatMap((hole) => {
      if (used.some(([x, y]) => isInRegion(x, y, [hole]) && clearanceAt(x, y, segmentsOf([hole])) > 0.01)) return [];
      const [left, top, right, bottom] = boxOf([hole]);
      if (Math.min(right - left, bottom - top) < 12) return [];
      const coarse = coarser(hole, COARSE_MM);
      const lines = segmentsOf([coarse], slits);
      const label = labeller(lines);
      label.put(
        WASTE_TEXTS_MM.map((height) => textBlock([{ text: 'plug: WASTE', heightMm: height }])),
        spotsIn([coarse], lines),
      );
      return label.marks;
    }),
  );
}
