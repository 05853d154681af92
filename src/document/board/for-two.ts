import { boxOf } from '../../geometry/ring.ts';
import type { Facts } from '../../model/facts.ts';
import type { Piece } from '../../model/piece.ts';

/** One way longer than so many times what is too large both ways: it bends and catches the wind. */
const TIMES_ONE_WAY = 1.5;

/**
 * Whether two carry a piece: its box is larger both ways than the job's rule says, or one way than half as much again (common
 * practice, no source), or it is heavier than one may carry.
 */
export function isForTwo({ region }: Piece, massKg: number, { carry, work }: Facts): boolean {
  const [minX, minY, maxX, maxY] = boxOf(region);
  const [long, short] = [Math.max(maxX - minX, maxY - minY), Math.min(maxX - minX, maxY - minY)];
  const mostMm = work.rules.twoPersonMm.value;
  return short > mostMm || long > TIMES_ONE_WAY * mostMm || massKg > (carry.massKg ?? Infinity);
}
