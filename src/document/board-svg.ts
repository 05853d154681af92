import { pageToSvg } from '../drawing/svg.ts';
import type { OutputFile } from '../model/plan.ts';
import { revision } from '../model/revision.ts';
import { definePlugin } from '../plugin.ts';
import { boardPage } from './board/board-page.ts';
import { toldOfDrawings } from './board/crowded.ts';
import { drawnBoards } from './board/drawn-boards.ts';
import { scaleOption } from './board/scale-option.ts';

/**
 * One full-size drawing a board, as large as the board itself: for a plotter, a projector or a machine. Files are
 * `board-01.svg` and so on; groups and ids are said in the plan file's description and may be relied on.
 */
export const boardSvg = definePlugin({
  api: 1,
  stage: 'document',
  name: 'board-svg',
  summary: 'full-size drawing of each board, one SVG file a board, in millimetres',
  options: (kit) => kit.z.strictObject({ scale: scaleOption(kit) }),
  *run(plan, { scale }, { tell }) {
    const drawings = yield* drawnBoards(plan, scale, 0.7);
    const words = { plan, revision: revision(plan), scale };
    const files: OutputFile[] = [];
    const digits = Math.max(2, String(plan.boards.length).length);
    for (const drawing of drawings) {
      files.push({
        path: `board-${String(drawing.board.number).padStart(digits, '0')}.svg`,
        mediaType: 'image/svg+xml',
        body: pageToSvg(boardPage(drawing, words)),
      });
      yield 0.7 + (0.3 * files.length) / drawings.length;
    }
    toldOfDrawings(plan, drawings).forEach(tell);
    return files;
  },
});
