import { isClear, type Segments, segmentsOf, type TurnedBox } from '../../drawing/fit.ts';
import { type FreeRoom, freeRoom } from '../../drawing/free-room.ts';
import { frame, type Line, type Mark, openLine, toPage } from '../../drawing/page.ts';
import { PENS } from '../../drawing/pen.ts';
import { length } from '../../geometry/exact-math.ts';
import { nearestOn, type Point } from '../../geometry/ring.ts';
import type { LayoutBoard } from '../../model/layout.ts';
import { type Row, textBlock } from './label-blocks.ts';
import { circleAt, inwardAt, type PieceOnBoard } from './on-board.ts';

export interface Outside {
  readonly rows: readonly Row[];
  /** The roomiest point of the piece: room is looked for near it. */
  readonly anchor: Point;
  /** What is drawn in the piece; its outline aside. */
  readonly inside: readonly Mark[];
}

export interface Surroundings {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly board: LayoutBoard;
  readonly lying: readonly PieceOnBoard[];
  readonly drawn: readonly Mark[];
}

interface Led {
  readonly marks: readonly Mark[];
  /** Rows that found no room. */
  readonly crowded: readonly string[];
}

/** How fine room is looked for in the waste, and the air around what stands there. */
const CELL_MM = 4;
const AIR_MM = 3;
/** Places that a leader tries, and how far from its piece it still reads as that piece's. */
const MOST_PLACES = 40;
const MOST_REACH_MM = 400;

/** What of a board is free: neither piece nor drawn on. */
export function wasteOf({ widthMm, heightMm, board, lying, drawn }: Surroundings): FreeRoom {
  const room = freeRoom(widthMm, heightMm, CELL_MM);
  for (const { outline } of lying) room.takeRegion(outline);
  for (const { lines } of drawn) room.takeLines(lines);
  if (board.rings) {
    // What the outline of a saved offcut leaves out of its box is not foam.
    const box = frame(0, 0, widthMm, heightMm).points;
    room.takeRegion([box, ...board.rings.map((ring) => toPage(ring, heightMm))]);
  }
  return room;
}

/** Closed and open lines of marks. */
const linesOf = (marks: readonly Mark[]): [Float64Array[], Float64Array[]] => {
  const lines = marks.flatMap((mark) => [...mark.lines]);
  const points = (closed: boolean) => lines.filter((line) => line.closed === closed).map((line) => line.points);
  return [points(true), points(false)];
};

/** Put what has no room in its piece into the waste near by, with a line that ends in the piece on a dot. */
export function leadersOut(all: readonly Outside[], around: Surroundings): Led[] {
  if (all.every(({ rows }) => rows.length === 0)) return all.map(() => ({ marks: [], crowded: [] }));
  const room = wasteOf(around);
  const outlines = around.lying.map(({ outline }) => segmentsOf(outline));
  const drawn = [segmentsOf(...linesOf(around.drawn))];
  return all.map(({ rows, anchor, inside }, i): Led => {
    if (rows.length === 0) return { marks: [], crowded: [] };
    const block = textBlock(rows);
    const [wide, high] = [2 * (block.halfWidth + AIR_MM), 2 * (block.halfHeight + AIR_MM)];
    const others = [...outlines.filter((_, k) => k !== i), segmentsOf(...linesOf(inside)), ...drawn];
    for (const [left, top] of room.near(wide, high, anchor[0], anchor[1], MOST_PLACES)) {
      const [x, y] = [left + wide / 2, top + high / 2];
      const end = justInside(x, y, around.lying[i]);
      const leader = leaderFrom({ x, y, halfWidth: wide / 2, halfHeight: high / 2, turnDeg: 0 }, end);
      if (lengthOf(leader) > MOST_REACH_MM || others.some((segments) => meets(leader, segments))) continue;
      room.takeBox([left, top, left + wide, top + high]);
      room.takeLines([leader]);
      drawn.push(segmentsOf([frame(left, top, left + wide, top + high).points], [leader.points]));
      const lines = [leader, circleAt(end, DOT_MM)];
      const title = `leader to ${rows[0].text}`;
      return { marks: [{ pen: PENS.thin, title, lines }, ...block.draw(x, y, 0)], crowded: [] };
    }
    return { marks: [], crowded: rows.map(({ text }) => `"${text}"`) };
  });
}

const DOT_MM = 0.8;
/** How far inside the outline a leader ends: short of marks that run along it. */
const INSIDE_MM = 2.5;

/** A point just inside a piece, by the point of its outline nearest to another one. */
function justInside(x: number, y: number, { outline }: PieceOnBoard): Point {
  const [edgeX, edgeY] = nearestOn([outline[0]], x, y);
  const [nx, ny] = inwardAt(edgeX, edgeY, outline);
  return [edgeX + nx * INSIDE_MM, edgeY + ny * INSIDE_MM];
}

/** From the middle of the nearest side of a box to a point. */
function leaderFrom({ x, y, halfWidth, halfHeight }: TurnedBox, [px, py]: Point): Line {
  const isBeside = Math.abs(px - x) - halfWidth > Math.abs(py - y) - halfHeight;
  const from = isBeside
    ? [x + (px > x ? 1 : -1) * (halfWidth - AIR_MM / 2), y]
    : [x, y + (py > y ? 1 : -1) * (halfHeight - AIR_MM / 2)];
  return openLine(from[0], from[1], px, py);
}

const lengthOf = ({ points: [ax, ay, bx, by] }: Line): number => length(bx - ax, by - ay);

/** Whether a leader meets segments: it is a box of no width along its way. */
function meets(leader: Line, segments: Segments): boolean {
  const [ax, ay, bx, by] = leader.points;
  const steps = Math.max(1, Math.ceil(lengthOf(leader) / 4));
  for (let k = 0; k <= steps; k++) {
    const t = k / steps;
    const box = { x: ax + (bx - ax) * t, y: ay + (by - ay) * t, halfWidth: 2.2, halfHeight: 2.2, turnDeg: 0 };
    if (!isClear(box, segments)) return true;
  }
  return false;
}
