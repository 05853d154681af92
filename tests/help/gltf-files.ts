import type { Solid } from '../../src/model/landform.ts';

const encoder = new TextEncoder();

/** A glTF document and the bytes of its only buffer. */
export interface Gltf {
  readonly json: Record<string, unknown>;
  readonly bytes: Uint8Array;
}

/** Puts arrays into one buffer, each with a view and an accessor of its own; every array starts at a multiple of four. */
export class GltfBuffer {
  readonly views: Record<string, unknown>[] = [];
  readonly accessors: Record<string, unknown>[] = [];
  readonly #pieces: Uint8Array[] = [];
  #length = 0;

  /** The number of a view over some bytes. */
  view(bytes: Uint8Array, more: Record<string, unknown> = {}): number {
    const padded = new Uint8Array(Math.ceil(bytes.length / 4) * 4);
    padded.set(bytes);
    this.#pieces.push(padded);
    this.views.push({ buffer: 0, byteOffset: this.#length, byteLength: bytes.length, ...more });
    this.#length += padded.length;
    return this.views.length - 1;
  }

  /** The number of an accessor over an array of numbers. */
  add(
    array: Float32Array | Uint32Array | Uint16Array | Uint8Array | Int16Array | Int8Array,
    type: 'VEC3' | 'SCALAR',
    more: Record<string, unknown> = {},
  ): number {
    const bufferView = this.view(new Uint8Array(array.buffer, array.byteOffset, array.byteLength));
    const width = type === 'VEC3' ? 3 : 1;
    return this.accessor({ bufferView, componentType: kindOf(array), count: array.length / width, type, ...more });
  }

  accessor(said: Record<string, unknown>): number {
    this.accessors.push(said);
    return this.accessors.length - 1;
  }

  done(json: Record<string, unknown>): Gltf {
    const bytes = new Uint8Array(this.#length);
    let at = 0;
    for (const piece of this.#pieces) {
      bytes.set(piece, at);
      at += piece.length;
    }
    const { views: bufferViews, accessors } = this;
    return { json: { asset: { version: '2.0' }, accessors, bufferViews, ...json }, bytes };
  }
}

const kindOf = (array: object): number =>
  array instanceof Float32Array
    ? 5126
    : array instanceof Uint32Array
      ? 5125
      : array instanceof Uint16Array
        ? 5123
        : array instanceof Uint8Array
          ? 5121
          : array instanceof Int16Array
            ? 5122
            : 5120;

/** x east, y up, z south, in metres, as the standard has it: from millimetres with z up. */
export const yUp = (positionsMm: Float64Array): Float32Array =>
  Float32Array.from(positionsMm, (_, i) => {
    const at = 3 * Math.floor(i / 3);
    return [positionsMm[at], positionsMm[at + 2], -positionsMm[at + 1]][i % 3] / 1000;
  });

/** A solid as one mesh under one node. */
export function gltfOf({ positionsMm, triangles }: Solid): Gltf {
  const buffer = new GltfBuffer();
  const POSITION = buffer.add(yUp(positionsMm), 'VEC3');
  const indices = buffer.add(triangles, 'SCALAR');
  return buffer.done({
    scene: 0,
    scenes: [{ nodes: [0] }],
    nodes: [{ mesh: 0, name: 'rock' }],
    meshes: [{ primitives: [{ attributes: { POSITION }, indices }] }],
  });
}

/** As a .gltf with its buffer embedded. */
export function embedded({ json, bytes }: Gltf): Uint8Array {
  const uri = `data:application/octet-stream;base64,${Buffer.from(bytes).toString('base64')}`;
  return encoder.encode(JSON.stringify({ ...json, buffers: [{ byteLength: bytes.length, uri }] }, null, 1));
}

/** As a .glb. */
export function glb({ json, bytes }: Gltf): Uint8Array {
  const text = encoder.encode(JSON.stringify({ ...json, buffers: [{ byteLength: bytes.length }] }));
  const [first, second] = [Math.ceil(text.length / 4) * 4, Math.ceil(bytes.length / 4) * 4];
  const made = new Uint8Array(28 + first + second);
  const view = new DataView(made.buffer);
  view.setUint32(0, 0x46546c67, true);
  view.setUint32(4, 2, true);
  view.setUint32(8, made.length, true);
  view.setUint32(12, first, true);
  view.setUint32(16, 0x4e4f534a, true);
  made.fill(0x20, 20, 20 + first);
  made.set(text, 20);
  view.setUint32(20 + first, second, true);
  view.setUint32(24 + first, 0x004e4942, true);
  made.set(bytes, 28 + first);
  return made;
}
