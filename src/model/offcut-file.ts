import { z } from 'zod';
import { refuse } from '../findings.ts';
import { regionsFromRings } from '../geometry/clip.ts';
import { areaOf, boxOf, moved, type Ring, reversed, ringArea, ringLength, ringsOf } from '../geometry/ring.ts';
import { SNAP } from '../geometry/tolerance.ts';
import { LONGEST_BOARD_MM, MOST_DENSITY_KG_M3, type Offcut } from './stock.ts';

const MOST_BYTES = 5_000_000;

const ringSchema = z
  .array(z.number().min(-LONGEST_BOARD_MM).max(LONGEST_BOARD_MM))
  .min(6)
  .refine((numbers) => numbers.length % 2 === 0)
  .describe('x, y, x, y …, not closed');

/** A file of saved offcuts. More fields may be added. */
export const offcutFileSchema = z.looseObject({
  lynchet: z.literal(1),
  offcuts: z.array(
    z.looseObject({
      name: z.string().min(1).max(300),
      material: z.string().max(300),
      thicknessMm: z.number().positive().max(LONGEST_BOARD_MM),
      densityKgM3: z.number().positive().max(MOST_DENSITY_KG_M3),
      rings: z.array(ringSchema).min(1).describe('the outline, then its holes; its box from (0, 0)'),
      defects: z.array(ringSchema).max(1000).optional().describe('patches that nothing may be cut from'),
      from: z.string().max(1000).describe('where it came from, in words'),
    }),
  ),
});

export type OffcutFile = z.output<typeof offcutFileSchema>;

/** Offcuts as they are written. */
export const offcutsFile = (offcuts: readonly Offcut[]): OffcutFile => ({
  lynchet: 1,
  offcuts: offcuts.map(({ name, material, thicknessMm, densityKgM3, rings, defects, from }) => ({
    name,
    material,
    thicknessMm,
    densityKgM3,
    rings: rings.map((ring) => [...ring]),
    ...(defects ? { defects: defects.map((ring) => [...ring]) } : {}),
    from,
  })),
});

/**
 * Read a file of saved offcuts. Rings come out with the outline counter-clockwise, holes clockwise, the box from (0, 0),
 * whichever way they were written. Refuses what is not such a file, and outlines that no foam can have.
 */
export function readOffcuts(bytes: Uint8Array | undefined, file: string): Offcut[] {
  const no = (what: string, wayOut: string): never => refuse('stock/offcut-file', what, wayOut, { file });
  if (!bytes) return no('The file of offcuts is not there.', 'Check its path, or take it out of stock.offcuts.');
  if (bytes.length > MOST_BYTES) no(`The file has more than ${MOST_BYTES} bytes.`, 'Keep fewer offcuts in it.');
  const value = parsed(bytes);
  if (value === undefined) no('This is not JSON.', 'Name an offcuts.json file.');
  const result = offcutFileSchema.safeParse(value);
  if (!result.success) {
    const place = result.error.issues[0].path.join('.');
    const what = `This is not a file of offcuts: see ${place === '' ? 'its outermost level' : place}.`;
    return no(
      what,
      'It holds "lynchet": 1 and "offcuts", each with name, material, thicknessMm, densityKgM3, rings, from.',
    );
  }
  const names = new Set<string>();
  return result.data.offcuts.map(({ name, material, thicknessMm, densityKgM3, rings, defects, from }) => {
    if (names.has(name)) no(`Two offcuts are called "${name}".`, 'Rename one, on the foam too.');
    names.add(name);
    const outline = rings.map((ring) => Float64Array.from(ring));
    const patches = (defects ?? []).map((ring) => Float64Array.from(ring));
    const fault = faultOf(outline) ?? patches.map((patch, i) => faultOf([patch], `its defect ${i + 1}`)).find(Boolean);
    if (fault) no(`Offcut "${name}": ${fault}.`, 'Measure it again, corner by corner round the outline.');
    const [minX, minY] = boxOf(outline.slice(0, 1));
    const kept = patches.length > 0 ? { defects: settled(patches, minX, minY, () => true) } : {};
    const inPlace = settled(outline, minX, minY, (i) => i === 0);
    return { name, material, thicknessMm, densityKgM3, rings: inPlace, ...kept, from };
  });
}

/** What the JSON holds; undefined when it is none (or no UTF-8). */
function parsed(bytes: Uint8Array): unknown {
  try {
    return JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
  } catch {
    return undefined;
  }
}

/** What is wrong with the rings of one piece of foam, or nothing. */
function faultOf(rings: readonly Ring[], first = 'its outline'): string | undefined {
  for (const [i, ring] of rings.entries()) {
    const called = i === 0 ? first : `its hole ${i}`;
    if (Math.abs(ringArea(ring)) <= ringLength(ring) * SNAP) return `${called} has no area`;
    if (!keeps([ring])) return `${called} crosses itself or runs back over itself`;
  }
  return keeps(rings) ? undefined : 'a hole lies outside its outline, or runs along it or another hole';
}

/**
 * Whether clipping, which leaves only simple outlines, finds nothing to mend: it then keeps area and length. Rings may
 * touch at a point, as those of a remainder do.
 */
function keeps(rings: readonly Ring[]): boolean {
  const regions = regionsFromRings(rings);
  const length = (list: readonly Ring[]) => list.reduce((sum, ring) => sum + ringLength(ring), 0);
  const [outline, ...holes] = rings.map((ring) => Math.abs(ringArea(ring)));
  const area = holes.reduce((rest, hole) => rest - hole, outline);
  // Every corner may move by half a step of the grid each way.
  const corners = rings.reduce((sum, ring) => sum + ring.length / 2, 0);
  return (
    Math.abs(areaOf(regions) - area) <= length(rings) * SNAP &&
    Math.abs(length(ringsOf(regions)) - length(rings)) <= corners * 2 * SNAP
  );
}

/** Moved so that (x, y) comes to (0, 0), and run the way they should. */
const settled = (rings: readonly Ring[], x: number, y: number, isOuter: (i: number) => boolean): Ring[] =>
  rings.map((ring, i) => moved(ringArea(ring) > 0 === isOuter(i) ? ring : reversed(ring), -x, -y));
