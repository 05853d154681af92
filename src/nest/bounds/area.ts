import type { BoundBoard, BoundCase, BoundItem } from './terms.ts';
import { ceiling, mayLie } from './terms.ts';

/**
 * The least number of boards whose areas hold what must lie on bought boards: the largest boards first, as far as their counts
 * go. Infinity where all of them do not hold it.
 */
export function areaBound(given: BoundCase): number {
  return boardsFor(mustBuyMm2(given), given.boards);
}

/**
 * The area that bought boards must hold: that of all items less what owned foam can take of it. A room takes no more than its
 * area, and no more than the items together that it may hold.
 */
export function mustBuyMm2({ items, owned }: BoundCase): number {
  const taken = takenMm2(items);
  let rest = taken.reduce((sum, area) => sum + area, 0);
  for (const room of owned) {
    const fitting = items.reduce((sum, item, i) => (mayLie(item, room) ? sum + taken[i] : sum), 0);
    rest -= Math.min(room.areaMm2, fitting);
  }
  // What lies in no owned foam at all must be bought, however much of it there is.
  const homeless = items.reduce((sum, item, i) => (owned.some((room) => mayLie(item, room)) ? sum : sum + taken[i]), 0);
  return Math.max(0, rest, homeless);
}

/** What each item takes of a board: its area, and its holes where no other item can lie in them. */
export function takenMm2(items: readonly BoundItem[]): number[] {
  const small = [...items].sort((a, b) => a.areaMm2 - b.areaMm2);
  const narrow = [...items].sort((a, b) => a.inradiusMm - b.inradiusMm);
  const other = (order: readonly BoundItem[], item: BoundItem) => (order[0] === item ? order[1] : order[0]);
  return items.map((item) => {
    const [smallest, narrowest] = [other(small, item), other(narrow, item)];
    const empty = item.holes.filter(
      ({ areaMm2, inradiusMm }) =>
        !smallest || areaMm2 < smallest.areaMm2 || (narrowest !== undefined && inradiusMm < narrowest.inradiusMm),
    );
    return item.areaMm2 + empty.reduce((sum, hole) => sum + hole.areaMm2, 0);
  });
}

/** The least number of boards, largest first, whose areas come to so much; Infinity when they never do. */
function boardsFor(areaMm2: number, boards: readonly BoundBoard[]): number {
  let rest = areaMm2;
  let number = 0;
  for (const board of [...boards].sort((a, b) => b.areaMm2 - a.areaMm2)) {
    const needed = Math.max(0, ceiling(rest / board.areaMm2));
    const had = Math.min(needed, board.count ?? Infinity);
    number += had;
    rest -= had * board.areaMm2;
    if (had === needed) return number;
  }
  return rest > 0 ? Infinity : number;
}
