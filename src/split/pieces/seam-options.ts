import type { z } from 'zod';
import type { Kit } from '../../plugin.ts';

/** How seams are cut: options that every splitter which cuts seams has. */
export const seamOptions = ({ z, length }: Pick<Kit, 'z' | 'length'>) =>
  z
    .strictObject({
      style: z
        .enum(['butt', 'key', 'tongue'])
        .default('butt')
        .describe(
          'butt: straight; key: dovetails cut in the plan, laid in from above; tongue: straight, with slots for loose tongues',
        ),
      stagger: length({ least: 0 })
        .optional()
        .describe(
          'least distance of seams from those of the next layer; not said, 150 mm (a quarter of the narrowest board, if less) or a layer, whichever is more',
        ),
      clearance: length({ least: 0 })
        .optional()
        .describe('play of keys in their sockets; not said, what the cutter takes: its kerf'),
    })
    .prefault({});

export type SeamOptions = z.output<ReturnType<typeof seamOptions>>;
