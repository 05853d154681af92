import { deflateSync } from 'node:zlib';
import type { Solid } from '../../src/model/landform.ts';
import { binaryStl } from './solid-files.ts';
import { insideOut, mapped, prism, together } from './solids.ts';

export const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

/** A grey PNG of 8 bits; without `grey` it only claims its size and holds a thousand zeros. */
function greyPng(width: number, height: number, grey?: (x: number, y: number) => number): Uint8Array {
  const rows = grey
    ? Array.from({ length: height }, (_, y) => [0, ...Array.from({ length: width }, (_, x) => grey(x, y))])
    : [new Array(1000).fill(0)];
  const header = Buffer.from([0, 0, 0, 0, 0, 0, 0, 0, 8, 0, 0, 0, 0]);
  header.writeUInt32BE(width, 0);
  header.writeUInt32BE(height, 4);
  const chunks = [
    chunk('IHDR', header),
    chunk('IDAT', deflateSync(Uint8Array.from(rows.flat()))),
    chunk('IEND', Buffer.alloc(0)),
  ];
  return new Uint8Array(Buffer.concat([Buffer.from('89504e470d0a1a0a', 'hex'), ...chunks]));
}

function chunk(name: string, body: Uint8Array): Buffer {
  const made = Buffer.concat([Buffer.alloc(4), Buffer.from(name, 'latin1'), body, Buffer.alloc(4)]);
  made.writeUInt32BE(body.length, 0);
  made.writeUInt32BE(checksum(made.subarray(4, -4)), made.length - 4);
  return made;
}

/** The CRC of PNG (third edition, annex D), bit by bit. */
function checksum(of: Uint8Array): number {
  let crc = 0xffffffff;
  for (const byte of of) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit++) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
  }
  return ~crc >>> 0;
}

/** A rock with a lopsided foot, 410 × 250 mm and 90 mm high: 12 triangles. */
export const rock: Solid = prism(
  [
    [0, 40],
    [310, 0],
    [410, 250],
    [30, 190],
  ],
  0,
  90,
);

const moved = (factors: readonly number[], by: readonly number[]): Solid =>
  mapped(rock, (...at) => at.map((value, axis) => value * factors[axis] + by[axis]) as [number, number, number]);

/** A binary STL with one number of its bytes set. */
function stlWith(set: (view: DataView) => void): Uint8Array {
  const file = binaryStl(rock);
  set(new DataView(file.buffer));
  return file;
}

const slope = (x: number, y: number) => 20 * x + y;
const HEAD = 'ncols 3\nnrows 2\ncellsize 100\n';
const points = (n: number) => `element vertex ${n}\nproperty float x\nproperty float y\nproperty float z\n`;
const OFFCUT = {
  name: 'K3',
  material: 'EPS',
  thicknessMm: 25,
  densityKgM3: 15,
  rings: [[0, 0, 890, 0, 890, 610, 0, 600]],
};
const kept = (...list: object[]) =>
  bytes(JSON.stringify({ lynchet: 1, offcuts: list.map((said) => ({ ...OFFCUT, from: 'a job', ...said })) }));

/** Files by the names under which jobs ask for them. */
export const FILES: Readonly<Record<string, Uint8Array>> = {
  'slope.png': greyPng(9, 7, slope),
  'jpeg.png': Uint8Array.from([0xff, 0xd8, 0xff, 0xe0, 0, 16, 74, 70, 73, 70]),
  'text.png': bytes('grey'),
  'empty.png': bytes(''),
  'cut.png': greyPng(90, 70, (x, y) => (x * y) % 251).slice(0, 300),
  'endless.png': greyPng(9, 7, slope).slice(0, -6),
  'one.png': greyPng(1, 1, slope),
  'black.png': greyPng(9, 7, () => 0),
  'huge.png': greyPng(60_000, 40_000),
  'hollow.png': greyPng(9000, 8000),

  'slope.asc': bytes(`${HEAD}30 60 90\n20 40 70\n`),
  'png.asc': greyPng(9, 7, slope),
  'page.asc': bytes('<!doctype html><p>404'),
  'ragged.asc': bytes(`${HEAD}101 202 303\n404 505\n`),
  'words.asc': bytes(`${HEAD}101 202 303\n404 five 606\n`),
  'nan.asc': bytes(`${HEAD}101 nan 303\n404 505 606\n`),
  'inf.asc': bytes(`${HEAD}101 202 1e999\n404 505 606\n`),
  'void.asc': bytes(`${HEAD}-9999 -9999 -9999\n-9999 -9999 -9999\n`),
  'holes.asc': bytes(`${HEAD}101 -9999 303\n-9999 505 606\n`),
  'still.asc': bytes('ncols 3\nnrows 2\ncellsize 0\n1 2 3\n4 5 6\n'),
  'narrow.asc': bytes('ncols 3\nnrows 2\ncellsize 0.0001\n31 42 53\n64 75 86\n'),
  'huge.asc': bytes('ncols 70000\nnrows 90000\ncellsize 100\n101 202 303\n'),
  'short.asc': bytes('ncols 7000\nnrows 9000\ncellsize 100\n101 202 303\n'),

  'rock.stl': binaryStl(rock),
  'stl.obj': binaryStl(rock),
  'png.stl': greyPng(9, 7, slope),
  'empty.stl': bytes(''),
  'cut.stl': binaryStl(rock).slice(0, 333),
  'cut-text.stl': bytes('solid rock\nfacet normal 0 0 1\nouter loop\nvertex 0 0'),
  'nan.stl': stlWith((view) => view.setFloat32(84 + 12, Number.NaN, true)),
  'huge.stl': stlWith((view) => view.setUint32(80, 4_000_000_000, true)),
  'inf.obj': bytes('v 0 0 inf\nv 9 0 0\nv 0 7 0\nf 1 2 3\n'),
  'astray.obj': bytes('v 0 0 0\nv 9 0 0\nv 0 7 0\nf 1 2 99\n'),
  'huge.ply': bytes(
    `ply\nformat ascii 1.0\n${points(9)}element face 3000000000\nproperty list uchar int vertex_indices\nend_header\n`,
  ),
  'none.obj': bytes('# nothing\n'),
  'open.stl': binaryStl({ ...rock, triangles: rock.triangles.slice(0, -3) }),
  'flat.stl': binaryStl(moved([1, 1, 0], [0, 0, 0])),
  'inside-out.stl': binaryStl(insideOut(rock)),
  'crossing.stl': binaryStl(together(rock, moved([0.7, 0.8, 0.6], [190, 13, 0]))),
  'metres.stl': binaryStl(moved([0.001, 0.001, 0.001], [0, 0, 0])),
  'floating.stl': binaryStl(moved([1, 1, 1], [0, 0, 40])),
  'sunk.stl': binaryStl(moved([1, 1, 1], [0, 0, -35])),

  'kept.json': kept({}),
  'text.json': bytes('two good ones'),
  'plan.json': bytes('{ "lynchet": 1, "boards": [] }'),
  'none.json': kept(),
  'twice.json': kept({}, { thicknessMm: 30 }),
  'crossing.json': kept({ rings: [[0, 0, 890, 610, 890, 0, 0, 500]] }),
  'odd.json': kept({ rings: [[0, 0, 890, 0, 890]] }),
  'outside.json': kept({ rings: [...OFFCUT.rings, [900, 700, 950, 700, 950, 790]] }),
  'thin.json': kept({ thicknessMm: 20 }),
  'endless.json': bytes(
    JSON.stringify({ lynchet: 1, offcuts: [{ ...OFFCUT, from: '', densityKgM3: 'D' }] }).replace('"D"', '1e999'),
  ),
};
