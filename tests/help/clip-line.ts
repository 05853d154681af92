import { boxOfLine, type Line } from '../../src/drawing/page.ts';
import { clipSegment } from '../../src/drawing/seen.ts';
import type { Box } from '../../src/geometry/ring.ts';

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
