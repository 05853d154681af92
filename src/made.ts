import { z } from 'zod';
import { MOST_POSTS } from './model/landform.ts';
import type { StageName } from './stages.ts';

const areFinite = (list: Float64Array | Float32Array): boolean => list.every((value) => Number.isFinite(value));
const numbers = z.instanceof(Float64Array).refine(areFinite, 'holds a number that is not finite');
const points = numbers.refine(({ length }) => length % 2 === 0, 'holds x without y');
const ring = points.refine(({ length }) => length >= 6, 'has fewer than three corners');
const stations = numbers.refine(({ length }) => length % 4 === 0, 'holds a foot without its top');
const regions = z.array(z.array(ring).min(1));
const point = z.tuple([z.number(), z.number()]);
const steps = z.int().min(2);

const heightfield = z
  .looseObject({
    kind: z.literal('heightfield'),
    columns: steps,
    rows: steps,
    stepXMm: z.number().positive(),
    stepYMm: z.number().positive(),
    originMm: point,
    heightsMm: z.union([numbers, z.instanceof(Float32Array).refine(areFinite, 'holds a number that is not finite')]),
    footprint: regions.min(1),
  })
  .refine(({ columns, rows }) => columns * rows <= MOST_POSTS, `has more than ${MOST_POSTS} posts`)
  .refine(({ columns, rows, heightsMm }) => heightsMm.length === columns * rows, 'has not a height for each post');

const solid = z
  .looseObject({
    kind: z.literal('solid'),
    positionsMm: numbers,
    triangles: z.instanceof(Uint32Array),
    footprint: regions.min(1).nullable(),
  })
  .refine(
    ({ positionsMm, triangles }) =>
      positionsMm.length % 3 === 0 &&
      triangles.length % 3 === 0 &&
      triangles.every((vertex) => vertex < positionsMm.length / 3),
    'has triangles without corners',
  );

const landform = z.discriminatedUnion('kind', [heightfield, solid]);

const layer = z.looseObject({
  number: z.int().min(1),
  bottomMm: z.number(),
  thicknessMm: z.number().positive(),
  regions: regions.min(1),
  slope: z.looseObject({ top: regions, stations: z.array(stations) }).optional(),
  rib: z
    .looseObject({
      frame: z.looseObject({ originMm: z.tuple([z.number(), z.number(), z.number()]), along: point }),
      gridLine: z.string().min(1),
      crossings: z.array(
        z.looseObject({ layer: z.int().min(1), atMm: z.number(), widthMm: z.number().positive(), meetMm: z.number() }),
      ),
    })
    .optional(),
});

const piece = z.looseObject({
  name: z.string().min(1),
  layer: z.int().min(1),
  bottomMm: z.number(),
  thicknessMm: z.number().positive(),
  region: z.array(ring).min(1),
  areaMm2: z.number().positive(),
  joints: z.array(z.looseObject({ label: z.string(), neighbour: z.string(), line: points, matches: z.array(point) })),
  pins: z.array(point),
  slits: z.array(points),
  placing: regions,
  glue: regions.optional(),
  nicks: z.array(z.looseObject({ at: point, side: z.enum(['front', 'right']) })).optional(),
});

const board = z.looseObject({
  number: z.int().min(1),
  stock: z.string(),
  sizeMm: point,
  thicknessMm: z.number().positive(),
  densityKgM3: z.number(),
  trimMm: z.number(),
  rings: z.array(ring).min(1).optional(),
  placed: z.array(
    z.looseObject({
      piece: z.string(),
      blank: z.int(),
      turnDeg: z.number(),
      mirrored: z.boolean(),
      xMm: z.number(),
      yMm: z.number(),
    }),
  ),
  offcuts: z.array(z.looseObject({ name: z.string(), rings: z.array(ring).min(1) })),
});

/** What a finding is, for those who have no compiler to tell them. */
export const findingSchema = z.looseObject({
  level: z.enum(['stop', 'watch', 'note']),
  code: z.string().min(1),
  message: z.string().min(1),
  fix: z.string(),
  where: z.looseObject({}),
});

/** What each stage makes, as far as the stages after it would fall over it: for plugins that no compiler has seen. */
export const MADE: Readonly<Record<StageName, z.ZodType>> = {
  source: landform,
  shape: landform,
  slice: z
    .looseObject({
      kind: z.enum(['flat', 'upright']),
      layers: z
        .array(layer)
        .min(1)
        .refine((layers) => layers.every(({ number }, i) => number === i + 1), 'are not numbered 1, 2, 3 … upward'),
    })
    .refine(({ kind, layers }) => kind === 'flat' || layers.every(({ rib }) => rib), 'has ribs without a frame'),
  split: z.array(z.looseObject({ pieces: z.array(piece).min(1), sharedCuts: z.array(points) })).min(1),
  nest: z.looseObject({
    boards: z.array(board),
    bound: z.looseObject({ boards: z.int().min(0), why: z.string() }),
    unusedOffcuts: z.array(z.looseObject({ name: z.string(), rings: z.array(ring).min(1) })),
    evaluations: z.int().min(0),
    wishes: z.array(z.looseObject({ piece: z.string() })),
  }),
  document: z.array(
    z.looseObject({
      path: z.string().regex(/^[A-Za-z0-9][A-Za-z0-9._-]{0,99}$/, 'is not a bare file name'),
      mediaType: z.string(),
      body: z.union([z.string(), z.instanceof(Uint8Array)]),
      pages: z.number().optional(),
      tapingMinutes: z.number().optional(),
    }),
  ),
};

/** The first thing in which a value is not what a schema wants, with its place; nothing when it is. */
export function problemOf(schema: z.ZodType, value: unknown): string | undefined {
  const { error } = schema.safeParse(value);
  if (!error) return undefined;
  const [{ path, message }] = error.issues;
  return path.length === 0 ? message : `${path.join('.')}: ${message}`;
}
