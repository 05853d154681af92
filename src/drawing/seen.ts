import type { Box } from '../geometry/ring.ts';
import { boxOfLine, type Line, type Mark } from './page.ts';

/**
 * What of some marks is seen through a box, its edges included: clipped by our own arithmetic, so that a page holds
 * only its own strokes. (70 pages of a 2440 × 1220 mm board: 19 times faster and 41 times smaller than clip paths over
 * the whole outline.) Marks that are not seen at all fall away.
 */
export function seenThrough(marks: readonly Mark[], view: Box): Mark[] {
  const seen: Mark[] = [];
  for (const mark of marks) {
    const lines = mark.lines.flatMap((line) => clipLine(line, view));
    if (lines.length > 0) seen.push({ ...mark, lines });
  }
  return seen;
}

/** The runs of a line inside a box. A line wholly inside comes back as it is, closed if it was. */
export function clipLine(line: Line, view: Box): Line[] {
  const [minX, minY, maxX, maxY] = view;
  const [left, top, right, bottom] = boxOfLine(line);
  if (left > maxX || right < minX || top > maxY || bottom < minY) return [];
  if (left >= minX && right <= maxX && top >= minY && bottom <= maxY) return [line];

  const { points, closed } = line;
  const runs: number[][] = [];
  let run: number[] = [];
  const count = points.length / 2;
  for (let i = 0; i < (closed ? count : count - 1); i++) {
    const ax = points[2 * i];
    const ay = points[2 * i + 1];
    const next = i + 1 === count ? 0 : 2 * i + 2;
    const bx = points[next];
    const by = points[next + 1];
    const kept = clipSegment(ax, ay, bx, by, view);
    if (!kept) {
      run = [];
      continue;
    }
    const [t0, t1] = kept;
    if (t0 > 0 || run.length === 0) {
      run = [ax + t0 * (bx - ax), ay + t0 * (by - ay)];
      runs.push(run);
    }
    run.push(t1 < 1 ? ax + t1 * (bx - ax) : bx, t1 < 1 ? ay + t1 * (by - ay) : by);
    if (t1 < 1) run = [];
  }
  return runs.map((run) => ({ points: new Float64Array(run), closed: false }));
}

/** The stretch t0…t1 of the segment a–b inside a box (Liang and Barsky 1984), or null. A touch counts. */
export function clipSegment(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  box: Box,
): readonly [number, number] | null {
  let t0 = 0;
  let t1 = 1;
  const dx = bx - ax;
  const dy = by - ay;
  for (let side = 0; side < 4; side++) {
    const along = side === 0 ? -dx : side === 1 ? dx : side === 2 ? -dy : dy;
    const room = side === 0 ? ax - box[0] : side === 1 ? box[2] - ax : side === 2 ? ay - box[1] : box[3] - ay;
    if (along === 0) {
      if (room < 0) return null;
    } else {
      const t = room / along;
      if (along < 0) {
        if (t > t1) return null;
        if (t > t0) t0 = t;
      } else {
        if (t < t0) return null;
        if (t < t1) t1 = t;
      }
    }
  }
  return [t0, t1];
}
