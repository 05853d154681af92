import type { Point } from './ring.ts';
import { type Round, WHY } from './stations.ts';

/** A stretch between two stations of a round along which both ends have their way to go. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly foot: number;
  readonly top: number;
  /** Where its foot begins. */
  readonly at: Point;
}

/** How many times as fast as the other one end must move; Infinity when one rests. */
export const paceOf = ({ foot, top }: Stretch): number => {
  const slower = Math.min(foot, top);
  return slower > 0 ? Math.max(foot, top) / slower : Infinity;
};

/**
 * Divide the leaning part of a round into stretches along which the faster end moves `least` or more: pace is felt over
 * a length of edge, not from one corner to the next. What is left at an end belongs to the stretch before it.
 */
export function stretchesOf({ stations, why }: Round, least: number): Stretch[] {
  const stretches: Stretch[] = [];
  const count = why.length;
  let open: { from: number; foot: number; top: number } | null = null;
  const close = (to: number, isWhole: boolean) => {
    if (open === null || open.from === to) return;
    const { from, foot, top } = open;
    const last = stretches[stretches.length - 1];
    if (!isWhole && last?.to === from) {
      stretches[stretches.length - 1] = { ...last, to, foot: last.foot + foot, top: last.top + top };
    } else stretches.push({ from, to, foot, top, at: [stations[4 * from], stations[4 * from + 1]] });
    open = null;
  };
  for (let k = 0; k < count; k++) {
    const isLeaning = why[k] === WHY.leans;
    if (!isLeaning) {
      close(k - 1, false);
      open = null;
      continue;
    }
    open ??= { from: k, foot: 0, top: 0 };
    // The edge from the last station to the first is left to the stretch that the first begins.
    if (k + 1 === count || why[k + 1] !== WHY.leans) {
      close(k, false);
      open = null;
      continue;
    }
    open.foot += apart(stations, k, 0);
    open.top += apart(stations, k, 2);
    if (Math.max(open.foot, open.top) >= least) close(k + 1, true);
  }
  return stretches;
}

/** How far one end moves from a station to the next: 0 for the foot, 2 for the top. */
function apart(stations: Float64Array, k: number, end: 0 | 2): number {
  const dx = stations[4 * k + 4 + end] - stations[4 * k + end];
  const dy = stations[4 * k + 5 + end] - stations[4 * k + 1 + end];
  return Math.sqrt(dx * dx + dy * dy);
}
