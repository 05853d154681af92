import type { z } from 'zod';
import { type Point, ringArea } from '../geometry/ring.ts';
import { crossingOf } from '../geometry/self-meeting.ts';
import { ZONE_KINDS, type Zone } from '../model/facts.ts';
import type { Kit } from '../plugin.ts';
import { numberText } from '../units.ts';

/** Room that a deck is left all round: what its legs and fascia are out of true (our choice). */
const CLEARANCE_MM = 25;

/** No dressing weighs more: 1000 t. */
const MOST_KG = 1e6;

/** A polygon of the plan with a meaning. */
export const zoneSchema = ({ z, point, length }: Kit, text: z.ZodType<string, string>) =>
  z
    .strictObject({
      kind: z
        .enum(ZONE_KINDS)
        .describe('people: a deck by others stands here; solid: keep the foam; seen: no cuts; lean: may be loaded'),
      name: text.optional().describe('what messages call it'),
      outline: z.array(point()).min(3).max(10_000).describe('its corners in turn, either way round'),
      level: length({ least: 0 }).optional().describe("people: height of the deck's top"),
      clearance: length({ least: 0 })
        .optional()
        .describe(`people: how far the foam keeps off the deck; not said, ${CLEARANCE_MM} mm`),
      load: z
        .number()
        .positive()
        .max(MOST_KG)
        .optional()
        .describe('lean: kg that stand on it, spread over its outline'),
    })
    .superRefine(({ kind, ...zone }, { issues }) => {
      if (kind !== 'lean' && zone.load !== undefined) {
        const message =
          'Only a zone of kind lean has a load.\nFoam carries dressing at most: take it out, or say lean.';
        issues.push({ code: 'custom', message, path: ['load'], input: zone.load });
      }
      for (const key of ['level', 'clearance'] as const) {
        if (kind === 'people' || zone[key] === undefined) continue;
        const message = `Only a zone of kind people has a ${key}.\nTake it out.`;
        issues.push({ code: 'custom', message, path: [key], input: zone[key] });
      }
    })
    .transform((zone) => (zone.kind === 'people' ? { ...zone, clearance: zone.clearance ?? CLEARANCE_MM } : zone));

/** A zone as the whole job shares it. */
export const zoneOf = ({
  kind,
  name,
  outline,
  level,
  clearance,
  load,
}: z.output<ReturnType<typeof zoneSchema>>): Zone => ({
  kind,
  name: name ?? null,
  outline,
  levelMm: level ?? null,
  clearanceMm: clearance ?? 0,
  loadKg: load ?? null,
});

/** What is wrong with the corners of a zone (or whatever else it is called), if anything. Points said twice in a row count once. */
export function outlineProblem(outline: readonly Point[], called = 'zone'): string | undefined {
  const isNew = ([x, y]: Point, i: number) => {
    const [nextX, nextY] = outline[(i + 1) % outline.length];
    return x !== nextX || y !== nextY;
  };
  const ring = new Float64Array(outline.filter(isNew).flat());
  const at = ring.length < 6 ? null : crossingOf(ring);
  if (at) {
    const near = at.map((mm) => numberText(mm, 1)).join(', ');
    return `The outline of this ${called} crosses or touches itself near ${near} mm.\nPut its corners in the order in which one walks round.`;
  }
  return ringArea(ring) === 0
    ? `This ${called} encloses no area.\nGive corners that lie apart, and not all in a line.`
    : undefined;
}
