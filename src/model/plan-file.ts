import { z } from 'zod';
import type { Finding } from '../findings.ts';
import type { Point, Region, Ring } from '../geometry/ring.ts';
import type { Piece } from './piece.ts';
import type { LayerDeviation, PieceRest, Plan } from './plan.ts';
import type { Frame, Rib } from './rib.ts';

const line = z.array(z.number()).describe('x, y, x, y …');
const ring = line.min(6).describe('x, y, x, y …, not closed');
const rings = z.array(ring).min(1).describe('the outer ring, counter-clockwise, then its holes, clockwise');
const point = z.tuple([z.number(), z.number()]);
const count = z.int().min(0);

const slope = z
  .looseObject({
    top: z.array(rings).describe('the ground’s outline at the layer’s top; may be empty'),
    stations: z
      .array(z.array(z.number()))
      .describe('for each ring of regions, in order: foot x, foot y, top x, top y of each station of the wire'),
  })
  .describe('only where the edges are cut with a leaning wire; regions are then the underside');

const frame = z
  .looseObject({
    originMm: z.tuple([z.number(), z.number(), z.number()]),
    along: point.describe('of length 1, in plan'),
  })
  .describe(
    'only of upright ribs: the point (u, v) of a ring lies at originMm + u × along, v higher; the middle of the thickness',
  );

const rib = z
  .looseObject({
    frame,
    gridLine: z.string(),
    crossings: z.array(
      z.looseObject({
        layer: z.int().min(1).describe('the rib that passes through'),
        atMm: z.number().describe('middle of the slot, along this rib'),
        widthMm: z.number().positive(),
        meetMm: z.number().describe('height at which the slots of both meet'),
        opens: z.enum(['top', 'bottom']),
      }),
    ),
  })
  .describe('only of upright ribs: regions then lie in the plane of the frame');

const layer = z.looseObject({
  number: z.int().min(1).describe('from 1 at the ground upward'),
  bottomMm: z.number(),
  thicknessMm: z.number().positive(),
  regions: z.array(rings).describe('outlines before hollowing, landform coordinates: x east, y north'),
  slope: slope.optional(),
  rib: rib.optional(),
  carveMm3: z.number().min(0).optional().describe('foam that stands out of the ground'),
  fillMm3: z.number().min(0).optional().describe('ground that the foam does not reach'),
});

const piece = z.looseObject({
  name: z.string().describe('layer number and letters'),
  layer: z.int().min(1),
  frame: frame.optional(),
  rings,
  areaMm2: z.number(),
  massKg: z.number().nullable().describe('area × thickness × density of its board; null while it is on none'),
  joints: z.array(
    z.looseObject({
      label: z.string(),
      neighbour: z.string(),
      line,
      matches: z.array(point).describe('one mark alone and two close together, across the line'),
      tongues: z.array(line).optional().describe('slots for loose tongues, each from end to end along the line'),
    }),
  ),
  pins: z.array(point).describe('every pin that enters the piece'),
  slits: z.array(line),
  nicks: z
    .array(z.looseObject({ side: z.enum(['front', 'right']), at: point }))
    .describe('notches in the outline: one toward the front, two on the right of who looks from there'),
  glue: z.array(rings).describe('where its top takes glue for the next layer'),
  doNotStep: z.boolean().describe('what is seen of its top is a thin shell over a void'),
  rest: z
    .looseObject({
      areaMm2: z.number().min(0).describe('what of it rests'),
      share: z.number().min(0),
      insideMm: z
        .number()
        .nullable()
        .describe(
          'how far its middle of mass lies inside the hull of where it rests, below 0 where it tips; null on nothing',
        ),
      leastLapMm: z
        .number()
        .nullable()
        .describe('from its outer edge to the nearest void beneath; null where none is near'),
    })
    .optional()
    .describe('how it rests on the layer beneath, laid loose; not of the lowest layer nor of ribs'),
});

const pin = z.looseObject({
  at: point,
  fromLayer: z.int().min(1),
  toLayer: z.int().min(1),
  bottomMm: z.number().describe('its lower end'),
  lengthMm: z.number().positive(),
  isPulled: z.boolean().describe('pulled when the glue has set, before carving'),
});

const placed = z
  .looseObject({
    piece: z.string(),
    blank: z.int().describe('pieces of one blank share it; unique on the board'),
    turnDeg: z.number(),
    mirrored: z.boolean(),
    xMm: z.number(),
    yMm: z.number(),
  })
  .describe('mirror in x if mirrored, turn counter-clockwise about the origin, then move by (xMm, yMm)');

const board = z.looseObject({
  number: z.int().min(1),
  stock: z.string().describe('name of the board in the stock, or of the saved offcut'),
  sizeMm: point,
  thicknessMm: z.number().positive(),
  trimMm: z.number().min(0),
  rings: rings.optional().describe('only for a saved offcut: its outline, whose coordinates are the board’s'),
  placed: z.array(placed),
  offcuts: z
    .array(z.looseObject({ name: z.string(), rings, rectangleMm: z.array(z.number()).length(4).optional() }))
    .describe(
      'in board coordinates, inside the trim; the largest upright rectangle in each: least x, least y, most x, most y',
    ),
  keepOuts: rings.optional().describe('patches that nothing is cut from'),
  breakDowns: z.array(z.array(z.number()).length(4)).optional().describe('straight cuts that are made first, in order'),
  runIns: z
    .array(z.looseObject({ blank: count, line: z.array(z.number()), within: z.string().optional() }))
    .optional()
    .describe('from the board’s edge to each blank; within: the piece in whose void the blank lies'),
});

const finding = z.looseObject({
  level: z.enum(['stop', 'watch', 'note']),
  code: z.string(),
  message: z.string(),
  fix: z.string(),
  where: z.looseObject({}),
});

/** plan.json: millimetres, degrees, kilograms. Fields are never renamed; more may be added. */
export const planFileSchema = z.looseObject({
  lynchet: z.literal(1),
  job: z.record(z.string(), z.unknown()).describe('as read, defaults filled in, unit mm: reads back as the same job'),
  layers: z.array(layer),
  pieces: z.array(piece),
  pins: z.array(pin).describe('each pin once, with all layers that it runs through'),
  boards: z.array(board),
  bound: z.looseObject({
    boards: count.describe('fewer boards cannot be bought'),
    why: z.string(),
    price: z.number().optional(),
  }),
  evaluations: count.describe('the effort that gives this plan again'),
  quantities: z.looseObject({ layers: count, pieces: count, boards: count, boardsBought: count }),
  findings: z.array(finding),
});

export type PlanFile = z.output<typeof planFileSchema>;

/** The schema of plan.json: JSON Schema, draft 2020-12. */
export const planSchema = (): Readonly<Record<string, unknown>> =>
  ({ title: 'Lynchet plan', ...z.toJSONSchema(planFileSchema) }) as Readonly<Record<string, unknown>>;

/** A plan in the form of plan.json. Throws when a coordinate is not finite: JSON would quietly hold null. */
export function planFile(plan: Plan): PlanFile {
  const rests = new Map(plan.rests.map((rest) => [rest.piece, rest]));
  const densities = new Map(plan.boards.flatMap((on) => on.placed.map(({ piece }) => [piece, on.densityKgM3])));
  return {
    lynchet: 1,
    job: plan.job,
    layers: plan.stack.layers.map(({ number, bottomMm, thicknessMm, regions, slope, rib }, i) => ({
      number,
      bottomMm,
      thicknessMm,
      regions: regions.map(plainRings),
      ...(slope ? { slope: { top: slope.top.map(plainRings), stations: slope.stations.map(numbers) } } : {}),
      ...(rib ? { rib: plainRib(rib) } : {}),
      ...deviationOf(plan.deviation?.layers[i]),
    })),
    pieces: plan.pieces.map((one) => ({
      ...plainPiece(one, densities.get(one.name), plan.stack.layers[one.layer - 1]?.rib),
      ...restOf(rests.get(one.name)),
    })),
    pins: plan.pins.map(({ at, ...rest }) => ({ at: pair(at), ...rest })),
    boards: plan.boards.map(({ number, stock, sizeMm, thicknessMm, trimMm, rings, placed, offcuts, ...more }) => ({
      number,
      stock,
      sizeMm: [sizeMm[0], sizeMm[1]],
      thicknessMm,
      trimMm,
      ...(rings ? { rings: plainRings(rings) } : {}),
      placed: placed.map(({ piece, blank, turnDeg, mirrored, xMm, yMm }) => ({
        piece,
        blank,
        turnDeg,
        mirrored,
        xMm,
        yMm,
      })),
      offcuts: offcuts.map(({ name, rings, rectangle }) => ({
        name,
        rings: plainRings(rings),
        ...(rectangle ? { rectangleMm: [...rectangle] } : {}),
      })),
      ...(more.keepOuts ? { keepOuts: plainRings(more.keepOuts) } : {}),
      ...(more.breakDowns ? { breakDowns: more.breakDowns.map(numbers) } : {}),
      ...(more.runIns ? { runIns: more.runIns.map(({ line, ...rest }) => ({ ...rest, line: numbers(line) })) } : {}),
    })),
    bound: { ...plan.bound },
    evaluations: plan.evaluations,
    quantities: { ...plan.quantities },
    findings: plan.findings.map(plainFinding),
  };
}

const deviationOf = (of: LayerDeviation | undefined) =>
  of ? { carveMm3: Math.round(of.carveMm3), fillMm3: Math.round(of.fillMm3) } : {};

const restOf = (rest: PieceRest | undefined) =>
  rest
    ? {
        rest: {
          areaMm2: rest.areaMm2,
          share: rest.share,
          insideMm: Number.isFinite(rest.insideMm) ? rest.insideMm : null,
          leastLapMm: rest.leastLap?.mm ?? null,
        },
      }
    : {};

const plainFrame = ({ originMm: [x, y, z], along: [east, north] }: Frame) => ({
  originMm: [x, y, z] as [number, number, number],
  along: [east, north] as [number, number],
});

const plainRib = ({ frame: own, gridLine, crossings }: Rib) => ({
  frame: plainFrame(own),
  gridLine,
  crossings: crossings.map((each) => ({ ...each })),
});

const plainPiece = (piece: Piece, densityKgM3: number | undefined, upright: Rib | undefined) => ({
  name: piece.name,
  layer: piece.layer,
  ...(upright ? { frame: plainFrame(upright.frame) } : {}),
  rings: plainRings(piece.region),
  areaMm2: piece.areaMm2,
  massKg: densityKgM3 === undefined ? null : massKg(piece, densityKgM3),
  joints: piece.joints.map(({ label, neighbour, line, matches, tongues }) => ({
    label,
    neighbour,
    line: numbers(line),
    matches: matches.map(pair),
    ...(tongues ? { tongues: tongues.map(numbers) } : {}),
  })),
  pins: piece.pins.map(pair),
  slits: piece.slits.map(numbers),
  nicks: (piece.nicks ?? []).map(({ side, at }) => ({ side, at: pair(at) })),
  glue: (piece.glue ?? []).map(plainRings),
  doNotStep: piece.doNotStep === true,
});

const plainFinding = ({ level, code, message, fix, where }: Finding) => ({
  level,
  code,
  message,
  fix,
  where: { ...where },
});

/** A cubic metre is 10⁹ mm³. */
const massKg = ({ areaMm2, thicknessMm }: Piece, densityKgM3: number): number =>
  (areaMm2 * thicknessMm * densityKgM3) / 1e9;

const pair = ([x, y]: Point): [number, number] => [x, y];

const plainRings = (region: Region): number[][] => region.map(numbers);

function numbers(line: Ring): number[] {
  for (let i = 0; i < line.length; i++) {
    if (!Number.isFinite(line[i])) throw new Error('an outline of the plan has a coordinate that is not a number');
  }
  return Array.from(line);
}
