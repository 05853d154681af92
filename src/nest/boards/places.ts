import { turn } from '../../geometry/exact-math.ts';
import { extents } from '../../geometry/hull.ts';
import { boxOf } from '../../geometry/ring.ts';
import { type PieceRule, type Tool, type Turns, throatOf } from '../../model/facts.ts';
import type { Stock, StockBoard } from '../../model/stock.ts';
import { type Shape, WHOLE_TURN } from '../engine/problem.ts';
import { type Begun, nameOf } from './held.ts';
import { inStrips, type Usable, usableOfBoard, usableOfOffcut } from './usable.ts';

/** What the job says of how pieces lie. */
export interface Said {
  readonly stock: Stock;
  readonly tool: Tool;
  readonly gapMm: number;
  readonly turns: Turns;
  readonly pieces: readonly PieceRule[];
  readonly begun: readonly Begun[];
}

/** A kind of board that can be bought; its count less those that are begun. */
export type Kind = Usable & { readonly board: StockBoard };

/** What is had already: a saved offcut, or a board begun, which keeps its number. */
export type Owned = Usable & Pick<Begun, 'of'> & { readonly number: number | null };

/** The boards of a thickness that can be bought. */
export function kindsOf({ stock: { boards }, begun }: Said, thicknessMm: number): Kind[] {
  return boards
    .filter((board) => board.thicknessMm === thicknessMm)
    .map((board) => {
      const used = begun.filter(({ of }) => 'board' in of && of.board === board).length;
      const count = board.count === null ? null : Math.max(0, board.count - used);
      return { ...usableOfBoard(board), board: { ...board, count } };
    })
    .filter(({ container }) => container.areaMm2 > 0);
}

/** What is had of a thickness, in the order in which it is used up: boards begun, then offcuts, the smallest first. */
export function ownedOf({ stock: { offcuts }, begun }: Said, thicknessMm: number): Owned[] {
  const started = begun
    .filter(({ blanks }) => blanks[0].blank.pieces[0].thicknessMm === thicknessMm)
    .map(
      ({ of, number }): Owned => ({
        ...('board' in of ? usableOfBoard(of.board) : usableOfOffcut(of.offcut)),
        of,
        number,
      }),
    );
  const names = new Set(begun.map(nameOf));
  // What fits narrowly is used up before what could take more.
  const kept = offcuts
    .filter((offcut) => offcut.thicknessMm === thicknessMm && !names.has(offcut.name))
    .map((offcut): Owned => ({ ...usableOfOffcut(offcut), of: { offcut }, number: null }))
    .filter(({ container }) => container.areaMm2 > 0)
    .sort((a, b) => a.container.areaMm2 - b.container.areaMm2 || byText(nameOf(a), nameOf(b)));
  return [...started, ...kept];
}

/** Whether every board and offcut of a thickness is alike on both faces, so that a piece may be turned over. */
export function isFaceless({ boards, offcuts }: Stock, thicknessMm: number): boolean {
  const faceless = boards.filter(({ faced }) => !faced).map(({ name }) => name);
  return (
    boards.every(({ faced, ...board }) => board.thicknessMm !== thicknessMm || !faced) &&
    offcuts.every((offcut) => offcut.thicknessMm !== thicknessMm || faceless.includes(offcut.material))
  );
}

/** Boards too deep for the bow, in strips between straight cuts, if every shape lies in one; else as they are. */
export function brokenDown(kinds: readonly Kind[], shapes: readonly Shape[], { tool }: Said): readonly Kind[] {
  const throatMm = throatOf(tool);
  if (throatMm === null) return kinds;
  const strips = kinds.map((place) => ({ ...place, ...inStrips(place, throatMm, tool.kerfMm) }));
  const boxes = strips.flatMap(({ regions }) => regions.map((region) => boxOf(region)));
  return shapes.every((shape) => boxes.some((box) => fitsBox(shape, box))) ? strips : kinds;
}

/** Whether a shape lies in a box in one of the poses to try. */
export function fitsBox({ hull, poses }: Shape, [minX, minY, maxX, maxY]: readonly number[]): boolean {
  return poses.some((pose) => {
    // Mirrored and then turned it is as wide and high as turned the other way.
    const { cos, sin } = turn(((pose >= WHOLE_TURN ? 1 : -1) * (pose % WHOLE_TURN)) / 100);
    const [least, most, low, high] = extents(hull, cos, sin);
    return most - least <= maxX - minX + ROUNDING_MM && high - low <= maxY - minY + ROUNDING_MM;
  });
}

/** What sums of millimetres lose. */
const ROUNDING_MM = 1e-9;

/** Names in an order that no locale decides. */
export const byText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
