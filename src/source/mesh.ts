/**
 * Ground as a closed solid from a file: STL, OBJ or PLY. Points that are the same are joined on a grid of 0.001 mm,
 * what has no inside is refused, faces and shells that look the wrong way are turned. z is up. In plan the solid's box
 * is moved to (0, 0); heights stay as they are.
 */
import { type Finding, refuse } from '../findings.ts';
import type { Solid } from '../model/landform.ts';
import { definePlugin } from '../plugin.ts';
import { lengthText, MM_IN, numberText, UNITS, type Unit } from '../units.ts';
import { closedTriangles } from './mesh/close.ts';
import { kindOf } from './mesh/kind.ts';
import { readObj } from './mesh/obj.ts';
import { readPly } from './mesh/ply.ts';
import { selfCrossing } from './mesh/self-crossing.ts';
import { outwardTriangles } from './mesh/shells.ts';
import type { Soup } from './mesh/soup.ts';
import { readBinaryStl, readTextStl } from './mesh/stl.ts';
import { weld } from './mesh/weld.ts';

/** Longest sides between which a landform of foam is likely. */
const LIKELY_MM = [5, 100_000] as const;
/** Longest sides that speak for a unit, in the order of UNITS. */
const GUESSED_MM = [200, 30_000] as const;
/** A surface that encloses less than this share of the cube of its longest side is taken for flat. */
const FLAT_SHARE = 1e-9;

export const mesh = definePlugin({
  api: 1,
  stage: 'source',
  name: 'mesh',
  summary: 'a closed solid from an STL, OBJ or PLY file',
  options: ({ z, file }) =>
    z.strictObject({
      file: file().describe('the solid: STL, OBJ or PLY'),
      unit: z.enum(UNITS).default('mm').describe('what a number in the file means'),
    }),
  async run(files, { file, unit }, { tell }): Promise<Solid> {
    const bytes = files.get(file);
    if (!bytes) return refuse('source/no-file', 'The file was not read.', 'Check its name and place.', { file });
    const mmInUnit = MM_IN[unit];
    const welded = weld(await read(bytes, file), mmInUnit, file, unit);
    const [x0, y0] = welded.cornerMm;
    const placeText = (x: number, y: number, z: number) =>
      [x + x0, y + y0, z].map((mm) => numberText(mm / mmInUnit, 3)).join(', ');

    const closed = closedTriangles(welded, file, placeText);
    const { positions } = welded;
    const { triangles, turned, shells, volume } = outwardTriangles({ positions, triangles: closed.triangles });
    if (!(volume > FLAT_SHARE * cube(welded.largestSideMm))) refuseFlat(file);
    if (closed.turned > 0) tell(facesTurned(file, closed.turned));
    if (turned > 0) tell(shellsTurned(file, turned, shells));
    if (welded.largestSideMm < LIKELY_MM[0] || welded.largestSideMm > LIKELY_MM[1]) {
      tell(unlikelySize(file, welded.largestSideMm, unit));
    }
    const { at, isSure } = await selfCrossing({ positions, triangles });
    if (at) tell(crossesItself(file, at, placeText(...at)));
    else if (!isSure) tell(crossingUnknown(file));
    return { kind: 'solid', positionsMm: positions, triangles, footprint: null };
  },
});

function facesTurned(file: string, count: number): Finding {
  return {
    level: 'note',
    code: 'source/faces-turned',
    message: `The solid has triangles that look inward among others that look outward; ${count} were turned.`,
    fix: 'Look at the layers; a face that was turned the wrong way shows as a hole or a lump.',
    where: { file },
  };
}

function shellsTurned(file: string, count: number, of: number): Finding {
  return {
    level: 'note',
    code: 'source/inside-out',
    message:
      of === 1
        ? 'The solid was inside out; it was turned.'
        : `${count} of the solid's ${of} shells were inside out and were turned.`,
    fix: 'Nothing need be done, unless one of them was meant as a hollow.',
    where: { file },
  };
}

function unlikelySize(file: string, sideMm: number, unit: Unit): Finding {
  const guess = UNITS.find((other) => {
    const asMm = (sideMm / MM_IN[unit]) * MM_IN[other];
    return other !== unit && asMm >= GUESSED_MM[0] && asMm <= GUESSED_MM[1];
  });
  const side = numberText(sideMm / MM_IN[unit], 4);
  return {
    level: 'watch',
    code: 'source/unlikely-size',
    message: `The solid is ${lengthText(sideMm, unit, 4)} along its longest side.`,
    fix: guess
      ? `If the file's numbers are ${guess}, say unit: ${guess}; it is then ${side} ${guess} long.`
      : 'Say in the job which unit the numbers in the file have.',
    where: { file },
  };
}

function crossesItself(file: string, [x, y]: readonly [number, number, number], place: string): Finding {
  return {
    level: 'watch',
    code: 'source/self-crossing',
    message: `The solid crosses itself, first met near ${place}; layers take together all that any of it encloses.`,
    fix: 'Look at the layers there, or unite its bodies in the program it was drawn with.',
    where: { file, atMm: [x, y] },
  };
}

function crossingUnknown(file: string): Finding {
  return {
    level: 'note',
    code: 'source/crossing-unknown',
    message: 'The solid has too many triangles close together to tell whether it crosses itself.',
    fix: 'Look at the layers, or save it with fewer triangles.',
    where: { file },
  };
}

const refuseFlat = (file: string): never =>
  refuse(
    'source/flat',
    'The surface encloses nothing: it is flat, or its faces lie on each other.',
    'Give the ground a base and walls; bare ground can be read as a height grid or height image.',
    { file },
  );

async function read(bytes: Uint8Array, file: string): Promise<Soup> {
  const kind = kindOf(bytes, file);
  if (kind === 'OBJ') return readObj(bytes, file);
  if (kind === 'PLY') return readPly(bytes, file);
  return kind === 'text STL' ? readTextStl(bytes, file) : readBinaryStl(bytes, file);
}

const cube = (side: number): number => side * side * side;
