import type { Solid } from '../../src/model/landform.ts';

const encoder = new TextEncoder();
const corner = ({ positionsMm, triangles }: Solid, i: number) =>
  positionsMm.subarray(3 * triangles[i], 3 * triangles[i] + 3);

export function binaryStl(solid: Solid, header = 'a rock'): Uint8Array {
  const count = solid.triangles.length / 3;
  const bytes = new Uint8Array(84 + 50 * count);
  bytes.set(encoder.encode(header));
  const view = new DataView(bytes.buffer);
  view.setUint32(80, count, true);
  for (let i = 0; i < solid.triangles.length; i++) {
    const at = 84 + 50 * Math.floor(i / 3) + 12 + 12 * (i % 3);
    corner(solid, i).forEach((value, axis) => {
      view.setFloat32(at + 4 * axis, value, true);
    });
  }
  return bytes;
}

export function textStl(solid: Solid, name = 'rock'): Uint8Array {
  const lines = [`solid ${name}`];
  for (let i = 0; i < solid.triangles.length; i += 3) {
    lines.push('facet normal 0 0 0', 'outer loop');
    for (let k = 0; k < 3; k++) lines.push(`vertex ${[...corner(solid, i + k)].join(' ')}`);
    lines.push('endloop', 'endfacet');
  }
  return encoder.encode(`${[...lines, `endsolid ${name}`].join('\n')}\n`);
}

export function obj({ positionsMm, triangles }: Solid): Uint8Array {
  const lines = ['# a rock', 'o rock'];
  for (let i = 0; i < positionsMm.length; i += 3) lines.push(`v ${[...positionsMm.subarray(i, i + 3)].join(' ')}`);
  for (let i = 0; i < triangles.length; i += 3) {
    lines.push(`f ${[...triangles.subarray(i, i + 3)].map((v) => `${v + 1}//${v + 1}`).join(' ')}`);
  }
  return encoder.encode(`${lines.join('\n')}\n`);
}

export const PLY_FORMATS = ['ascii', 'binary_little_endian', 'binary_big_endian'] as const;

export function ply(
  { positionsMm, triangles }: Solid,
  format: (typeof PLY_FORMATS)[number],
  type = 'float',
): Uint8Array {
  const header = encoder.encode(
    [
      'ply',
      `format ${format} 1.0`,
      'comment a rock',
      `element vertex ${positionsMm.length / 3}`,
      ...['x', 'y', 'z'].map((axis) => `property ${type} ${axis}`),
      `element face ${triangles.length / 3}`,
      'property list uchar int vertex_indices',
      'end_header\n',
    ].join('\n'),
  );
  if (format === 'ascii') {
    const lines: string[] = [];
    for (let i = 0; i < positionsMm.length; i += 3) lines.push([...positionsMm.subarray(i, i + 3)].join(' '));
    for (let i = 0; i < triangles.length; i += 3) lines.push(`3 ${[...triangles.subarray(i, i + 3)].join(' ')}`);
    return joined(header, encoder.encode(`${lines.join('\n')}\n`));
  }
  const isLittle = format === 'binary_little_endian';
  const size = type === 'double' ? 8 : 4;
  const body = new DataView(new ArrayBuffer(positionsMm.length * size + (triangles.length / 3) * 13));
  let at = 0;
  for (const value of positionsMm) {
    if (size === 8) body.setFloat64(at, value, isLittle);
    else body.setFloat32(at, value, isLittle);
    at += size;
  }
  triangles.forEach((v, i) => {
    if (i % 3 === 0) body.setUint8(at++, 3);
    body.setInt32(at, v, isLittle);
    at += 4;
  });
  return joined(header, new Uint8Array(body.buffer));
}

export function joined(...pieces: readonly Uint8Array[]): Uint8Array {
  const all = new Uint8Array(pieces.reduce((sum, piece) => sum + piece.length, 0));
  let at = 0;
  for (const piece of pieces) {
    all.set(piece, at);
    at += piece.length;
  }
  return all;
}
