import { addFace } from './face.ts';
import { isCorners, type PlyElement, type PlyHeader, plyHeader, SIZES } from './ply-header.ts';
import { refuseCount, refuseDamaged, type Soup, textOf } from './soup.ts';

/** Gives the next number of a type. */
type Take = (type: string) => number;

/** More corners than this in one face is no face. */
const MOST_CORNERS = 100_000;

/**
 * Read a PLY: text, or binary of either byte order. Colours, normals and what else it holds are left.
 * Read here and not by three's loader, which drops faces of five corners and more without a word, keeps no more than
 * seven digits of text and writes to the console about a point that is no number.
 */
export function readPly(bytes: Uint8Array, file: string): Soup {
  const header = plyHeader(bytes, file);
  const take = header.format === 'ascii' ? takeText(bytes, header, file) : takeBinary(bytes, header, file);
  let points: Soup['points'] = new Float64Array();
  const faces: number[][] = [];
  for (const element of header.elements) {
    if (element.name === 'vertex') points = vertices(element, take, header.format === 'ascii');
    else others(element, take, file, element.name === 'face' ? faces : null);
  }
  const corners: number[] = [];
  for (const [i, face] of faces.entries()) {
    if (face.length < 3 || face.some((corner) => !(corner >= 0 && 3 * corner < points.length))) {
      refuseDamaged(file, `face ${i + 1} names a point that is not there, or has fewer than three corners`);
    }
    addFace(face, points, corners);
    refuseCount(file, corners.length / 3);
  }
  return { points, corners: Uint32Array.from(corners) };
}

function vertices({ count, properties }: PlyElement, take: Take, isText: boolean): Soup['points'] {
  const axes = properties.map(({ name, countType }) => (countType === null ? ['x', 'y', 'z'].indexOf(name) : -1));
  const isSingle = !isText && properties.some(({ type }, i) => axes[i] >= 0 && SIZES[type] === 4);
  const points = isSingle ? new Float32Array(3 * count) : new Float64Array(3 * count);
  for (let i = 0; i < count; i++) {
    for (let k = 0; k < properties.length; k++) {
      const { type, countType } = properties[k];
      for (let left = countType === null ? 1 : take(countType); left > 0; left--) {
        const value = take(type);
        if (axes[k] >= 0) points[3 * i + axes[k]] = value;
      }
    }
  }
  return points;
}

/** Read past an element; of faces, keep the corners. */
function others({ name, count, properties }: PlyElement, take: Take, file: string, faces: number[][] | null): void {
  for (let i = 0; i < count && properties.length > 0; i++) {
    for (const property of properties) {
      const { type, countType } = property;
      const length = countType === null ? 1 : take(countType);
      if (!(length >= 0 && length <= MOST_CORNERS))
        refuseDamaged(file, `a list of ${name} ${i + 1} has no sensible length`);
      const list: number[] = [];
      for (let k = 0; k < length; k++) list.push(take(type));
      if (faces && isCorners(property)) faces.push(list);
    }
  }
}

function takeText(bytes: Uint8Array, { end }: PlyHeader, file: string): Take {
  const words = textOf(bytes.subarray(end), file).matchAll(/\S+/g);
  return () => {
    const next = words.next();
    return next.done ? refuseDamaged(file, 'it is shorter than its header says') : Number(next.value[0]);
  };
}

function takeBinary(bytes: Uint8Array, { end, format }: PlyHeader, file: string): Take {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const isLittle = format === 'binary_little_endian';
  let at = end;
  return (type) => {
    const start = at;
    at += SIZES[type];
    if (at > bytes.length) refuseDamaged(file, 'it is shorter than its header says');
    if (type === 'float' || type === 'float32') return view.getFloat32(start, isLittle);
    if (type === 'double' || type === 'float64') return view.getFloat64(start, isLittle);
    const isUnsigned = type.startsWith('u');
    if (at - start === 1) return isUnsigned ? view.getUint8(start) : view.getInt8(start);
    if (at - start === 2) return isUnsigned ? view.getUint16(start, isLittle) : view.getInt16(start, isLittle);
    return isUnsigned ? view.getUint32(start, isLittle) : view.getInt32(start, isLittle);
  };
}
