import { refuse } from '../../findings.ts';
import { cornersAt, countAt, type GltfPoints, pointsAt } from './gltf-accessor.ts';
import { type GltfFile, type GltfPrimitive, openGltf, refusePacked } from './gltf-file.ts';
import { isMirrored, type Placing, placedMeshes, stretchOf } from './gltf-nodes.ts';
import { refuseCount, refuseDamaged, type Soup, singleStep } from './soup.ts';

/** How points follow each other (`mode`, glTF 2.0 specification, section 3.7.2.1). Others are points and lines. */
const TRIANGLES = 4;
const STRIP = 5;
const FAN = 6;

/** A file that shows the same mesh so often that there are more triangles than bytes is let in up to this many. */
const MOST_REPEATED = 2_500_000;

/**
 * Read a glTF 2.0 (Khronos), text with embedded buffers or binary. The standard has y up and metres: it comes out z up, x
 * east, its front to the south. Nodes place their meshes in doubles, so that a place far from the origin keeps its small
 * digits. Skins, morph targets and movement are left: a thing that moves is read as it stands at rest.
 * Read here and not by three's loader, which keeps seven digits, ends the process at an embedded buffer and fails where
 * the file has pictures.
 */
export function readGltf(bytes: Uint8Array, isBinary: boolean, file: string): Soup {
  const gltf = openGltf(bytes, isBinary, file);
  const shown: { primitive: GltfPrimitive; placing: Placing; triangles: number }[] = [];
  let total = 0;
  for (const { mesh, placing } of placedMeshes(gltf.content, file)) {
    const found = gltf.content.meshes[mesh];
    if (!found) refuseDamaged(file, `it has no mesh ${mesh}`);
    for (const primitive of found.primitives) {
      const triangles = trianglesOf(gltf, primitive, file);
      if (triangles > 0) shown.push({ primitive, placing, triangles });
      total += triangles;
      if (total > Math.max(MOST_REPEATED, bytes.length)) refuseRepeated(file);
    }
  }
  refuseCount(file, total);
  const points = new Float64Array(9 * total);
  const known = new Map<number, GltfPoints>();
  let step = 0;
  let at = 0;
  for (const { primitive, placing, triangles } of shown) {
    const place = primitive.attributes.POSITION;
    const held = known.get(place) ?? pointsAt(gltf, place, file);
    known.set(place, held);
    const corners = primitive.indices === undefined ? null : cornersAt(gltf, primitive.indices, file);
    refuseAstray(corners, held.points.length / 3, file);
    addTriangles(held.points, corners, primitive.mode, placing, triangles, points, at);
    at += 9 * triangles;
    if (held.isSingle) step = Math.max(step, singleStep(largestOf(held.points)) * stretchOf(placing));
  }
  return { points, corners: null, step };
}

/** How many triangles a primitive has; 0 for points, lines and what has no place. */
function trianglesOf(gltf: GltfFile, { attributes, indices, mode, extensions }: GltfPrimitive, file: string): number {
  if (mode !== TRIANGLES && mode !== STRIP && mode !== FAN) return 0;
  const { POSITION } = attributes;
  if (POSITION === undefined) return 0;
  const packed = Object.keys(extensions).find((name) => /draco/i.test(name));
  if (packed && gltf.content.accessors[POSITION]?.bufferView === undefined) refusePacked(file, packed);
  const points = countAt(gltf, POSITION, file);
  const count = indices === undefined ? points : countAt(gltf, indices, file);
  if (mode !== TRIANGLES) return Math.max(0, count - 2);
  if (count % 3 !== 0) refuseDamaged(file, `a list of triangles has ${count} corners`);
  return count / 3;
}

function addTriangles(
  from: Float64Array,
  corners: Uint32Array | null,
  mode: number,
  m: Placing,
  triangles: number,
  out: Float64Array,
  start: number,
): void {
  const isTurned = isMirrored(m);
  let at = start;
  for (let i = 0; i < triangles; i++) {
    for (let corner = 0; corner < 3; corner++) {
      const k = isTurned ? (3 - corner) % 3 : corner;
      // Every other triangle of a strip runs the other way round.
      let nth = 3 * i + k;
      if (mode === STRIP) nth = i + (i % 2 === 1 && k > 0 ? 3 - k : k);
      if (mode === FAN) nth = k === 0 ? 0 : i + k;
      const p = 3 * (corners ? corners[nth] : nth);
      for (let row = 0; row < 12; row += 4) {
        out[at++] = m[row] * from[p] + m[row + 1] * from[p + 1] + m[row + 2] * from[p + 2] + m[row + 3];
      }
    }
  }
}

function refuseAstray(corners: Uint32Array | null, points: number, file: string): void {
  for (let i = 0; corners && i < corners.length; i++) {
    if (corners[i] >= points) refuseDamaged(file, 'a triangle names a point that is not there');
  }
}

function largestOf(points: Float64Array): number {
  let largest = 0;
  for (let i = 0; i < points.length; i++) if (Math.abs(points[i]) > largest) largest = Math.abs(points[i]);
  return largest;
}

const refuseRepeated = (file: string): never =>
  refuse(
    'source/too-many-triangles',
    `The file shows the same meshes again and again: more than ${MOST_REPEATED} triangles.`,
    'Save it with fewer copies or fewer triangles.',
    { file },
  );
