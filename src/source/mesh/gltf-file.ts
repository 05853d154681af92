import { z } from 'zod';
import { refuse } from '../../findings.ts';
import { fromBase64 } from './base64.ts';
import { refuseDamaged, textOf } from './soup.ts';

const index = z.int().min(0);
const size = z.int().min(0);
const vector = (length: number) => z.array(z.number()).length(length).optional();
const extensions = z.record(z.string(), z.unknown()).default({});

const accessor = z.object({
  bufferView: index.optional(),
  byteOffset: size.default(0),
  componentType: z.int(),
  normalized: z.boolean().default(false),
  count: z.int().min(1),
  type: z.string(),
  sparse: z
    .object({
      count: z.int().min(1),
      indices: z.object({ bufferView: index, byteOffset: size.default(0), componentType: z.int() }),
      values: z.object({ bufferView: index, byteOffset: size.default(0) }),
    })
    .optional(),
});

const primitive = z.object({
  attributes: z.record(z.string(), index),
  indices: index.optional(),
  mode: z.int().default(4),
  extensions,
});

const node = z.object({
  mesh: index.optional(),
  children: z.array(index).default([]),
  matrix: vector(16),
  translation: vector(3),
  rotation: vector(4),
  scale: vector(3),
});

/** What of a glTF says where triangles are. Materials, pictures, cameras, lights, skins and movement are left. */
const content = z.object({
  asset: z.object({ version: z.string(), minVersion: z.string().optional() }),
  extensionsRequired: z.array(z.string()).default([]),
  scene: index.optional(),
  scenes: z.array(z.object({ nodes: z.array(index).default([]) })).default([]),
  nodes: z.array(node).default([]),
  meshes: z.array(z.object({ primitives: z.array(primitive) })).default([]),
  accessors: z.array(accessor).default([]),
  bufferViews: z
    .array(
      z.object({
        buffer: index,
        byteOffset: size.default(0),
        byteLength: size,
        byteStride: z.int().min(4).max(252).optional(),
        extensions,
      }),
    )
    .default([]),
  buffers: z.array(z.object({ uri: z.string().optional(), byteLength: size })).default([]),
});

export type GltfContent = z.output<typeof content>;
export type GltfAccessor = z.output<typeof accessor>;
export type GltfNode = z.output<typeof node>;
export type GltfPrimitive = z.output<typeof primitive>;

export interface GltfFile {
  readonly content: GltfContent;
  /** The bytes of a buffer: embedded, or the binary rest of a .glb. */
  bufferAt(index: number): Uint8Array;
}

/** Extensions that triangles may be packed with, and others that move or repeat them. */
const PACKED = /draco|meshopt/i;
/** Required extensions that leave the surface where it is, or are read here. */
const HARMLESS = /^(KHR_mesh_quantization|(KHR|EXT)_(materials|texture|lights|animation|xmp|lightmap|image)_.*)$/;

/** Open a glTF 2.0, text or binary (Khronos, glTF 2.0 specification, sections 3.6 and 4.4). */
export function openGltf(bytes: Uint8Array, isBinary: boolean, file: string): GltfFile {
  const { text, rest } = isBinary ? chunks(bytes, file) : { text: bytes, rest: null };
  const read = content.safeParse(parsed(textOf(text, file), file));
  if (!read.success) {
    const [{ path, message }] = read.error.issues;
    return refuseDamaged(file, `${path.join('.') || 'its description'}: ${message}`);
  }
  const made = read.data;
  if (!made.asset.version.startsWith('2.')) {
    const fix = 'Save it as glTF 2.0, or as STL, OBJ or PLY.';
    refuse('source/other-kind', `The file is glTF ${made.asset.version.slice(0, 9)}; glTF 2.0 is read.`, fix, { file });
  }
  for (const name of made.extensionsRequired) {
    if (PACKED.test(name)) refusePacked(file, name);
    if (!HARMLESS.test(name)) refuseExtension(file, name);
  }
  const known = new Map<number, Uint8Array>();
  const bufferAt = (at: number): Uint8Array => {
    let held = known.get(at);
    if (!held) known.set(at, (held = bufferOf(made, at, rest, file)));
    return held;
  };
  return { content: made, bufferAt };
}

export const refusePacked = (file: string, extension: string): never =>
  refuse(
    'source/packed',
    `The file's triangles are packed by ${extension.slice(0, 60)}, which is not read.`,
    'Save it without compression, or as STL, OBJ or PLY.',
    { file },
  );

const refuseExtension = (file: string, extension: string): never =>
  refuse(
    'source/extension',
    `The file cannot be read without the extension ${extension.slice(0, 60)}, which is not known here.`,
    'Save it as plain glTF 2.0, or as STL, OBJ or PLY.',
    { file },
  );

function bufferOf({ buffers }: GltfContent, at: number, rest: Uint8Array | null, file: string): Uint8Array {
  const buffer = buffers[at];
  if (!buffer) return refuseDamaged(file, `it has no buffer ${at}`);
  const bytes = buffer.uri === undefined ? (at === 0 ? rest : null) : embedded(buffer.uri, file);
  if (!bytes || bytes.length < buffer.byteLength) {
    return refuseDamaged(file, `buffer ${at} should have ${buffer.byteLength} bytes, and has ${bytes?.length ?? 0}`);
  }
  return bytes.subarray(0, buffer.byteLength);
}

function embedded(uri: string, file: string): Uint8Array {
  const match = /^data:[^,]{0,200};base64,/i.exec(uri);
  if (!match) {
    const where = uri.startsWith('data:') ? 'in a form that is not read' : `in another file, ${uri.slice(0, 60)}`;
    const fix = 'Save it as one file: .glb, or .gltf with everything embedded.';
    refuse('source/other-file', `The file's numbers are kept ${where}.`, fix, { file });
  }
  return fromBase64(uri, match?.[0].length ?? 0) ?? refuseDamaged(file, 'an embedded buffer is no base64');
}

function parsed(text: string, file: string): unknown {
  try {
    return JSON.parse(text.replace(/^\ufeff/, ''));
  } catch {
    return refuseDamaged(file, 'its description is no JSON');
  }
}

const JSON_CHUNK = 0x4e4f534a;
const BINARY_CHUNK = 0x004e4942;

/** The two chunks of a .glb. */
function chunks(bytes: Uint8Array, file: string): { text: Uint8Array; rest: Uint8Array | null } {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const length = bytes.length >= 20 ? view.getUint32(8, true) : Infinity;
  if (length > bytes.length) refuseDamaged(file, `it should have ${length} bytes, and has ${bytes.length}`);
  const version = view.getUint32(4, true);
  if (version !== 2) refuseDamaged(file, `it says that it is version ${version} of binary glTF; there is 2`);
  let text: Uint8Array | null = null;
  let rest: Uint8Array | null = null;
  for (let at = 12; at + 8 <= length; ) {
    const size = view.getUint32(at, true);
    const kind = view.getUint32(at + 4, true);
    if (at + 8 + size > length) refuseDamaged(file, 'a chunk goes beyond its end');
    const chunk = bytes.subarray(at + 8, at + 8 + size);
    if (kind === JSON_CHUNK) text ??= chunk;
    if (kind === BINARY_CHUNK) rest ??= chunk;
    at += 8 + size;
  }
  return text ? { text, rest } : refuseDamaged(file, 'it has no description');
}
