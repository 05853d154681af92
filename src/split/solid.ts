import { definePlugin } from '../plugin.ts';
import { piecesOf } from './pieces/pieces.ts';

/** Every layer whole, divided by seams where no board holds it. */
export const solid = definePlugin({
  api: 1,
  stage: 'split',
  name: 'solid',
  summary: 'keeps every layer whole: the most foam, the least thought',
  options: ({ z }) => z.strictObject({}),
  run: (input, _options, context) => piecesOf(input, context, () => []),
});
