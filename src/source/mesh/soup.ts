import { refuse } from '../../findings.ts';
import { MOST_POSTS } from '../../model/landform.ts';

/** Triangles as a file has them, in its own unit: nothing joined, nothing checked. */
export interface Soup {
  /** x, y, z of each point. A Float32Array where the reader keeps no more than that. */
  readonly points: Float32Array | Float64Array;
  /** Three point numbers a triangle; null when the points come three by three. */
  readonly corners: Uint32Array | null;
  /** How finely the points were stored where they lie farthest out; left out when `points` itself tells. */
  readonly step?: number;
}

/** The step between a positive number and the next one of 32 bits. */
export function singleStep(value: number): number {
  let step = 1 / 8388608;
  while (2 * step * 8388608 <= value && step < Infinity) step *= 2;
  return step;
}

const DAMAGED_FIX = 'Save or copy it again; it may have been cut short on the way.';

/** Refuse a file that is its kind by its beginning and cannot be read to its end. */
export const refuseDamaged = (file: string, what: string, line?: number): never =>
  refuse(
    'source/damaged-file',
    `The file is damaged: ${what}.`,
    DAMAGED_FIX,
    line === undefined ? { file } : { file, line },
  );

/** Refuse more triangles than are taken in, before room is made for them; and none at all. */
export function refuseCount(file: string, triangles: number): void {
  if (triangles > MOST_POSTS) {
    const fix = 'Save it with fewer triangles: a millimetre is finer than any hand cuts foam.';
    refuse('source/too-many-triangles', `The file has ${triangles} triangles; at most ${MOST_POSTS} are read.`, fix, {
      file,
    });
  }
  if (triangles === 0) {
    const fix = 'Save the surface of the solid as triangles, with its base and walls.';
    refuse('source/no-surface', 'The file holds no triangles.', fix, { file });
  }
}

/** What a reader of another's making gives; whatever it throws means that the file is damaged. */
export function readBy<T>(file: string, read: () => T): T {
  try {
    return read();
  } catch {
    return refuseDamaged(file, 'its data do not fit its own description');
  }
}

/** A copy of the bytes on their own: the readers take no view of a larger buffer. */
export const ownBuffer = (bytes: Uint8Array, length = bytes.length): ArrayBuffer =>
  bytes.slice(0, length).buffer as ArrayBuffer;

/** Longest text that every engine can hold as one string. */
const MOST_TEXT_BYTES = 400_000_000;

/** The bytes as text. Bytes that are no UTF-8 stand as a replacement sign: they can only be names and comments. */
export function textOf(bytes: Uint8Array, file: string): string {
  if (bytes.length > MOST_TEXT_BYTES) {
    const fix = 'Save it as binary STL or binary PLY, which is five times smaller.';
    refuse('source/too-long', `The file is ${Math.round(bytes.length / 1e6)} MB of text.`, fix, { file });
  }
  return new TextDecoder().decode(bytes);
}
