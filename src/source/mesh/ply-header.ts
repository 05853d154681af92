import { latin } from './kind.ts';
import { refuseCount, refuseDamaged } from './soup.ts';

/** Bytes of a number of each type that a header may name. */
export const SIZES: Readonly<Record<string, number>> = {
  ...{ char: 1, uchar: 1, int8: 1, uint8: 1, short: 2, ushort: 2, int16: 2, uint16: 2 },
  ...{ int: 4, uint: 4, int32: 4, uint32: 4, float: 4, float32: 4, double: 8, float64: 8 },
};
const FORMATS = ['ascii', 'binary_little_endian', 'binary_big_endian'] as const;
const LONGEST_HEADER = 65536;

export interface PlyProperty {
  readonly name: string;
  readonly type: string;
  /** Type of the count that goes before a list; null for a single number. */
  readonly countType: string | null;
}

export interface PlyElement {
  readonly name: string;
  readonly count: number;
  readonly properties: PlyProperty[];
}

export interface PlyHeader {
  readonly format: (typeof FORMATS)[number];
  /** In the order in which they follow. One is called vertex and has x, y, z; one face, with a list of corners. */
  readonly elements: readonly PlyElement[];
  /** Where the numbers begin. */
  readonly end: number;
}

/** Whether a face's property is the list of its corners. Both names are in use. */
export const isCorners = ({ name, countType }: PlyProperty): boolean =>
  countType !== null && (name === 'vertex_indices' || name === 'vertex_index');

/** Read the header of a PLY and hold its promises against the file's length, before room is made for anything. */
export function plyHeader(bytes: Uint8Array, file: string): PlyHeader {
  const match = /^ply[\r\n]+([\s\S]*?)[\r\n]end_header[ \t]*(\r\n|\r|\n)/.exec(latin(bytes, LONGEST_HEADER));
  if (!match) return refuseDamaged(file, 'its header does not end');
  const elements: PlyElement[] = [];
  let named = '';
  for (const [number, line] of match[1].split(/\r\n|\r|\n/).entries()) {
    const words = line.trim().split(/\s+/);
    const element = elements.at(-1);
    if (words[0] === 'format') named = words[1];
    else if (words[0] === 'element' && /^\d+$/.test(words[2])) {
      elements.push({ name: words[1], count: Number(words[2]), properties: [] });
    } else if (words[0] === 'property' && element) element.properties.push(propertyOf(words, file, number + 2));
    else if (!['', 'comment', 'obj_info'].includes(words[0])) {
      refuseDamaged(file, 'a line of its header cannot be read', number + 2);
    }
  }
  const format = FORMATS.find((known) => known === named);
  if (!format) return refuseDamaged(file, `its header names no format (${FORMATS.join(', ')})`);
  const vertex = elements.filter(({ name }) => name === 'vertex');
  const face = elements.filter(({ name }) => name === 'face');
  if (vertex.length !== 1 || face.length > 1) refuseDamaged(file, 'its header must list vertices once and faces once');
  refuseCount(file, face[0]?.count ?? 0);
  for (const axis of ['x', 'y', 'z']) {
    if (vertex[0].properties.filter(({ name, countType }) => name === axis && countType === null).length !== 1) {
      refuseDamaged(file, `its vertices have no ${axis}`);
    }
  }
  if (face[0].properties.filter(isCorners).length !== 1) refuseDamaged(file, 'its faces list no vertex_indices');
  const end = match[0].length;
  const least = elements.reduce((sum, element) => sum + element.count * leastBytes(element, format), 0);
  if (end + least > bytes.length + 1) {
    refuseDamaged(file, `its header promises at least ${least} bytes, and ${bytes.length - end} follow`);
  }
  return { format, elements, end };
}

function propertyOf(words: readonly string[], file: string, line: number): PlyProperty {
  const isList = words[1] === 'list';
  const types = isList ? words.slice(2, 4) : words.slice(1, 2);
  const name = words[isList ? 4 : 2];
  if (!name || types.some((type) => !Object.hasOwn(SIZES, type))) {
    refuseDamaged(file, 'a property in its header cannot be read', line);
  }
  return { name, type: types[types.length - 1], countType: isList ? types[0] : null };
}

/** Fewest bytes that one of an element can take: a digit and a space a number in text, an empty list in binary. */
function leastBytes({ properties }: PlyElement, format: string): number {
  let least = 0;
  for (const { type, countType } of properties) least += format === 'ascii' ? 2 : SIZES[countType ?? type];
  return least;
}
