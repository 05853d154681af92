import { coarser } from '../../drawing/fit.ts';
import type { Mark } from '../../drawing/page.ts';
import { type Box, boxOf } from '../../geometry/ring.ts';
import { type PageGrid, type PaperFrame, pageGrid } from './grid.ts';
import { type Pattern, strokesOf, tracedMarks } from './pattern.ts';

/** Turns that are tried, and parts of a page by which the grid is moved. */
const TURN_STEP_DEG = 15;
const SHIFTS = 4;
/** Tries read outlines so coarsely. */
const COARSE_MM = 2;
/** How many of the best tries are counted with everything that is drawn. */
const MOST_COUNTED = 3;

/**
 * The grid on paper that lies the way with fewer pages; on the first frame when all need as many. `turn`: also turned and moved,
 * whole, for the fewest pages; tried on coarse outlines (12 turns × 16 places a frame), counted exactly.
 */
export function fewestPages(pattern: Pattern, frames: readonly PaperFrame[], turn: boolean): PageGrid {
  const marks = tracedMarks(pattern);
  const strokes = strokesOf(marks);
  const plain = frames.map((frame) => pageGrid(frame, pattern.box, strokes));
  const turned = turn ? turnedGrids(marks, frames) : [];
  return [...plain, ...turned].reduce((best, grid) => (grid.count < best.count ? grid : best));
}

function turnedGrids(marks: readonly Mark[], frames: readonly PaperFrame[]): PageGrid[] {
  const outlines = marks
    .filter(({ id }) => id?.startsWith('cut-'))
    .map((mark) => ({
      ...mark,
      lines: mark.lines.map(({ points, closed }) => ({ points: closed ? coarser(points, COARSE_MM) : points, closed })),
    }));
  // Nothing is cut: there is no box to move, and a turn saves nothing.
  if (outlines.every(({ lines }) => lines.length === 0)) return [];
  const tries: {
    readonly frame: PaperFrame;
    readonly turnDeg: number;
    readonly shift: readonly [number, number];
    readonly count: number;
  }[] = [];
  for (let turnDeg = 0; turnDeg < 180; turnDeg += TURN_STEP_DEG) {
    const strokes = strokesOf(outlines, turnDeg);
    const box = boxOf([strokes]);
    for (const frame of frames) {
      for (let k = 0; k < SHIFTS * SHIFTS; k++) {
        const shift = [(k % SHIFTS) / SHIFTS, Math.floor(k / SHIFTS) / SHIFTS] as const;
        const { count } = pageGrid(frame, movedBox(box, frame, shift), strokes, turnDeg);
        tries.push({ frame, turnDeg, shift, count });
      }
    }
  }
  tries.sort((a, b) => a.count - b.count);
  return tries.slice(0, MOST_COUNTED).map(({ frame, turnDeg, shift }) => {
    const strokes = strokesOf(marks, turnDeg);
    return pageGrid(frame, movedBox(boxOf([strokes]), frame, shift), strokes, turnDeg);
  });
}

/** The box begun earlier by shares of a page, so that the grid lies otherwise over it; with room for half a pen. */
function movedBox([left, top, right, bottom]: Box, frame: PaperFrame, [across, down]: readonly [number, number]): Box {
  const stepX = frame.viewWidthMm - frame.overlapMm;
  const stepY = frame.viewHeightMm - frame.overlapMm;
  return [left - 1 - across * stepX, top - 1 - down * stepY, right + 1, bottom + 1];
}
