import { pageToSvg } from '../drawing/svg.ts';
import type { OutputFile } from '../model/plan.ts';
import { definePlugin } from '../plugin.ts';
import { crowdedNote } from './board/crowded.ts';
import { type BoardDrawing, drawBoard } from './board/draw-board.ts';

/**
 * One full-size drawing a board, as large as the board itself: for a plotter, a projector or a machine. Files are
 * `board-01.svg` and so on; groups and ids are said in the plan file's description and may be relied on.
 */
export const boardSvg = definePlugin({
  api: 1,
  stage: 'document',
  name: 'board-svg',
  summary: 'full-size drawing of each board, one SVG file a board, in millimetres',
  options: ({ z }) => z.strictObject({}),
  *run(plan, _options, { tell }) {
    const files: OutputFile[] = [];
    const drawings: BoardDrawing[] = [];
    const digits = Math.max(2, String(plan.boards.length).length);
    for (const [i, board] of plan.boards.entries()) {
      const drawing = drawBoard(plan, board, { blocks: true });
      drawings.push(drawing);
      files.push({
        path: `board-${String(board.number).padStart(digits, '0')}.svg`,
        mediaType: 'image/svg+xml',
        body: pageToSvg(drawing.page),
      });
      yield (i + 1) / plan.boards.length;
    }
    const crowd = crowdedNote(drawings);
    if (crowd) tell(crowd);
    return files;
  },
});
