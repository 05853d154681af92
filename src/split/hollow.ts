import { usualLapMm } from '../model/layer.ts';
import { definePlugin } from '../plugin.ts';
import { voidsUnder } from './hollow/voids.ts';
import { piecesOf } from './pieces/pieces.ts';

/**
 * Layers hollow: each keeps what is seen and what the next one bears on (hollow/voids.ts), and is divided by seams where no
 * board holds it. The layer on top has no void.
 */
export const hollow = definePlugin({
  api: 1,
  stage: 'split',
  name: 'hollow',
  summary: 'leaves out of each layer what nobody sees and nothing bears on',
  options: ({ z, length }) =>
    z.strictObject({
      lap: length({ least: 5 })
        .optional()
        .describe('width by which a layer bears on the one beneath; not said, its height, at least 40 mm'),
      leastVoid: length({ above: 0 }).prefault('200 mm').describe('narrowest void that is worth the cut'),
    }),
  run: (input, { lap, leastVoid }, context) =>
    piecesOf(input, context, (above, below) => {
      const lapMm = lap ?? usualLapMm(above.layer.thicknessMm);
      return voidsUnder(above, below, { lapMm, leastVoidMm: leastVoid });
    }),
});
