import { boxOf } from '../../geometry/ring.ts';
import type { Front } from '../../model/facts.ts';
import type { Piece } from '../../model/piece.ts';
import { turnedRing } from './plan-view.ts';

/**
 * In which order the pieces of a layer go down: from the back, left to right as seen from the front, and each that can beside one
 * that lies already, so that nobody reaches over and every joint is closed against a piece that stays (common practice, no source).
 */
export function settingOrder(pieces: readonly Piece[], { side }: Front): Piece[] {
  const places = new Map(
    pieces.map((piece) => {
      const [left, , , away] = boxOf([turnedRing(piece.region[0], side)]);
      return [piece.name, { left, away }];
    }),
  );
  const isBefore = (a: Piece, b: Piece) => {
    const [p, q] = [places.get(a.name), places.get(b.name)];
    if (!p || !q || p.away === q.away) return (p?.left ?? 0) < (q?.left ?? 0);
    return p.away > q.away;
  };
  const waiting = new Set(pieces);
  const order: Piece[] = [];
  const laid = new Set<string>();
  while (waiting.size > 0) {
    const beside = [...waiting].filter(({ joints }) => joints.some(({ neighbour }) => laid.has(neighbour)));
    const next = (beside.length > 0 ? beside : [...waiting]).reduce((best, each) =>
      isBefore(each, best) ? each : best,
    );
    waiting.delete(next);
    order.push(next);
    laid.add(next.name);
  }
  return order;
}
