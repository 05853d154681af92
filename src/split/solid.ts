import { definePlugin } from '../plugin.ts';
import { piecesOf } from './pieces/pieces.ts';
import { seamOptions } from './pieces/seam-options.ts';

/** Every layer whole, divided by seams where no board holds it. */
export const solid = definePlugin({
  api: 1,
  stage: 'split',
  name: 'solid',
  summary: 'keeps every layer whole: the most foam, the least thought',
  options: ({ z, length }) => z.strictObject({ seams: seamOptions({ z, length }) }),
  run: (input, { seams }, context) => piecesOf(input, context, () => ({ voids: [], kept: undefined }), seams),
});
