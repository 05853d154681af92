import type { Random } from '../../geometry/random.ts';
import { snapped, snappedDown, snappedUp } from '../../geometry/snap.ts';
import { type Field, lift, put } from './field.ts';

/** Items whose hulls are among this share of the largest are changed for each other. */
const LARGE = 0.6;
const TRIES = 40;

/** Change two large items of different shapes for each other, middle for middle, wherever they stand. Nothing is noted. */
export function swapTwo(f: Field, random: Random): void {
  const hull = (item: number) => f.shapes[f.items[item]].hullAreaMm2;
  const loose = f.items.flatMap((_, item) => (f.isFixed[item] === 0 && f.on[item] >= 0 ? [item] : []));
  const large = loose.sort((a, b) => hull(b) - hull(a) || a - b).slice(0, Math.ceil(LARGE * loose.length));
  for (let i = 0; i < TRIES; i++) {
    const a = large[Math.floor(random() * large.length)];
    const b = large[Math.floor(random() * large.length)];
    if (a === undefined || f.items[a] === f.items[b]) continue;
    const [atA, atB] = [a, b].map((item) => {
      const p = f.postures[item];
      return { board: f.on[item], x: f.x[item] + (p.left + p.right) / 2, y: f.y[item] + (p.low + p.high) / 2 };
    });
    if (!fits(f, a, atB.board) || !fits(f, b, atA.board)) continue;
    stand(f, a, atB.board, atB.x, atB.y);
    stand(f, b, atA.board, atA.x, atA.y);
    return;
  }
}

function fits(f: Field, item: number, board: number): boolean {
  const p = f.postures[item];
  const b = f.boards[board];
  return p.right - p.left <= b.maxX - b.minX && p.high - p.low <= b.maxY - b.minY;
}

/** Stand an item with the middle of its box at (x, y), or as near as the board lets it. */
function stand(f: Field, item: number, board: number, x: number, y: number): void {
  const p = f.postures[item];
  const b = f.boards[board];
  lift(f, item);
  const atX = Math.max(
    snappedUp(b.minX - p.left),
    Math.min(snappedDown(b.maxX - p.right), snapped(x - (p.left + p.right) / 2)),
  );
  const atY = Math.max(
    snappedUp(b.minY - p.low),
    Math.min(snappedDown(b.maxY - p.high), snapped(y - (p.low + p.high) / 2)),
  );
  put(f, item, board, p.pose, atX, atY);
}
