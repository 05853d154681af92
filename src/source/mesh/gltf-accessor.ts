import { type GltfAccessor, type GltfFile, refusePacked } from './gltf-file.ts';
import { refuseDamaged } from './soup.ts';

interface Component {
  readonly bytes: number;
  get(view: DataView, at: number): number;
  /** What stands for 1 when whole numbers are shares of it. */
  readonly one: number;
}

const FLOAT = 5126;

/** By `componentType` (glTF 2.0 specification, section 3.6.2.2). */
const COMPONENTS: Readonly<Record<number, Component>> = {
  5120: { bytes: 1, get: (view, at) => view.getInt8(at), one: 127 },
  5121: { bytes: 1, get: (view, at) => view.getUint8(at), one: 255 },
  5122: { bytes: 2, get: (view, at) => view.getInt16(at, true), one: 32767 },
  5123: { bytes: 2, get: (view, at) => view.getUint16(at, true), one: 65535 },
  5125: { bytes: 4, get: (view, at) => view.getUint32(at, true), one: 4294967295 },
  [FLOAT]: { bytes: 4, get: (view, at) => view.getFloat32(at, true), one: 1 },
};

/** Where points may be stored as: floats, and by KHR_mesh_quantization whole numbers of one or two bytes. */
const OF_POINTS = [FLOAT, 5120, 5121, 5122, 5123];
const OF_CORNERS = [5121, 5123, 5125];

export interface GltfPoints {
  /** x, y, z of each point, as the file has them: y up. */
  readonly points: Float64Array;
  /** Whether they were stored with 32-bit floats. */
  readonly isSingle: boolean;
}

/** The points that an accessor holds. */
export function pointsAt(gltf: GltfFile, index: number, file: string): GltfPoints {
  const accessor = accessorAt(gltf, index, 'VEC3', OF_POINTS, file);
  const points = new Float64Array(3 * accessor.count);
  fill(gltf, accessor, 3, points, file);
  if (accessor.normalized && accessor.componentType !== FLOAT) {
    const { one } = COMPONENTS[accessor.componentType];
    for (let i = 0; i < points.length; i++) points[i] = Math.max(-1, points[i] / one);
  }
  return { points, isSingle: accessor.componentType === FLOAT };
}

/** The point numbers that an accessor holds. */
export function cornersAt(gltf: GltfFile, index: number, file: string): Uint32Array {
  const accessor = accessorAt(gltf, index, 'SCALAR', OF_CORNERS, file);
  const corners = new Uint32Array(accessor.count);
  fill(gltf, accessor, 1, corners, file);
  return corners;
}

/** How many points or point numbers an accessor promises. What it has no bytes for is refused, before room is made. */
export function countAt(gltf: GltfFile, index: number, file: string): number {
  const accessor = gltf.content.accessors[index];
  if (!accessor) return refuseDamaged(file, `it has no accessor ${index}`);
  const component = COMPONENTS[accessor.componentType];
  if (!component) return refuseDamaged(file, `accessor ${index} holds numbers of an unknown kind`);
  const { bufferView, sparse, count } = accessor;
  // Points at the origin, but for those that `sparse` puts elsewhere: as many as it puts are plenty.
  const held = bufferView === undefined ? 8 * (sparse?.count ?? 0) : gltf.content.bufferViews[bufferView]?.byteLength;
  if (count > (held ?? 0)) refuseDamaged(file, `accessor ${index} promises ${count} entries and has no room for them`);
  return count;
}

function accessorAt(gltf: GltfFile, index: number, type: string, kinds: readonly number[], file: string): GltfAccessor {
  countAt(gltf, index, file);
  const accessor = gltf.content.accessors[index];
  if (accessor.type !== type || !kinds.includes(accessor.componentType)) {
    refuseDamaged(file, `accessor ${index} does not hold what it is used for`);
  }
  return accessor;
}

function fill(gltf: GltfFile, accessor: GltfAccessor, width: number, out: Float64Array | Uint32Array, file: string) {
  const { bufferView, byteOffset, componentType, count, sparse } = accessor;
  const { bytes, get } = COMPONENTS[componentType];
  if (bufferView !== undefined) {
    const { view, stride } = viewAt(gltf, bufferView, byteOffset, bytes * width, count, file);
    for (let i = 0; i < count; i++) {
      for (let k = 0; k < width; k++) out[width * i + k] = get(view, i * stride + k * bytes);
    }
  }
  if (!sparse) return;
  const { indices, values } = sparse;
  const kind = COMPONENTS[indices.componentType];
  if (!OF_CORNERS.includes(indices.componentType)) refuseDamaged(file, 'a sparse accessor counts in an unknown kind');
  const at = viewAt(gltf, indices.bufferView, indices.byteOffset, kind.bytes, sparse.count, file);
  const put = viewAt(gltf, values.bufferView, values.byteOffset, bytes * width, sparse.count, file);
  for (let i = 0; i < sparse.count; i++) {
    const place = kind.get(at.view, i * kind.bytes);
    if (place >= count) refuseDamaged(file, 'a sparse accessor puts a point where there is none');
    for (let k = 0; k < width; k++) out[width * place + k] = get(put.view, (i * width + k) * bytes);
  }
}

/** The bytes of so many elements, held against the buffer view and the buffer. */
function viewAt(gltf: GltfFile, index: number, offset: number, width: number, count: number, file: string) {
  const held = gltf.content.bufferViews[index];
  if (!held) return refuseDamaged(file, `it has no buffer view ${index}`);
  const packed = Object.keys(held.extensions).find((name) => /meshopt/i.test(name));
  if (packed) refusePacked(file, packed);
  const stride = held.byteStride ?? width;
  const buffer = gltf.bufferAt(held.buffer);
  const isWithin =
    offset + stride * (count - 1) + width <= held.byteLength && held.byteOffset + held.byteLength <= buffer.length;
  if (!isWithin || stride < width) refuseDamaged(file, `buffer view ${index} is shorter than what is to be read of it`);
  const view = new DataView(buffer.buffer, buffer.byteOffset + held.byteOffset + offset);
  return { view, stride };
}
