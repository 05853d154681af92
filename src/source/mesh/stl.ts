import { STL_HEADER, STL_TRIANGLE, stlCount } from './kind.ts';
import { ownBuffer, readBy, refuseCount, refuseDamaged, type Soup, textOf } from './soup.ts';

/** Read a binary STL. Exactly as many bytes as its count says: more may follow in the file, fewer not. */
export async function readBinaryStl(bytes: Uint8Array, file: string): Promise<Soup> {
  const triangles = stlCount(bytes);
  const length = STL_HEADER + STL_TRIANGLE * triangles;
  if (length > bytes.length) {
    const held = Math.floor((bytes.length - STL_HEADER) / STL_TRIANGLE);
    refuseDamaged(file, `its header says ${triangles} triangles, and it has room for ${held}`);
  }
  refuseCount(file, triangles);
  const { STLLoader } = await import('three/addons/loaders/STLLoader.js');
  const read = readBy(file, () => new STLLoader().parse(ownBuffer(bytes, length)).getAttribute('position')?.array);
  return { points: read as Float32Array, corners: null };
}

const CORNER = /\bvertex\s+(\S+)\s+(\S+)\s+(\S+)/g;

/**
 * Read a text STL, small letters or capitals. Its normals, which may be no numbers, and names, which may be any words,
 * are left. Read here and not by three's loader, which writes to the console about a damaged facet and goes on.
 */
export function readTextStl(bytes: Uint8Array, file: string): Soup {
  const text = textOf(bytes, file)
    .toLowerCase()
    .replace(/^[ \t]*(solid|endsolid)\b(?:(?!facet\s+normal)[^\n])*/gm, '$1 ');
  const facets = countOf(text, 'endfacet');
  const [starts, corners, ends] = ['facet', 'vertex', 'endsolid'].map((word) => countOf(text, word));
  if (starts !== 2 * facets || corners !== 3 * facets || ends === 0) {
    refuseDamaged(file, `it begins ${starts - facets} facets, ends ${facets}, and lists ${corners} corners`);
  }
  refuseCount(file, facets);
  const points = new Float64Array(9 * facets);
  let at = 0;
  for (const [, x, y, z] of text.matchAll(CORNER)) {
    points[at++] = Number(x);
    points[at++] = Number(y);
    points[at++] = Number(z);
  }
  if (at !== points.length) refuseDamaged(file, 'a corner is not three numbers');
  return { points, corners: null };
}

function countOf(text: string, word: string): number {
  let count = 0;
  for (let at = text.indexOf(word); at >= 0; at = text.indexOf(word, at + word.length)) count++;
  return count;
}
