import type { StockBoard } from '../../model/stock.ts';
import type { Container, Room } from './room.ts';

/** A kind of board that can be bought. */
export interface Kind {
  readonly stock: StockBoard;
  readonly container: Container;
  /** What one costs when boards are compared: its price, or 1 where a price is missing: then only the number counts. */
  readonly cost: number;
  readonly grossMm2: number;
}

/** Where a shape stands, in plain numbers. Its own origin comes to (x, y). */
export interface Stood {
  readonly item: number;
  readonly turnDeg: number;
  readonly x: number;
  readonly y: number;
}

/** A board in use. `stock` is the number of its kind, or −1 − the number of the offcut. */
export interface Packed {
  readonly stock: number;
  readonly stood: readonly Stood[];
}

/** Boards with what stands on them, and the items that found no place. Plain data, for workers. */
export interface Packing {
  readonly boards: readonly Packed[];
  readonly left: readonly number[];
  /** What it costs, the weightiest first; less is better. */
  readonly rank: readonly number[];
}

/**
 * The rank of some rooms: items without a place; money; boards bought; what they measure; offcuts used; and last how evenly
 * the boards are filled, since uneven is better: a board that is nearly empty is nearly saved.
 */
export function rankOf(rooms: readonly Room[], left: number, kinds: readonly Kind[]): number[] {
  const bought = kinds.map((_, kind) => rooms.filter((room) => room.stock === kind).length);
  const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
  const fills = rooms.map((room) => 1 - room.freeMm2 / room.container.areaMm2);
  return [
    left,
    sum(bought.map((count, kind) => count * kinds[kind].cost)),
    sum(bought),
    sum(bought.map((count, kind) => count * kinds[kind].grossMm2)),
    sum(rooms.map((room) => (room.stock < 0 ? room.container.areaMm2 : 0))),
    -sum(fills.map((fill) => fill * fill)),
  ];
}

/** Negative when the first rank is better, positive when the second is, 0 for a tie. */
export function compareRanks(a: readonly number[], b: readonly number[]): number {
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return a[i] - b[i];
  return 0;
}

export function packingOf(rooms: readonly Room[], left: readonly number[], kinds: readonly Kind[]): Packing {
  const boards = rooms.map(({ stock, standing }) => ({
    stock,
    stood: standing.map(({ item, posture, x, y }) => ({ item, turnDeg: posture.turnDeg, x, y })),
  }));
  return { boards, left, rank: rankOf(rooms, left.length, kinds) };
}
