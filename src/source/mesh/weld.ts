import { refuse } from '../../findings.ts';
import type { Surface } from '../../geometry/sections.ts';
import { CLIP_UNITS } from '../../geometry/tolerance.ts';
import { numberText, type Unit } from '../../units.ts';
import { type Soup, singleStep } from './soup.ts';

/** Points that a file's 32-bit numbers cannot tell apart more finely than this are not read. */
const COARSEST_STEP_MM = 1;
/** In a large solid, this share of its longest side may be lost. */
const COARSEST_SHARE = 1e-3;
/** Farther than any place on earth from any other; in thousandths of a millimetre still exact. */
const FARTHEST_MM = 1e11;

/** A soup joined into a surface, millimetres in whole thousandths, its box in plan at (0, 0). */
export interface Welded extends Surface {
  readonly largestSideMm: number;
  /** Where the file has the corner of that box. */
  readonly cornerMm: readonly [number, number];
  /** How finely the file tells points apart where they lie farthest out. */
  readonly stepMm: number;
}

/**
 * Join the points of a soup that are the same, on a grid of 0.001 mm, and move its box in plan to (0, 0). Triangles
 * that lose their corners to each other go. Heights stay; being whole thousandths, as levels are, a flat top at a level
 * lies in it to the last bit also when the file was in metres. Joining can never open a closed surface.
 */
export function weld(soup: Soup, mmInUnit: number, file: string, unit: Unit): Welded {
  const { points, corners } = soup;
  const count = corners ? corners.length : points.length / 3;
  const box = boxOfCorners(points, corners, count, file);
  const largestSideMm = Math.max(box[3] - box[0], box[4] - box[1], box[5] - box[2]) * mmInUnit;
  const stepMm = mmInUnit * stepOf(soup, box);
  refuseFar(stepMm, box, largestSideMm, mmInUnit, file, unit);

  const scale = mmInUnit * CLIP_UNITS;
  const shiftX = Math.round(box[0] * scale);
  const shiftY = Math.round(box[1] * scale);
  // A closed surface has half as many vertices as triangles.
  let room = 1 << 10;
  while (room < (corners ? points.length / 3 : count / 6)) room *= 2;
  let positions = new Float64Array(3 * room);
  let slots = new Int32Array(4 * room).fill(-1);
  let known = 0;
  const triangles = new Uint32Array(count);
  let kept = 0;
  /** Vertex + 1 of a point that many triangles share; 0 as long as none has. */
  const met = new Uint32Array(corners ? points.length / 3 : 0);
  for (let i = 0; i < count; i++) {
    const point = corners ? corners[i] : i;
    if (corners && met[point] > 0) {
      triangles[kept + (i % 3)] = met[point] - 1;
      if (i % 3 === 2 && areApart(triangles, kept)) kept += 3;
      continue;
    }
    const at = 3 * point;
    // Adding 0 makes −0 plain 0.
    const x = Math.round(points[at] * scale) - shiftX + 0;
    const y = Math.round(points[at + 1] * scale) - shiftY + 0;
    const z = Math.round(points[at + 2] * scale) + 0;
    let slot = slotOf(positions, slots, x, y, z);
    if (slots[slot] < 0) {
      if (known === room) {
        room *= 2;
        const more = new Float64Array(3 * room);
        more.set(positions);
        positions = more;
        slots = new Int32Array(4 * room).fill(-1);
        for (let v = 0; v < known; v++) {
          slots[slotOf(positions, slots, positions[3 * v], positions[3 * v + 1], positions[3 * v + 2])] = v;
        }
        slot = slotOf(positions, slots, x, y, z);
      }
      positions[3 * known] = x;
      positions[3 * known + 1] = y;
      positions[3 * known + 2] = z;
      slots[slot] = known++;
    }
    triangles[kept + (i % 3)] = slots[slot];
    if (corners) met[point] = slots[slot] + 1;
    if (i % 3 === 2 && areApart(triangles, kept)) kept += 3;
  }
  const positionsMm = positions.slice(0, 3 * known);
  for (let i = 0; i < positionsMm.length; i++) positionsMm[i] /= CLIP_UNITS;
  const cornerMm = [shiftX / CLIP_UNITS, shiftY / CLIP_UNITS] as const;
  return { positions: positionsMm, triangles: triangles.slice(0, kept), largestSideMm, cornerMm, stepMm };
}

const areApart = (triangles: Uint32Array, at: number): boolean =>
  triangles[at] !== triangles[at + 1] && triangles[at + 1] !== triangles[at + 2] && triangles[at + 2] !== triangles[at];

/** The slot of a point in an open table of vertex numbers: where it is, or where it would be. Whole numbers only. */
function slotOf(positions: Float64Array, slots: Int32Array, x: number, y: number, z: number): number {
  const mask = slots.length - 1;
  let hash = Math.imul(x, 0x9e3779b1) ^ Math.imul(y, 0x85ebca6b) ^ Math.imul(z, 0xc2b2ae35);
  hash = Math.imul(hash ^ (hash >>> 15), 0x2c1b3c6d);
  let slot = (hash ^ (hash >>> 12)) & mask;
  for (let v = slots[slot]; v >= 0; v = slots[slot]) {
    if (positions[3 * v] === x && positions[3 * v + 1] === y && positions[3 * v + 2] === z) break;
    slot = (slot + 1) & mask;
  }
  return slot;
}

/** Least and largest x, y, z of what the triangles use. Refuses what is no number, naming the triangle. */
function boxOfCorners(points: Soup['points'], corners: Soup['corners'], count: number, file: string): number[] {
  let [minX, minY, minZ] = [Infinity, Infinity, Infinity];
  let [maxX, maxY, maxZ] = [-Infinity, -Infinity, -Infinity];
  for (let i = 0; i < count; i++) {
    const at = 3 * (corners ? corners[i] : i);
    const x = points[at];
    const y = points[at + 1];
    const z = points[at + 2];
    // What is no number, or infinite, makes this none.
    if (x - x + (y - y) + (z - z) !== 0) refuseNoNumber(Math.floor(i / 3) + 1, file);
    if (x < minX) minX = x;
    if (x > maxX) maxX = x;
    if (y < minY) minY = y;
    if (y > maxY) maxY = y;
    if (z < minZ) minZ = z;
    if (z > maxZ) maxZ = z;
  }
  return [minX, minY, minZ, maxX, maxY, maxZ];
}

function refuseNoNumber(triangle: number, file: string): never {
  const fix = 'Save it again from the program it was drawn with; repair or remove that triangle there.';
  return refuse('source/not-a-number', `Triangle ${triangle} has a corner that is no number.`, fix, { file });
}

const farthest = (box: readonly number[]): number => box.reduce((most, value) => Math.max(most, Math.abs(value)), 0);

function stepOf({ points, step }: Soup, box: readonly number[]): number {
  return step ?? (points instanceof Float32Array ? singleStep(farthest(box)) : 0);
}

/** Refuse numbers so large that the file, or the reader, has lost the shape between them. */
function refuseFar(
  stepMm: number,
  box: readonly number[],
  largestSideMm: number,
  mmInUnit: number,
  file: string,
  unit: Unit,
): void {
  const largest = farthest(box);
  if (!(largest * mmInUnit < FARTHEST_MM)) {
    const fix = 'Check the unit, and save the solid near the origin.';
    refuse('source/too-far', 'The file has points more than 100000 km from its origin.', fix, { file });
  }
  if (stepMm > Math.max(COARSEST_STEP_MM, COARSEST_SHARE * largestSideMm)) {
    const far = `${numberText(largest, 1)} ${unit}`;
    refuse(
      'source/far-from-origin',
      `The file has points ${far} from its origin; its numbers have about seven digits, so there they move by up to ${numberText(stepMm / 2, 3)} mm.`,
      'Move the solid near the origin in the program it was drawn with, and save it again; as an OBJ it may stay where it is.',
      { file },
    );
  }
}
