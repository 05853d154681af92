import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { CannotMake, type Finding } from '../../src/findings.ts';
import { areaOf } from '../../src/geometry/ring.ts';
import { extent, type Solid } from '../../src/model/landform.ts';
import { solidOutlines } from '../../src/slice/layers/solid.ts';
import { mesh } from '../../src/source/mesh.ts';
import type { Unit } from '../../src/units.ts';
import { walkNow } from '../../src/walk.ts';
import { binaryStl, joined, obj, PLY_FORMATS, ply, textStl } from '../help/solid-files.ts';
import { insideOut, mapped, prism, solid, together, turned } from '../help/solids.ts';

const text = (value: string) => new TextEncoder().encode(value);

async function read(bytes: Uint8Array, file: string, unit: Unit = 'mm'): Promise<{ solid: Solid; told: Finding[] }> {
  const told: Finding[] = [];
  const context = { facts: {}, others: {}, tell: (finding: Finding) => told.push(finding), random: () => 0.5 };
  const made = await (mesh.run(new Map([[file, bytes]]), { file, unit, close: 10 }, context) as Promise<Solid>);
  return { solid: made, told };
}

async function refusal(bytes: Uint8Array, file: string, unit: Unit = 'mm') {
  const error = await read(bytes, file, unit).then(
    () => null,
    (reason: unknown) => reason,
  );
  expect(error).toBeInstanceOf(CannotMake);
  const [fault] = (error as CannotMake).faults;
  expect(fault.fix).not.toBe('');
  expect(fault.where.file).toBe(file);
  return fault;
}

/** Nothing is said behind the findings' back. */
const CONSOLE = ['log', 'warn', 'error'] as const;
beforeEach(() => {
  for (const method of CONSOLE) vi.spyOn(console, method);
});
afterEach(() => {
  for (const method of CONSOLE) expect(console[method]).not.toHaveBeenCalled();
  vi.restoreAllMocks();
});

const ROCK = turned(
  [
    [0, 4],
    [130, 4],
    [170, 71],
    [96, 152.5],
    [0, 181],
  ],
  13,
  -40,
  310,
);
/** The rock on a grid of whole thousandths, as a reader gives it. */
const volumeOf = ({ positionsMm: p, triangles: t }: Solid) => {
  let volume = 0;
  for (let i = 0; i < t.length; i += 3) {
    const [a, b, c] = [3 * t[i], 3 * t[i + 1], 3 * t[i + 2]];
    const cross = (p[b] - p[a]) * (p[c + 1] - p[a + 1]) - (p[c] - p[a]) * (p[b + 1] - p[a + 1]);
    volume += (cross * (p[a + 2] + p[b + 2] + p[c + 2])) / 6;
  }
  return volume;
};

const FILES: [string, string, Uint8Array][] = [
  ['binary STL', 'rock.stl', binaryStl(ROCK)],
  ['binary STL whose header says solid', 'rock.STL', binaryStl(ROCK, 'solid rock')],
  ['binary STL with bytes after its end', 'rock.stl', joined(binaryStl(ROCK), text('made by hand'))],
  ['text STL', 'rock.stl', textStl(ROCK, 'facet vertex 3')],
  ['text STL in capitals', 'rock.stl', text(new TextDecoder().decode(textStl(ROCK)).toUpperCase())],
  ['OBJ', 'rock.obj', obj(ROCK)],
  ...PLY_FORMATS.flatMap((format): [string, string, Uint8Array][] => [
    [`PLY ${format}`, 'rock.ply', ply(ROCK, format)],
    [`PLY ${format} of doubles`, 'rock.ply', ply(ROCK, format, 'double')],
  ]),
  ['file with a name that says nothing', 'rock', binaryStl(ROCK)],
];

test.each(FILES)('%s comes back as it was written', async (_, file, bytes) => {
  const { solid: made, told } = await read(bytes, file);
  expect(told).toEqual([]);
  expect(made.triangles.length).toBe(ROCK.triangles.length);
  // Joined: as many points as the turned profile has, not three a triangle.
  expect(made.positionsMm.length).toBe(ROCK.positionsMm.length);
  const { box, lowMm, highMm } = extent(made);
  expect([box[0], box[1], lowMm, highMm]).toEqual([0, 0, 4, 181]);
  expect(volumeOf(made) / volumeOf(ROCK)).toBeCloseTo(1, 6);
  for (const value of made.positionsMm) {
    expect(Math.round(value * 1000) / 1000).toBe(value);
    expect(Object.is(value, -0)).toBe(false);
  }
});

test('a view into a larger buffer is read from its own start', async () => {
  const bytes = binaryStl(ROCK);
  const padded = joined(text('left over '), bytes, text(' more'));
  const { solid: made } = await read(padded.subarray(10, 10 + bytes.length), 'rock.stl');
  expect(made.triangles.length).toBe(ROCK.triangles.length);
});

test('a solid in metres or inches has its heights in whole thousandths, so a flat top lies in its level', async () => {
  for (const [unit, mmInUnit] of [
    ['m', 1000],
    ['in', 25.4],
    ['ft', 304.8],
  ] as const) {
    const block = prism(
      [
        [12, 15],
        [430, 31],
        [395, 277],
      ],
      0,
      350,
    );
    const stored = mapped(block, (x, y, z) => [x / mmInUnit, y / mmInUnit, z / mmInUnit]);
    const { solid: made } = await read(binaryStl(stored), 'block.stl', unit);
    expect(extent(made).highMm).toBe(350);
    const shy = walkNow(solidOutlines(made, [0, 50, 100, 150, 200, 250, 300, 350, 400], 'shy'));
    expect(shy.map((regions) => regions.length)).toEqual([1, 1, 1, 1, 1, 1, 1, 0]);
  }
});

test('a file whose content is not what its name says is refused and told what it is', async () => {
  expect((await refusal(binaryStl(ROCK), 'rock.obj')).message).toContain('binary STL');
  expect((await refusal(obj(ROCK), 'rock.stl')).message).toContain('OBJ');
  expect((await refusal(ply(ROCK, 'ascii'), 'rock.stl')).message).toContain('PLY');
  expect((await refusal(textStl(ROCK), 'rock.ply')).message).toContain('text STL');
});

test.each([
  ['rock.stl', joined(text('glTF'), new Uint8Array(100)), 'binary glTF'],
  ['rock.stl', joined(text('PK\u0003\u0004'), new Uint8Array(100)), 'zip'],
  ['rock.stl', text('ISO-10303-21;\nHEADER;'), 'STEP'],
  ['rock.obj', text('<html><body>not found</body></html>'), 'web document'],
  ['rock.ply', text('a letter about a rock'), 'not a solid'],
  ['rock.stl', new Uint8Array(), 'empty'],
  ['rock.stl', new Uint8Array(40), 'not a solid'],
])('%s that is something else is refused by what it is', async (file, bytes, what) => {
  const { code, message } = await refusal(bytes, file);
  expect([code, message]).toEqual(['source/other-kind', expect.stringContaining(what)]);
});

const stl = binaryStl(ROCK);
const swapped = (from: string, to: string, bytes: Uint8Array) =>
  text(new TextDecoder().decode(bytes).replace(from, to));

test.each([
  ['a binary STL cut short', 'rock.stl', stl.subarray(0, stl.length - 70), 'source/damaged-file', 'has room for'],
  [
    'no triangles',
    'rock.stl',
    binaryStl({ ...ROCK, triangles: new Uint32Array() }),
    'source/no-surface',
    'no triangles',
  ],
  ['a text STL cut short', 'rock.stl', textStl(ROCK).slice(0, 2000), 'source/damaged-file', 'facets'],
  ['an empty text STL', 'rock.stl', text(`solid ${'x'.repeat(90)}\nendsolid\n`), 'source/no-surface', 'no triangles'],
  [
    'a number in a text STL',
    'rock.stl',
    swapped('vertex 90', 'vertex 9o', textStl(ROCK)),
    'source/not-a-number',
    'no number',
  ],
  ['a line of an OBJ', 'rock.obj', swapped('f 3', 'g\nfrom 3', obj(ROCK)), 'source/damaged-file', '"from"'],
  ['a point of an OBJ', 'rock.obj', text('v 1 2\nf 1 1 1\n'), 'source/damaged-file', 'three numbers'],
  ['a face of an OBJ', 'rock.obj', swapped('f 3//3', 'f 3//3//x', obj(ROCK)), 'source/damaged-file', 'face'],
  [
    'a face beyond the points',
    'rock.obj',
    swapped('f 3//3', 'f 3333//3', obj(ROCK)),
    'source/damaged-file',
    'not there',
  ],
  ['an OBJ of points only', 'rock.obj', text('v 1 2 3\nv 4 5 7\n'), 'source/no-surface', 'no triangles'],
  ['a PLY cut short', 'rock.ply', ply(ROCK, 'binary_big_endian').slice(0, -1000), 'source/damaged-file', 'promises'],
  [
    'a text PLY cut short',
    'rock.ply',
    ply(ROCK, 'ascii').slice(0, 1300),
    'source/damaged-file',
    'shorter than its header',
  ],
  [
    'a PLY of points only',
    'rock.ply',
    swapped(
      /element face[\s\S]*indices\n/.exec(new TextDecoder().decode(ply(ROCK, 'ascii')))?.[0] ?? '',
      '',
      ply(ROCK, 'ascii'),
    ),
    'source/no-surface',
    'no triangles',
  ],
  [
    'a PLY with a strange header',
    'rock.ply',
    swapped('comment', 'remark', ply(ROCK, 'ascii')),
    'source/damaged-file',
    'header',
  ],
  [
    'a face of two corners',
    'rock.ply',
    swapped('3 0 2 1', '2 0 2', ply(ROCK, 'ascii')),
    'source/damaged-file',
    'fewer than three',
  ],
])('damage is named: %s', async (_, file, bytes, code, part) => {
  const fault = await refusal(bytes, file);
  expect(fault.code).toBe(code);
  expect(fault.message).toContain(part);
});

test('a count that no memory could hold is refused before any is taken', async () => {
  const bytes = binaryStl(ROCK);
  new DataView(bytes.buffer).setUint32(80, 0xfffffff0, true);
  expect((await refusal(bytes, 'rock.stl')).code).toBe('source/damaged-file');
  const header = ply(ROCK, 'ascii');
  expect((await refusal(swapped('element face 78', 'element face 7800000000', header), 'rock.ply')).code).toBe(
    'source/too-many-triangles',
  );
});

test('a corner that is no number is refused with its triangle', async () => {
  for (const [value, triangle] of [
    [Number.NaN, 1],
    [Infinity, 17],
    [-Infinity, 40],
  ] as const) {
    const bytes = binaryStl(ROCK);
    new DataView(bytes.buffer).setFloat32(84 + 50 * (triangle - 1) + 12 + 16, value, true);
    const fault = await refusal(bytes, 'rock.stl');
    expect([fault.code, fault.message]).toEqual([
      'source/not-a-number',
      expect.stringContaining(`Triangle ${triangle} `),
    ]);
  }
});

test('a hole too wide to be closed is placed in the numbers of the file', async () => {
  // A triangle of the girdle.
  const open = { ...ROCK, triangles: ROCK.triangles.filter((_, i) => Math.floor(i / 3) !== 20) };
  const { solid: made, told } = await read(
    binaryStl(mapped(open, (x, y, z) => [x / 1000, y / 1000, z / 1000])),
    'rock.stl',
    'm',
  );
  expect(told.map(({ code, level }) => [code, level])).toEqual([['source/open', 'watch']]);
  // A side of the widest ring: 2 × 170 × sin(180° / 13).
  expect(told[0].message).toMatch(/a hole, the widest of 3 corners with a gap of 81\.4 mm near -?0\.\d+, 0\.\d+, 0\.0/);
  expect(told[0].fix).toContain('--picture');
  expect(made.open?.rims.map((rim) => rim.length)).toEqual([3]);
});

test('a heap of triangles that share nothing is refused', async () => {
  const corners = Float64Array.from({ length: 9 * 20_001 }, (_, i) => {
    const triangle = Math.floor(i / 9);
    return [30 * (triangle % 200), 20 * Math.floor(triangle / 200), 5][i % 3] + [0, 0, 0, 9, 1, 2, 3, 11, 4][i % 9];
  });
  const heap = {
    ...ROCK,
    positionsMm: corners,
    triangles: Uint32Array.from({ length: corners.length / 3 }, (_, i) => i),
  };
  const fault = await refusal(binaryStl(heap), 'heap.stl');
  expect([fault.code, fault.message]).toEqual(['source/not-closed', expect.stringContaining('20000 holes')]);
});

test('a solid inside out is turned and it is said', async () => {
  const { solid: made, told } = await read(obj(insideOut(ROCK)), 'rock.obj');
  expect(told.map(({ code, level }) => [code, level])).toEqual([['source/inside-out', 'note']]);
  expect(volumeOf(made) / volumeOf(ROCK)).toBeCloseTo(1, 6);
});

test('triangles that look the wrong way are turned to agree with the most of their shell', async () => {
  const mixed = ROCK.triangles.slice();
  for (const triangle of [4, 5, 31, 77]) mixed.subarray(3 * triangle, 3 * triangle + 3).reverse();
  const { solid: made, told } = await read(binaryStl({ ...ROCK, triangles: mixed }), 'rock.stl');
  expect(told.map(({ code }) => code)).toEqual(['source/faces-turned']);
  expect(told[0].message).toContain('; 4 were turned');
  expect(volumeOf(made) / volumeOf(ROCK)).toBeCloseTo(1, 6);
});

test('a hollow stays a hollow; a shell beside that is inside out is turned', async () => {
  const hollow = insideOut(
    turned(
      [
        [0, 30],
        [40, 30],
        [55, 66],
        [0, 90],
      ],
      9,
      -35,
      300,
    ),
  );
  const pebble = turned(
    [
      [0, 0],
      [31, 0],
      [18, 25],
      [0, 33],
    ],
    8,
    260,
    350,
  );
  const right = together(ROCK, hollow, pebble);
  const clean = await read(binaryStl(right), 'rock.stl');
  expect(clean.told).toEqual([]);
  expect(volumeOf(clean.solid) / volumeOf(right)).toBeCloseTo(1, 6);
  const { solid: made, told } = await read(binaryStl(together(ROCK, hollow, insideOut(pebble))), 'rock.stl');
  expect(told.map(({ code }) => code)).toEqual(['source/inside-out']);
  expect(told[0].message).toContain("1 of the solid's 3 shells");
  expect(volumeOf(made) / volumeOf(right)).toBeCloseTo(1, 6);
});

test('shells that meet in an edge or a face are taken', async () => {
  const left = prism(
    [
      [10, 10],
      [90, 22],
      [80, 97],
      [20, 70],
    ],
    0,
    60,
  );
  const right = prism(
    [
      [80, 97],
      [90, 22],
      [170, 30],
      [190, 140],
    ],
    0,
    60,
  );
  const { solid: made, told } = await read(binaryStl(together(left, right)), 'pair.stl');
  expect(told).toEqual([]);
  const [regions] = walkNow(solidOutlines(made, [10, 40], 'proud'));
  expect(regions.length).toBe(1);
});

test('a flat surface and one that lies on itself are refused', async () => {
  const flat = mapped(ROCK, (x, y) => [x, y, 20]);
  expect((await refusal(binaryStl(flat), 'rock.stl')).code).toBe('source/flat');
  const leaf = solid(
    [
      [0, 0, 0],
      [90, 10, 30],
      [20, 70, 60],
    ],
    [
      [0, 1, 2],
      [0, 2, 1],
    ],
  );
  expect((await refusal(binaryStl(leaf), 'leaf.stl')).code).toBe('source/flat');
});

test('bodies that run into one another are noted with the place, and layers take them all together', async () => {
  const one = prism(
    [
      [0, 0],
      [300, 20],
      [280, 210],
      [15, 190],
    ],
    0,
    90,
  );
  const other = prism(
    [
      [200, 100],
      [420, 120],
      [390, 330],
      [210, 300],
    ],
    20,
    70,
  );
  const { solid: made, told } = await read(binaryStl(together(one, other)), 'pair.stl');
  expect(told.map(({ code, level }) => [code, level])).toEqual([['source/bodies-cross', 'note']]);
  const [x, y] = told[0].where.atMm ?? [0, 0];
  expect(x).toBeGreaterThan(195);
  expect(x).toBeLessThan(305);
  expect(y).toBeGreaterThan(95);
  const apart = [one, other].map((each) => areaOf(walkNow(solidOutlines(each, [30, 60], 'proud'))[0]));
  const both = areaOf(walkNow(solidOutlines(made, [30, 60], 'proud'))[0]);
  expect(both).toBeGreaterThan(Math.max(...apart) + 1000);
  expect(both).toBeLessThan(apart[0] + apart[1] - 1000);
  expect(areaOf(walkNow(solidOutlines(made, [30, 60], 'shy'))[0])).toBeCloseTo(both, 0);
});

test('a shell that crosses itself is told with the place, also where bodies run into one another', async () => {
  const box = (x: number) =>
    prism(
      [
        [x, 0],
        [x + 300, 20],
        [x + 280, 210],
        [x + 15, 190],
      ],
      0,
      90,
    );
  // The top corner over (0, 0) pulled out through the wall opposite.
  const pulled = mapped(box(0), (x, y, z) => (x === 0 && z === 90 ? [420, 130, 40] : [x, y, z]));
  for (const each of [pulled, together(box(250), pulled)]) {
    const { told } = await read(binaryStl(each), 'pulled.stl');
    expect(told.map(({ code, level }) => [code, level])).toEqual([['source/self-crossing', 'watch']]);
    expect(told[0].where.atMm?.[0]).toBeGreaterThan(280);
  }
});

test('an unlikely size is told with the likely unit', async () => {
  const small = mapped(ROCK, (x, y, z) => [x / 400, y / 400, z / 400]);
  const { told } = await read(binaryStl(small), 'rock.stl');
  expect(told.map(({ code, level }) => [code, level])).toEqual([['source/unlikely-size', 'watch']]);
  expect(told[0].fix).toContain('unit: m');
  const large = await read(binaryStl(ROCK), 'rock.stl', 'm');
  expect(large.told[0].fix).toContain('unit: mm');
  expect((await read(binaryStl(small), 'rock.stl', 'm')).told).toEqual([]);
});

test('far from its origin a file of seven digits is told or refused; text and doubles are read exactly', async () => {
  // At 5,200,000.456 m a float of 32 bits steps by half a metre.
  const far = mapped(ROCK, (x, y, z) => [x / 1000 + 431_000.25, y / 1000 + 5_200_000.456, z / 1000]);
  const fault = await refusal(binaryStl(far), 'rock.stl', 'm');
  expect(fault.code).toBe('source/far-from-origin');
  expect(fault.message).toContain('250 mm');
  expect((await refusal(ply(far, 'binary_little_endian'), 'rock.ply', 'm')).code).toBe('source/far-from-origin');

  const near = await read(obj(mapped(ROCK, (x, y, z) => [x / 1000, y / 1000, z / 1000])), 'rock.obj', 'm');
  for (const [file, bytes] of [
    ['rock.obj', obj(far)],
    ['rock.stl', textStl(far)],
    ['rock.ply', ply(far, 'ascii', 'double')],
    ['rock.ply', ply(far, 'binary_big_endian', 'double')],
    ['rock.ply', ply(far, 'binary_little_endian', 'double')],
  ] as const) {
    const { solid: made, told } = await read(bytes, file, 'm');
    expect(told).toEqual([]);
    expect(made.triangles).toEqual(near.solid.triangles);
    // Moved to (0, 0) they are the same thousandths as near the origin, but for the corner's own rounding.
    made.positionsMm.forEach((value, i) => {
      expect(Math.abs(value - near.solid.positionsMm[i])).toBeLessThan(0.0021);
    });
  }

  // Five kilometres of millimetres: steps of half a millimetre, which a crew may live with.
  const some = mapped(ROCK, (x, y, z) => [x + 5_200_000, y, z]);
  const { told } = await read(binaryStl(some), 'rock.stl');
  expect(told.map(({ code, level }) => [code, level])).toContainEqual(['source/coarse', 'watch']);
  expect(told.find(({ code }) => code === 'source/coarse')?.message).toContain('0.25 mm');
  // A solid that is as large as that itself has no better place.
  const large = await read(binaryStl(mapped(ROCK, (x, y, z) => [x * 900, y * 900, z * 900])), 'rock.stl');
  expect(large.told.map(({ code }) => code)).toEqual(['source/unlikely-size']);
  expect((await refusal(obj(mapped(ROCK, (x, y, z) => [x, y, z * 1e30])), 'rock.obj')).code).toBe('source/too-far');
});

test('an OBJ: points counted backwards, faces of many corners bent inward, lines carried on', async () => {
  // An upright prism over an L whose first corner would make a fan fold over itself.
  const outline = [
    [60, 40],
    [60, 90],
    [10, 80],
    [5, 7],
    [130, 12],
    [121, 45],
  ];
  const area = Math.abs(
    outline.reduce((sum, [x, y], i) => {
      const [u, v] = outline[(i + 1) % 6];
      return sum + (x * v - u * y) / 2;
    }, 0),
  );
  const lines = [
    ...outline.map(([x, y]) => `v ${x} ${y} 0`),
    ...outline.map(([x, y]) => `v ${x} ${y} 25 0.5 0.5 0.5`),
    'usemtl moss',
    'f 6 5 4 3 \\',
    ' 2 1',
    'f -6 -5 -4 -3 -2 -1',
    ...outline.map((_, i) => `f ${i + 1} ${((i + 1) % 6) + 1} ${((i + 1) % 6) + 7} ${i + 7}`),
  ];
  const { solid: made, told } = await read(text(lines.join('\r\n')), 'wall.obj');
  expect(told).toEqual([]);
  expect(made.triangles.length / 3).toBe(4 + 4 + 12);
  for (const cut of ['proud', 'shy'] as const) {
    const outlines = walkNow(solidOutlines(made, [-10, 10, 40], cut));
    expect(outlines.map(areaOf)).toEqual(cut === 'proud' ? [area, area] : [0, 0]);
  }
});

test('a PLY: faces of many corners, colours, elements of no use, the other name of the list', async () => {
  const lines = [
    'ply\r',
    'format ascii 1.0\r',
    'obj_info by hand\r',
    'element vertex 10\r',
    'property uchar red\r',
    'property double x\r',
    'property float y\r',
    'property int z\r',
    'element nothing 4000000000\r',
    'element face 7\r',
    'property float shade\r',
    'property list uchar uint vertex_index\r',
    'element edge 1\r',
    'property int vertex1\r',
    'end_header\r',
    ...[0, 31].flatMap((z) => ['1 3.5 1', '2 47 6', '3 61 38', '4 31 51', '5 7 29'].map((xy) => `${xy} ${z}`)),
    '0.1 5 4 3 2 1 0',
    '0.2 5 5 6 7 8 9',
    ...[0, 1, 2, 3, 4].map((i) => `0.3 4 ${i} ${(i + 1) % 5} ${5 + ((i + 1) % 5)} ${5 + i}`),
    '3',
  ];
  const { solid: made, told } = await read(text(lines.join('\n')), 'wall.ply');
  expect(told).toEqual([]);
  expect(made.triangles.length / 3).toBe(3 + 3 + 10);
  expect(extent(made).box).toEqual([0, 0, 57.5, 50]);
});

test('the input is left alone', async () => {
  const bytes = ply(ROCK, 'binary_little_endian');
  const copy = bytes.slice();
  await read(bytes, 'rock.ply');
  expect(bytes).toEqual(copy);
});
