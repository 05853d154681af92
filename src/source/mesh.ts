/**
 * Ground as a closed solid from a file: STL, OBJ, PLY or glTF. Points that are the same are joined on a grid of 0.001 mm,
 * holes are closed (mesh/close.ts), faces and shells that look the wrong way are turned. z is up, and a plain number is a
 * millimetre; only glTF says otherwise by its own standard, y up and metres, and is read so. In plan the solid's box is
 * moved to (0, 0); heights stay as they are.
 */
import { refuse } from '../findings.ts';
import type { Openings, Solid } from '../model/landform.ts';
import { definePlugin } from '../plugin.ts';
import { MM_IN, numberText, UNITS } from '../units.ts';
import { closedTriangles } from './mesh/close.ts';
import { readGltf } from './mesh/gltf.ts';
import { kindOf, type SolidKind } from './mesh/kind.ts';
import { readObj } from './mesh/obj.ts';
import { readPly } from './mesh/ply.ts';
import type { Rim } from './mesh/rims.ts';
import { selfCrossing } from './mesh/self-crossing.ts';
import { outwardTriangles } from './mesh/shells.ts';
import { type Soup, singleStep } from './mesh/soup.ts';
import { readBinaryStl, readTextStl } from './mesh/stl.ts';
import {
  bodiesCross,
  coarse,
  cracksClosed,
  crossesItself,
  crossingUnknown,
  facesTurned,
  isOpen,
  refuseFlat,
  shellsTurned,
  unlikelySize,
} from './mesh/told.ts';
import { weld } from './mesh/weld.ts';

/** Longest sides between which a landform of foam is likely. */
const LIKELY_MM = [5, 100_000] as const;
/** A surface that encloses less than this share of the cube of its longest side is taken for flat. */
const FLAT_SHARE = 1e-9;
/** Holes whose gap is no wider are closed: about as much as a hand carves off in passing (common practice, no source). */
const CLOSE = '10 mm';
/** A gap that is narrower than this leaves no mark in foam. */
const HAIRLINE_MM = 0.1;
/** Numbers that cannot tell points apart more finely than this are told of, where it is not for the solid's own size. */
const FINE_STEP_MM = 0.01;

export const mesh = definePlugin({
  api: 1,
  stage: 'source',
  name: 'mesh',
  summary: 'a closed solid from an STL, OBJ, PLY or glTF file',
  options: ({ z, file, length }) =>
    z.strictObject({
      file: file().describe(
        'the solid: STL, OBJ, PLY, or glTF (.glb, or .gltf with everything embedded; y is up in it)',
      ),
      unit: z
        .enum(UNITS)
        .optional()
        .describe('what a number in the file means; left out, mm, and m in glTF, as its standard says'),
      close: length({ least: 0 })
        .prefault(CLOSE)
        .describe('holes are closed where the gap in an outline is no wider than this, measured as built'),
    }),
  async run(files, { file, unit: said, close: closeMm }, { tell }): Promise<Solid> {
    const bytes = files.get(file);
    if (!bytes) return refuse('source/no-file', 'The file was not read.', 'Check its name and place.', { file });
    const kind = kindOf(bytes, file);
    const unit = said ?? (isGltf(kind) ? 'm' : 'mm');
    const mmInUnit = MM_IN[unit];
    const welded = weld(await read(bytes, kind, file), mmInUnit, file, unit);
    const [x0, y0] = welded.cornerMm;
    const placeText = (x: number, y: number, z: number) => {
      const inFile = isGltf(kind) ? [x + x0, z, -y - y0] : [x + x0, y + y0, z];
      return inFile.map((mm) => numberText(mm / mmInUnit, 3)).join(', ');
    };

    const closed = closedTriangles(welded, closeMm, file, placeText);
    const { positions } = welded;
    const outward = outwardTriangles({ positions, triangles: closed.triangles }, closed.shells);
    const { triangles, turned, shells, volume } = outward;
    const open = openings(closed.rims, closeMm);
    if (!(volume > FLAT_SHARE * cube(welded.largestSideMm))) refuseFlat(file);
    if (welded.stepMm > Math.max(FINE_STEP_MM, 2 * singleStep(welded.largestSideMm)))
      tell(coarse(file, welded.stepMm, isGltf(kind)));
    if (closed.turned > 0) tell(facesTurned(file, closed.turned));
    if (turned > 0) tell(shellsTurned(file, turned, shells));
    if (welded.largestSideMm < LIKELY_MM[0] || welded.largestSideMm > LIKELY_MM[1]) {
      tell(unlikelySize(file, welded.largestSideMm, unit));
    }
    const cracks = closed.rims.filter(({ gap }) => gap.gapMm < HAIRLINE_MM);
    if (cracks.length > 0) tell(cracksClosed(file, cracks, placeText(...cracks[0].gap.atMm)));
    const widest = open && widestOf(closed.rims);
    if (widest) tell(isOpen(file, open, widest, closeMm, placeText(...widest.gap.atMm)));
    const solid = { kind: 'solid', positionsMm: positions, triangles, footprint: null, ...(open && { open }) } as const;
    // What is too open to be built is refused when it is sliced; a guess of so much may well cross itself.
    if (widest && widest.gap.gapMm > closeMm) return solid;
    const { within, between, isSure } = await selfCrossing({ positions, triangles }, closed.shells);
    if (within) tell(crossesItself(file, within, placeText(...within)));
    else if (between) tell(bodiesCross(file, between, placeText(...between)));
    if (!isSure) tell(crossingUnknown(file));
    const isSimple = closed.isManifold && outward.areApart && !within && !between && isSure;
    return isSimple ? { ...solid, isSimple } : solid;
  },
});

const isGltf = (kind: SolidKind): boolean => kind === 'glTF' || kind === 'binary glTF';

const widestOf = (rims: readonly Rim[]): Rim =>
  rims.reduce((most, rim) => (rim.gap.gapMm > most.gap.gapMm ? rim : most));

function openings(rims: readonly Rim[], closeMm: number): Openings | undefined {
  const seen = rims.filter(({ gap }) => gap.gapMm >= HAIRLINE_MM);
  return seen.length === 0 ? undefined : { rims: seen.map(({ corners }) => Uint32Array.from(corners)), closeMm };
}

async function read(bytes: Uint8Array, kind: SolidKind, file: string): Promise<Soup> {
  if (isGltf(kind)) return readGltf(bytes, kind === 'binary glTF', file);
  if (kind === 'OBJ') return readObj(bytes, file);
  if (kind === 'PLY') return readPly(bytes, file);
  return kind === 'text STL' ? readTextStl(bytes, file) : readBinaryStl(bytes, file);
}

const cube = (side: number): number => side * side * side;
