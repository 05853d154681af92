import type { BoardDrawing } from '../../src/document/board/draw-board.ts';
import type { Line, Mark } from '../../src/drawing/page.ts';

/** Cells of the table in which neighbours are looked up; no two strokes that far apart can touch. */
const CELL_MM = 6;
/** Least air between a stroke of lettering and a line or other lettering. */
const AIR_MM = 0.3;
/** Points along strokes are so far apart. */
const STEP_MM = 1.5;

/** What touches what on a board: lettering with lines, and lettering with lettering. */
export const labelFaults = ({ groups }: BoardDrawing): string[] => faultsOfMarks(groups.flatMap(({ marks }) => marks));

/** The same of any marks. */
export function faultsOfMarks(marks: readonly Mark[]): string[] {
  const [xs, ys, halves, owners]: number[][] = [[], [], [], []];
  marks.forEach(({ lines, pen, text }, i) => {
    for (const line of lines) {
      walk(line, (x, y) => {
        xs.push(x);
        ys.push(y);
        halves.push(pen.widthMm / 2);
        // Lines count as one.
        owners.push(text ? i : -1);
      });
    }
  });
  const columnOf = (x: number) => Math.floor(x / CELL_MM) + 2;
  const columns = Math.max(...[0].concat(xs.length > 0 ? [columnOf(xs.reduce((a, b) => Math.max(a, b), 0))] : [])) + 3;
  const cells = new Map<number, number[]>();
  const cellOf = (i: number) => (Math.floor(ys[i] / CELL_MM) + 2) * columns + columnOf(xs[i]);
  for (let i = 0; i < xs.length; i++) {
    const list = cells.get(cellOf(i));
    if (list) list.push(i);
    else cells.set(cellOf(i), [i]);
  }
  const faults = new Set<string>();
  for (const [cell, inside] of cells) {
    for (const near of [cell, cell + 1, cell + columns - 1, cell + columns, cell + columns + 1]) {
      const others = cells.get(near);
      if (!others) continue;
      for (const i of inside) {
        for (const k of others) {
          if (owners[i] === owners[k]) continue;
          const [dx, dy, least] = [xs[i] - xs[k], ys[i] - ys[k], halves[i] + halves[k] + AIR_MM];
          if (dx * dx + dy * dy < least * least) faults.add(`${named(owners[i])} / ${named(owners[k])}`);
        }
      }
    }
  }
  function named(owner: number): string {
    return owner < 0 ? 'a line' : (marks[owner].text?.text ?? '');
  }
  return [...faults];
}

function walk({ points, closed }: Line, visit: (x: number, y: number) => void) {
  const count = points.length / 2;
  for (let i = 0; i < (closed ? count : count - 1); i++) {
    const next = ((i + 1) % count) * 2;
    const [ax, ay, bx, by] = [points[2 * i], points[2 * i + 1], points[next], points[next + 1]];
    const steps = Math.max(1, Math.ceil(Math.hypot(bx - ax, by - ay) / STEP_MM));
    for (let k = 0; k <= steps; k++) visit(ax + ((bx - ax) * k) / steps, ay + ((by - ay) * k) / steps);
  }
}
