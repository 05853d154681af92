import { isClear, overlap, type Segments, type Spot, type TurnedBox } from '../../drawing/fit.ts';
import type { Mark } from '../../drawing/page.ts';
import type { LabelBlock } from './label-blocks.ts';

/** Outlines are read this much coarser when room is sought; labels keep as much farther away. */
export const COARSE_MM = 0.5;
/** Least air between lettering and any line. */
const AIR_MM = 1.2;

export interface PutLabel {
  readonly block: LabelBlock;
  readonly x: number;
  readonly y: number;
}

/** Puts blocks of lettering where they touch neither a line nor a block that was put before. */
export interface Labeller {
  readonly marks: readonly Mark[];
  /** Put the first of the blocks that has a clear place, there; nothing when none has. */
  put(blocks: readonly LabelBlock[], spots: readonly Spot[]): PutLabel | undefined;
  /** Put a block where it is told, clear or not. */
  force(block: LabelBlock, x: number, y: number): PutLabel;
}

export function labeller(lines: Segments): Labeller {
  const marks: Mark[] = [];
  const taken: TurnedBox[] = [];

  function draw(block: LabelBlock, box: TurnedBox): PutLabel {
    taken.push(box);
    marks.push(...block.draw(box.x, box.y, box.turnDeg));
    return { block, x: box.x, y: box.y };
  }

  const boxOf = (block: LabelBlock, x: number, y: number, turnDeg: number): TurnedBox => ({
    x,
    y,
    turnDeg,
    halfWidth: block.halfWidth + AIR_MM + COARSE_MM,
    halfHeight: block.halfHeight + AIR_MM + COARSE_MM,
  });

  return {
    marks,
    put(blocks, spots) {
      for (const block of blocks) {
        for (const { x, y, turnsDeg, clearance } of spots) {
          if (clearance < Math.min(block.halfWidth, block.halfHeight)) continue;
          for (const turnDeg of turnsDeg) {
            const box = boxOf(block, x, y, turnDeg);
            if (taken.some((other) => overlap(box, other)) || !isClear(box, lines)) continue;
            return draw(block, box);
          }
        }
      }
      return undefined;
    },
    force: (block, x, y) => draw(block, boxOf(block, x, y, 0)),
  };
}
