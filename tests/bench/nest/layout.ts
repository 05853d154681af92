import { turnDegOf } from '../../../src/nest/engine/engine.ts';
import type { Stood } from '../../../src/nest/engine/problem.ts';
import type { Instance, Prepared } from './instance.ts';

/** Where a copy of an item stands: turned counter-clockwise about the item's origin, which then comes to (x, y). */
export interface PlacedCopy {
  readonly id: number | string;
  readonly copy: number;
  readonly board: number;
  readonly x: number;
  readonly y: number;
  readonly turn: number;
}

export interface WrittenLayout {
  readonly name: string;
  readonly placed: readonly PlacedCopy[];
}

/** A layout in the file's unit, boards from 0. */
export function written(
  instance: Instance,
  { perUnit, of }: Prepared,
  boards: readonly (readonly Stood[])[],
): WrittenLayout {
  const placed = boards.flatMap((stood, board) =>
    stood.map(({ item, pose, x, y }) => ({
      id: instance.pieces[of[item].piece].id,
      copy: of[item].copy,
      board,
      x: shortest(x, perUnit),
      y: shortest(y, perUnit),
      turn: turnDegOf(pose),
    })),
  );
  return { name: instance.name, placed };
}

/** Positions are whole thousandths of the engine's unit: written with no more digits than that. */
const shortest = (v: number, perUnit: number): number => Math.round(v * 1000) / (1000 * perUnit);
