import type { z } from 'zod';
import { SIDES, TOOLS } from '../model/facts.ts';
import { LONGEST_BOARD_MM, THINNEST_BOARD_MM } from '../model/stock.ts';
import type { Kit } from '../plugin.ts';
import { UNITS } from '../units.ts';
import { blockSchema, boardKeys, densitySchema, MOST_MONEY } from './goods.ts';
import { fileName } from './kit.ts';
import { piecesSchema } from './pieces.ts';
import { text } from './text.ts';
import { doorsSchema, liftSchema, stairSchema, vanSchema } from './way.ts';
import { wireKeys } from './wire.ts';
import { crewSchema, floorSchema, pinsSchema, pricesSchema, readySchema, rulesSchema } from './work.ts';
import { zoneSchema } from './zones.ts';

/** The keys that hold steps: of which stage, one step or a list, whether `best` may choose it, and what stands there when nothing is said. */
export const STEP_KEYS = {
  source: { stage: 'source', isList: false, mayBeBest: false, otherwise: undefined },
  shape: { stage: 'shape', isList: true, mayBeBest: false, otherwise: [] },
  slice: { stage: 'slice', isList: false, mayBeBest: false, otherwise: { layers: {} } },
  split: { stage: 'split', isList: false, mayBeBest: true, otherwise: { hollow: {} } },
  nest: { stage: 'nest', isList: false, mayBeBest: false, otherwise: { boards: {} } },
  documents: {
    stage: 'document',
    isList: true,
    mayBeBest: false,
    otherwise: ['board-svg', 'pages-pdf', 'cut-list', 'offcuts', 'report'],
  },
} as const;

/** The job file less its steps, which are checked by their plugins: lengths in any unit come in, millimetres go out. */
export function coreSchema(kit: Kit) {
  const { z, length, size } = kit;
  return z.strictObject({
    $schema: z.string().optional().describe('where an editor finds the schema of this file'),
    name: text(kit).describe('name of the job; its result folder is called after it'),
    unit: z.enum(UNITS).default('mm').describe('what a plain number means; a written unit always wins'),
    source: z.unknown().optional().describe('where the landform comes from'),
    shape: z.array(z.unknown()).optional().describe('what is done to the landform before slicing, in order'),
    stock: z
      .strictObject({
        boards: z.array(boardSchema(kit)).default([]).describe('boards on sale'),
        offcuts: z.array(fileName()).default([]).describe('files of saved offcuts'),
        blocks: z
          .array(blockSchema(kit))
          .optional()
          .describe('blocks that boards could be wired from, to compare with'),
      })
      .describe('the foam to cut from: boards, saved offcuts or both'),
    cover: z
      .strictObject({
        material: text(kit).describe('dry sand, soil, scrim and plaster …'),
        depth: length({ least: 0 }).describe('how deep it lies over the foam'),
        density: densitySchema(kit).optional().describe('kg/m³; looked up by the material when not said'),
      })
      .optional()
      .describe('what goes over the foam'),
    tool: z
      .strictObject({
        kind: z.enum(TOOLS).default('hot wire'),
        throat: length({ above: 0 }).optional().describe('clear depth of the bow, from the wire to its back'),
        wire: length({ above: 0 }).optional().describe('clear length of the wire between its holders'),
        blade: length({ above: 0 }).optional().describe('length of the blade that cuts'),
        table: size().optional().describe('of the table that a board lies on while it is cut'),
        kerf: length({ least: 0 }).prefault('2 mm').describe('width that the cutter removes'),
        ...wireKeys(kit),
      })
      .prefault({})
      .describe('what the foam is cut with'),
    gap: length({ least: 0 }).prefault('10 mm').describe('least clearance between blanks; at least the kerf'),
    slice: z.unknown().optional().describe('how the landform becomes layers'),
    split: z.unknown().optional().describe('how layers become pieces'),
    nest: z.unknown().optional().describe('how pieces are placed on boards'),
    front: z
      .strictObject({
        side: z.enum(SIDES).default('south').describe('the side from which people see the ground'),
        word: text(kit).default('FRONT').describe("the room's word for it; arrows on pieces say it"),
      })
      .prefault({})
      .describe('where people see the ground from'),
    seed: z.int().default(1).describe('the same seed gives the same result'),
    documents: z.array(z.unknown()).optional().describe('what is written beside plan.json'),
    carry: z
      .strictObject({
        size: size().optional().describe('the largest piece that can be carried'),
        mass: z.number().positive().optional().describe('kg'),
      })
      .optional()
      .describe('what one carrier takes'),
    doors: doorsSchema(kit).optional().describe('the narrowest door that pieces are carried through'),
    stair: stairSchema(kit).optional().describe('the narrowest stair that they are carried up'),
    lift: liftSchema(kit).optional().describe('the lift that they go up in'),
    van: vanSchema(kit).optional().describe('what they travel in'),
    crew: crewSchema.optional().describe('who builds'),
    ready: readySchema.optional().describe('when it has to stand'),
    floor: floorSchema.optional().describe('what the venue wrote of its floor'),
    budget: z.number().min(0).max(MOST_MONEY).optional().describe('money that may be spent'),
    prices: pricesSchema.optional().describe('money for what is bought besides foam'),
    pins: pinsSchema(kit).optional().describe('what holds the layers to one another'),
    rules: rulesSchema.optional().describe('figures of the trade that you know better'),
    zones: z
      .array(zoneSchema(kit, text(kit)))
      .optional()
      .describe('polygons of the plan with a meaning, in landform coordinates'),
    pieces: piecesSchema(kit).optional().describe('single pieces by name: turns allowed, held where they are'),
  });
}

export type Core = z.output<ReturnType<typeof coreSchema>>;
export type CoreShape = ReturnType<typeof coreSchema>['shape'];

/** One kind of board on sale. */
export const boardSchema = (kit: Kit) => {
  const { z, length, size, point } = kit;
  return z.strictObject({
    name: text(kit).describe('what the supplier calls it'),
    size: size({ most: LONGEST_BOARD_MM }).describe('[width, depth]'),
    thickness: length({ least: THINNEST_BOARD_MM, most: LONGEST_BOARD_MM }),
    measured: length({ least: THINNEST_BOARD_MM, most: LONGEST_BOARD_MM })
      .optional()
      .describe('thickness of the delivered boards, where it differs from what they are sold as'),
    price: z.number().min(0).max(MOST_MONEY).optional().describe('of one board'),
    count: z.int().min(0).optional().describe('how many can be had; as many as needed when not said'),
    trim: length({ least: 0 }).prefault(0).describe('cut off each edge before use'),
    faced: z.boolean().default(true).describe('the faces differ, so that no piece may be mirrored'),
    keepOut: z
      .array(z.array(point()).min(3).max(1000))
      .max(100)
      .optional()
      .describe('patches of each such board to keep out of: corners from its lower left corner'),
    ...boardKeys(kit),
  });
};
