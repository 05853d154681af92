import { lapMm, TIMES_THICKNESS } from '../model/layer.ts';
import { zoneRegions } from '../model/zone.ts';
import { definePlugin } from '../plugin.ts';
import { roomsFor } from './pieces/pieces.ts';
import { propMm } from './pieces/props.ts';
import { seamOptions } from './pieces/seam-options.ts';
import { withoutDecks } from './pieces/zones.ts';
import { blanksOf } from './rings/blanks.ts';
import { blocksUnder } from './rings/blocks.ts';
import { nested } from './rings/discs.ts';
import { blockedLids, heartsOnShelves, keptSteep, noRings, refuseSteep, saved } from './rings/telling.ts';

/** Foam spans so many of its thicknesses: 400 mm of a 50 mm board sag some 20 mm under 20 mm of wet sand (our reckoning). */
const SPAN = 8;

/**
 * Rings of every second layer come one inside the other out of one blank, those of the layers between out of another (or
 * of every third out of three): the outline of one is the inner edge of the next wider, so that one cut serves two. A layer
 * laps the ring under it by the ground it climbs in one step (in two, for three blanks): thickness ÷ tan(slope).
 * Where a layer lies over a void like a lid wider than foam spans, blocks stand under it down to the floor (rings/blocks.ts).
 */
export const rings = definePlugin({
  api: 1,
  stage: 'split',
  name: 'rings',
  summary: 'cuts rings of several layers one inside the other out of two or three blanks',
  options: ({ z, length }) =>
    z.strictObject({
      blanks: z
        .int()
        .min(2)
        .max(3)
        .default(2)
        .describe('blanks that take turns: three lap twice as far, and save less'),
      lap: z
        .union([
          length({ least: 5 }),
          z.string().regex(TIMES_THICKNESS, { error: 'This is not a lap.\nWrite 60, 60 mm or 1.5 x thickness.' }),
        ])
        .optional()
        .describe(
          'width by which a layer bears on the ring beneath, as in hollow; not said, its height, at least 40 mm',
        ),
      span: length({ above: 0 })
        .optional()
        .describe('how wide foam may reach over a void; not said, eight times its thickness'),
      seams: seamOptions({ z, length }),
      steep: z
        .enum(['refuse', 'keep'])
        .default('refuse')
        .describe('where the slope is too steep for the lap: refuse the job, or keep the heart of that layer'),
    }),
  *run({ stack, wishes }, { blanks, lap, span, seams, steep }, context) {
    const { facts, tell } = context;
    const rooms = roomsFor(stack, facts);
    const layers = withoutDecks(stack.layers, context);
    const { kerfMm } = facts.tool;
    const nest = yield* nested(layers, {
      blanks,
      lapMm: ({ thicknessMm }) => lapMm(lap, thicknessMm),
      kerfMm,
      spanMm: ({ thicknessMm }) => span ?? SPAN * thicknessMm,
      solid: zoneRegions(facts.zones, 'solid'),
    });
    if (nest.steep.length > 0 && steep === 'refuse') refuseSteep(nest.steep, layers, blanks);
    const blocks = blocksUnder(nest.discs, nest.lids, (place) => {
      const { thicknessMm } = layers[place];
      const sizeMm = propMm(thicknessMm);
      return { sizeMm, spacingMm: sizeMm + (span ?? SPAN * thicknessMm) / Math.SQRT2 };
    });
    const made = yield* blanksOf(nest.discs, { layers, rooms, wishes, seams, blocks }, context);
    if (nest.least) tell(saved(made, layers, nest.least, kerfMm));
    else tell(noRings());
    if (nest.steep.length > 0) tell(keptSteep(nest.steep, layers, blanks));
    if (nest.shelves > 0) tell(heartsOnShelves(nest.shelves));
    if (nest.lids.length > 0) tell(blockedLids(nest.lids, blocks, layers));
    return made;
  },
});
