import { type Finding, refuse } from '../../findings.ts';
import type { Openings } from '../../model/landform.ts';
import { lengthText, MM_IN, numberText, UNITS, type Unit } from '../../units.ts';
import type { Rim } from './rims.ts';

/** Longest sides that speak for a unit, in the order of UNITS. */
const GUESSED_MM = [200, 30_000] as const;

export function isOpen(
  file: string,
  { rims }: Openings,
  { corners, gap }: Rim,
  closeMm: number,
  place: string,
): Finding {
  const holes = rims.length === 1 ? 'a hole' : `${rims.length} holes`;
  const isWide = gap.gapMm > closeMm;
  return {
    level: 'watch',
    code: 'source/open',
    message: `The solid is open: it has ${holes}, the widest of ${corners.length} corners with a gap of ${numberText(gap.gapMm, 1)} mm near ${place}.`,
    fix: isWide
      ? 'Close it in the program it was drawn with, and give it a base and walls; look at the file with --picture to see where it is.'
      : 'Look at the layers there; they were closed straight across.',
    where: { file, atMm: [gap.atMm[0], gap.atMm[1]] },
  };
}

export function cracksClosed(file: string, cracks: readonly Rim[], place: string): Finding {
  return {
    level: 'note',
    code: 'source/cracks-closed',
    message: `${cracks.length === 1 ? 'A crack or a missing flat face was' : `${cracks.length} cracks or missing flat faces were`} closed that no outline shows, the first near ${place}.`,
    fix: 'Nothing need be done.',
    where: { file },
  };
}

export function coarse(file: string, stepMm: number, isGltf: boolean): Finding {
  return {
    level: 'watch',
    code: 'source/coarse',
    message: `The file has its points so far from its origin that its numbers, of about seven digits, move them by up to ${numberText(stepMm / 2, 3)} mm.`,
    fix: `Move the solid near the origin in the program it was drawn with${isGltf ? ', or let a node place it' : ''}, and save it again; as an OBJ it may stay where it is.`,
    where: { file },
  };
}

export function facesTurned(file: string, count: number): Finding {
  return {
    level: 'note',
    code: 'source/faces-turned',
    message: `The solid has triangles that look inward among others that look outward; ${count} were turned.`,
    fix: 'Look at the layers; a face that was turned the wrong way shows as a hole or a lump.',
    where: { file },
  };
}

export function shellsTurned(file: string, count: number, of: number): Finding {
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

export function unlikelySize(file: string, sideMm: number, unit: Unit): Finding {
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

export function crossesItself(file: string, [x, y]: readonly [number, number, number], place: string): Finding {
  return {
    level: 'watch',
    code: 'source/self-crossing',
    message: `The solid crosses itself, first met near ${place}; layers take together all that any of it encloses.`,
    fix: 'Look at the layers there, or unite its bodies in the program it was drawn with.',
    where: { file, atMm: [x, y] },
  };
}

export function bodiesCross(file: string, [x, y]: readonly [number, number, number], place: string): Finding {
  return {
    level: 'note',
    code: 'source/bodies-cross',
    message: `Bodies of the solid run into one another, first met near ${place}; layers take them together.`,
    fix: 'Nothing to do if they are meant to; else move them apart in the program they were drawn with.',
    where: { file, atMm: [x, y] },
  };
}

export function crossingUnknown(file: string): Finding {
  return {
    level: 'note',
    code: 'source/crossing-unknown',
    message: 'The solid has too many triangles close together to tell whether it crosses itself.',
    fix: 'Look at the layers, or save it with fewer triangles.',
    where: { file },
  };
}

export const refuseFlat = (file: string): never =>
  refuse(
    'source/flat',
    'The surface encloses nothing: it is flat, or its faces lie on each other.',
    'Give the ground a base and walls; bare ground can be read as a height grid or height image.',
    { file },
  );
