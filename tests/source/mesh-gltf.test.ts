import { expect, test } from 'vitest';
import type { Finding } from '../../src/findings.ts';
import { CannotMake } from '../../src/findings.ts';
import { groundOf } from '../../src/model/ground.ts';
import { extent, type Solid } from '../../src/model/landform.ts';
import { mesh } from '../../src/source/mesh.ts';
import type { Unit } from '../../src/units.ts';
import { embedded, type Gltf, GltfBuffer, glb, gltfOf, yUp } from '../help/gltf-files.ts';
import { insideOut, mapped, prism, solid, together, turned } from '../help/solids.ts';

// Held against the text of the glTF 2.0 specification (Khronos, ISO/IEC 12113:2022): sections are named beside each.

const ROCK = turned(
  [
    [0, 4],
    [130, 4],
    [170, 71],
    [96, 152.5],
    [0, 181],
  ],
  13,
  240,
  310,
);
const BLOCK = prism(
  [
    [12, 15],
    [430, 31],
    [395, 277],
  ],
  0,
  350,
);

async function read(bytes: Uint8Array, file = 'rock.glb', unit?: Unit) {
  const told: Finding[] = [];
  const context = { facts: {}, others: {}, tell: (finding: Finding) => void told.push(finding), random: () => 0.5 };
  const made = await (mesh.run(new Map([[file, bytes]]), { file, unit, close: 10 }, context) as Promise<Solid>);
  return { solid: made, told, box: extent(made) };
}

async function refusal(gltf: Gltf | Uint8Array) {
  const error = await read(gltf instanceof Uint8Array ? gltf : glb(gltf)).then(
    () => null,
    (reason: unknown) => reason,
  );
  expect(error).toBeInstanceOf(CannotMake);
  const [fault] = (error as CannotMake).faults;
  expect([fault.fix === '', fault.where.file]).toEqual([false, 'rock.glb']);
  return fault;
}

const volume = (of: Solid) => groundOf(of).volumeMm3;

/** Some primitives as one mesh under nodes. */
const scene = (
  buffer: GltfBuffer,
  primitives: readonly object[],
  nodes: readonly object[] = [{ mesh: 0 }],
  more: object = {},
) => buffer.done({ scenes: [{ nodes: [0] }], nodes, meshes: [{ primitives }], ...more });

function ofArrays(
  positions: Parameters<GltfBuffer['add']>[0],
  corners: Parameters<GltfBuffer['add']>[0] | null,
  { nodes, more, mode }: { nodes?: readonly object[]; more?: Record<string, unknown>; mode?: number } = {},
): Gltf {
  const buffer = new GltfBuffer();
  const POSITION = buffer.add(positions, 'VEC3', more);
  const indices = corners ? buffer.add(corners, 'SCALAR') : undefined;
  return scene(buffer, [{ attributes: { POSITION }, indices, mode }], nodes);
}

test('binary and embedded come back as written: z up, metres unless a unit is said (3.4)', async () => {
  for (const [file, bytes] of [
    ['rock.glb', glb(gltfOf(ROCK))],
    ['rock.gltf', embedded(gltfOf(ROCK))],
    ['rock', embedded(gltfOf(ROCK))],
  ] as const) {
    const { solid: made, told, box } = await read(bytes, file);
    expect(told).toEqual([]);
    expect(made.positionsMm.length).toBe(ROCK.positionsMm.length);
    expect([box.box[0], box.box[1], box.lowMm, box.highMm]).toEqual([0, 0, 4, 181]);
    expect(volume(made) / volume(ROCK)).toBeCloseTo(1, 5);
  }
  const inMm = await read(glb(gltfOf(mapped(ROCK, (x, y, z) => [1000 * x, 1000 * y, 1000 * z]))), 'rock.glb', 'mm');
  expect(inMm.box.highMm).toBe(181);
});

test('the front of a thing (+z, 3.4) comes to stand in the south, its left hand (+x) in the east', async () => {
  // A slope that is high at the back: heights rise with −z in the file, so to the north here.
  const wedge = solid(
    [
      [0, 0, 0],
      [700, 0, 0],
      [700, 400, 0],
      [0, 400, 0],
      [700, 400, 300],
      [0, 400, 300],
    ],
    [
      [0, 3, 2, 1],
      [0, 1, 4, 5],
      [1, 2, 4],
      [0, 5, 3],
      [2, 3, 5, 4],
    ],
  );
  const file = yUp(wedge.positionsMm);
  expect([...file.subarray(12, 15)].map((value) => Math.round(value * 1000))).toEqual([700, 300, -400]);
  const { solid: made } = await read(glb(gltfOf(wedge)));
  const top = [...made.positionsMm.keys()].filter((i) => i % 3 === 2 && made.positionsMm[i] === 300);
  expect(top.map((i) => made.positionsMm[i - 1])).toEqual([400, 400]);
});

test('points one by one, counted in one, two or four bytes, in strips and fans (3.7.2.1)', async () => {
  const each = Float32Array.from({ length: 3 * BLOCK.triangles.length }, (_, i) => {
    return yUp(BLOCK.positionsMm)[3 * BLOCK.triangles[Math.floor(i / 3)] + (i % 3)];
  });
  const whole = volume(BLOCK);
  const points = yUp(BLOCK.positionsMm);
  for (const gltf of [
    ofArrays(each, null),
    ofArrays(points, Uint8Array.from(BLOCK.triangles)),
    ofArrays(points, Uint16Array.from(BLOCK.triangles)),
    ofArrays(points, BLOCK.triangles),
  ]) {
    const { solid: made, told } = await read(glb(gltf));
    expect(told).toEqual([]);
    expect(volume(made) / whole).toBeCloseTo(1, 5);
  }
  // Corners 0 1 2 below, 3 4 5 above: the walls as a strip round it, floor and top as fans of three.
  const buffer = new GltfBuffer();
  const POSITION = buffer.add(points, 'VEC3');
  const primitive = (corners: readonly number[], mode: number) => ({
    attributes: { POSITION },
    indices: buffer.add(Uint16Array.from(corners), 'SCALAR'),
    mode,
  });
  const strip = [primitive([3, 0, 4, 1, 5, 2, 3, 0], 5), primitive([2, 1, 0], 6), primitive([3, 4, 5], 6)];
  const { solid: made, told } = await read(glb(scene(buffer, [...strip, primitive([0, 1, 2], 1)])));
  expect(told).toEqual([]);
  expect(made.triangles.length).toBe(BLOCK.triangles.length);
  expect(volume(made) / whole).toBeCloseTo(1, 5);
});

test('a fan of more than one triangle starts each at its first point', async () => {
  const roof = prism(
    [
      [10, 10],
      [90, 12],
      [130, 60],
      [80, 120],
      [20, 90],
    ],
    0,
    70,
  );
  const buffer = new GltfBuffer();
  const POSITION = buffer.add(yUp(roof.positionsMm), 'VEC3');
  const made = (corners: readonly number[], mode: number) => ({
    attributes: { POSITION },
    indices: buffer.add(Uint8Array.from(corners), 'SCALAR'),
    mode,
  });
  const walls = [5, 0, 6, 1, 7, 2, 8, 3, 9, 4, 5, 0];
  const parts = [made(walls, 5), made([4, 3, 2, 1, 0], 6), made([5, 6, 7, 8, 9], 6)];
  const { solid: read1, told } = await read(glb(scene(buffer, parts)));
  expect(told).toEqual([]);
  expect(volume(read1) / volume(roof)).toBeCloseTo(1, 5);
});

test('nodes: matrix, or scale, then turn, then way; children in their parents; mirrored ones stay outside out (3.5)', async () => {
  // A quarter turn about y up, as a quaternion: east comes to the back (north here).
  const half = Math.sqrt(0.5);
  const nodes = [
    { children: [1], translation: [3, 0.2, -7] },
    { children: [2], rotation: [0, half, 0, half], scale: [2, 1, 1] },
    { mesh: 0, matrix: [-1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0.5, 0, 0, 1] },
  ];
  const { solid: made, told, box } = await read(glb(ofArrays(yUp(BLOCK.positionsMm), BLOCK.triangles, { nodes })));
  // East is 12 … 430 in the file: mirrored and moved 70 … 488, doubled 140 … 976, turned to the north.
  expect(told).toEqual([]);
  expect(box.box[3]).toBeCloseTo(836, 2);
  expect(box.box[2]).toBeCloseTo(262, 2);
  expect([box.lowMm, box.highMm]).toEqual([200, 550]);
  expect(volume(made) / volume(mapped(BLOCK, (x, y, z) => [2 * x, y, z + 200]))).toBeCloseTo(1, 5);
});

test('a mesh may stand in several places, and a scene chooses its nodes (3.5.1)', async () => {
  const nodes = [{ mesh: 0 }, { mesh: 0, translation: [1, 0, 0] }, { mesh: 0, translation: [9, 0, 0] }];
  const base = ofArrays(yUp(BLOCK.positionsMm), BLOCK.triangles, { nodes });
  const json = { ...base.json, scenes: [{ nodes: [2] }, { nodes: [0, 1] }], scene: 1 };
  const { solid: made, box } = await read(glb({ ...base, json }));
  expect(box.box[2]).toBeCloseTo(1418, 2);
  expect(volume(made) / volume(BLOCK)).toBeCloseTo(2, 5);
  const { solid: all } = await read(glb({ ...base, json: { ...json, scenes: undefined, scene: undefined } }));
  expect(volume(all) / volume(BLOCK)).toBeCloseTo(3, 5);
});

test('whole numbers as points, plain and as shares of one (KHR_mesh_quantization), with a stride', async () => {
  const whole = Int16Array.from(yUp(BLOCK.positionsMm), (value) => Math.round(value * 1000));
  const nodes = [{ mesh: 0, scale: [0.001, 0.001, 0.001] }];
  const plain = await read(glb(ofArrays(whole, BLOCK.triangles, { nodes })));
  expect(plain.box.highMm).toBe(350);
  expect(volume(plain.solid) / volume(BLOCK)).toBeCloseTo(1, 6);
  const shares = Uint16Array.from(whole, (value, i) => (i % 3 === 2 ? value + 30_000 : value));
  const shown = [{ mesh: 0, scale: [65.535, 65.535, 65.535], translation: [0, 0, -30] }];
  const normalized = await read(glb(ofArrays(shares, BLOCK.triangles, { nodes: shown, more: { normalized: true } })));
  expect(volume(normalized.solid) / volume(BLOCK)).toBeCloseTo(1, 6);

  const buffer = new GltfBuffer();
  const padded = new Int16Array(4 * (whole.length / 3));
  whole.forEach((value, i) => {
    padded[4 * Math.floor(i / 3) + (i % 3)] = value;
  });
  const bufferView = buffer.view(new Uint8Array(padded.buffer), { byteStride: 8 });
  const POSITION = buffer.accessor({ bufferView, componentType: 5122, count: whole.length / 3, type: 'VEC3' });
  const indices = buffer.add(BLOCK.triangles, 'SCALAR');
  const strided = await read(glb(scene(buffer, [{ attributes: { POSITION }, indices }], nodes)));
  expect(volume(strided.solid) / volume(BLOCK)).toBeCloseTo(1, 6);
});

test('sparse points, over others and over none (3.6.2.3)', async () => {
  for (const isOverOthers of [true, false]) {
    const buffer = new GltfBuffer();
    const points = yUp(BLOCK.positionsMm);
    const wrong = points.map((value, i) => (i < 9 ? value + 5 : value));
    const places = isOverOthers ? [0, 1, 2] : [...points.keys()].filter((i) => i % 3 === 0).map((i) => i / 3);
    const values = Float32Array.from(places.flatMap((place) => [...points.subarray(3 * place, 3 * place + 3)]));
    const sparse = {
      count: places.length,
      indices: { bufferView: buffer.view(new Uint8Array(Uint16Array.from(places).buffer)), componentType: 5123 },
      values: { bufferView: buffer.view(new Uint8Array(values.buffer)) },
    };
    const bufferView = isOverOthers ? buffer.view(new Uint8Array(wrong.buffer)) : undefined;
    const POSITION = buffer.accessor({
      bufferView,
      componentType: 5126,
      count: points.length / 3,
      type: 'VEC3',
      sparse,
    });
    const indices = buffer.add(BLOCK.triangles, 'SCALAR');
    const { solid: made } = await read(glb(scene(buffer, [{ attributes: { POSITION }, indices }])));
    expect(volume(made) / volume(BLOCK)).toBeCloseTo(1, 5);
  }
});

test('what is not ground is left: cameras, pictures, skins, morph targets, points and lines', async () => {
  const base = gltfOf(ROCK);
  const json = {
    ...base.json,
    nodes: [{ mesh: 0, skin: 0, camera: 0, weights: [0.5] }],
    cameras: [{ type: 'perspective', perspective: { yfov: 1, znear: 1 } }],
    images: [{ uri: 'rock.png' }],
    textures: [{ source: 0 }],
    animations: [{ channels: [], samplers: [] }],
    skins: [{ joints: [0] }],
    extensionsUsed: ['KHR_materials_unlit', 'KHR_lights_punctual'],
    extensionsRequired: ['KHR_materials_unlit'],
  };
  const { told } = await read(glb({ ...base, json }));
  expect(told).toEqual([]);
});

test('far from the origin: a node keeps small digits that its points could not, and points that lost them are told', async () => {
  const nodes = [{ mesh: 0, translation: [431_000.25, 1.125, -5_200_000.456] }];
  const far = await read(glb(ofArrays(yUp(ROCK.positionsMm), ROCK.triangles, { nodes })));
  expect(far.told).toEqual([]);
  expect([far.box.lowMm, far.box.highMm]).toEqual([1129, 1306]);
  expect(volume(mapped(far.solid, (x, y, z) => [x, y, z - 1125])) / volume(ROCK)).toBeCloseTo(1, 5);
  // 3 km out, floats of 32 bits step by 0.24 mm.
  const points = yUp(ROCK.positionsMm).map((value, i) => (i % 3 === 0 ? value + 3000 : value));
  const near = await read(glb(ofArrays(points, ROCK.triangles)));
  expect(near.told.map(({ code, level }) => [code, level])).toEqual([['source/coarse', 'watch']]);
  expect(near.told[0].message).toContain('0.122 mm');
  const lost = yUp(ROCK.positionsMm).map((value, i) => (i % 3 === 0 ? value + 5_200_000 : value));
  expect((await refusal(ofArrays(lost, ROCK.triangles))).code).toBe('source/far-from-origin');
});

const base = gltfOf(ROCK);
const with_ = (more: Record<string, unknown>): Gltf => ({ ...base, json: { ...base.json, ...more } });
const [positions, corners] = base.json.accessors as Record<string, unknown>[];
const [firstView, secondView] = base.json.bufferViews as Record<string, unknown>[];
const views = (more: object) => with_({ bufferViews: [{ ...firstView, ...more }, secondView] });
const accessor = (more: object) => with_({ accessors: [{ ...positions, ...more }, corners] });
const index = (more: object) => with_({ accessors: [positions, { ...corners, ...more }] });
const primitive = (more: object) =>
  with_({ meshes: [{ primitives: [{ attributes: { POSITION: 0 }, indices: 1, ...more }] }] });
const draco = { KHR_draco_mesh_compression: { bufferView: 0, attributes: { POSITION: 0 } } };

test.each<[string, Gltf, string, string]>([
  ['draco, required', with_({ extensionsRequired: ['KHR_draco_mesh_compression'] }), 'source/packed', 'KHR_draco'],
  ['meshopt, required', with_({ extensionsRequired: ['EXT_meshopt_compression'] }), 'source/packed', 'EXT_meshopt'],
  [
    'draco, nothing else',
    {
      ...base,
      json: {
        ...primitive({ extensions: draco }).json,
        accessors: [
          { ...positions, bufferView: undefined },
          { ...corners, bufferView: undefined },
        ],
      },
    },
    'source/packed',
    'KHR_draco',
  ],
  ['meshopt in a view', views({ extensions: { EXT_meshopt_compression: {} } }), 'source/packed', 'EXT_meshopt'],
  ['an unknown extension', with_({ extensionsRequired: ['EXT_mesh_gpu_instancing'] }), 'source/extension', 'gpu'],
  ['a view beyond the buffer', views({ byteLength: 1e9 }), 'source/damaged-file', 'view 0'],
  ['a view from beyond', views({ byteOffset: 1e15 }), 'source/damaged-file', 'view 0'],
  ['a view of no buffer', views({ buffer: 7 }), 'source/damaged-file', 'no buffer 7'],
  ['a short view', views({ byteLength: 100 }), 'source/damaged-file', 'view 0'],
  ['a stride under its width', views({ byteStride: 8 }), 'source/damaged-file', 'view 0'],
  ['a view of minus', views({ byteOffset: -4 }), 'source/damaged-file', 'bufferViews.0.byteOffset'],
  ['more points than bytes', accessor({ count: 4e9 }), 'source/damaged-file', 'promises 4000000000'],
  ['points from nowhere', accessor({ bufferView: undefined, count: 4e9 }), 'source/damaged-file', 'promises'],
  ['no points', accessor({ count: 0 }), 'source/damaged-file', 'accessors.0.count'],
  ['half a point', accessor({ count: 2.5 }), 'source/damaged-file', 'accessors.0.count'],
  ['points of two', accessor({ type: 'VEC2' }), 'source/damaged-file', 'accessor 0'],
  ['points of unknown numbers', accessor({ componentType: 5130 }), 'source/damaged-file', 'unknown kind'],
  ['corners of floats', index({ componentType: 5126 }), 'source/damaged-file', 'accessor 1'],
  ['corners that are not threes', index({ count: 10 }), 'source/damaged-file', '10 corners'],
  ['corners beyond', accessor({ count: 5 }), 'source/damaged-file', 'names a point'],
  ['a missing accessor', primitive({ indices: 9 }), 'source/damaged-file', 'no accessor 9'],
  ['a missing mesh', with_({ nodes: [{ mesh: 3 }] }), 'source/damaged-file', 'no mesh 3'],
  ['a missing node', with_({ scenes: [{ nodes: [0, 5] }] }), 'source/damaged-file', 'no node 5'],
  ['a missing scene', with_({ scene: 4 }), 'source/damaged-file', 'no scene 4'],
  ['a node in itself', with_({ nodes: [{ mesh: 0, children: [0] }] }), 'source/damaged-file', 'node 0 hangs'],
  [
    'nodes in a ring',
    with_({ nodes: [{ mesh: 0, children: [1] }, { children: [2] }, { children: [1] }] }),
    'source/damaged-file',
    'node 1 hangs',
  ],
  ['no rotation', with_({ nodes: [{ mesh: 0, rotation: [0, 0, 0, 0] }] }), 'source/damaged-file', 'node 0'],
  ['a matrix of nine', with_({ nodes: [{ mesh: 0, matrix: [1, 0, 0, 0, 1, 0, 0, 0, 1] }] }), 'source/damaged-file', ''],
  ['lines only', primitive({ mode: 1 }), 'source/no-surface', 'no triangles'],
  ['no place', primitive({ attributes: { NORMAL: 0 } }), 'source/no-surface', 'no triangles'],
  ['nothing shown', with_({ scenes: [{}] }), 'source/no-surface', 'no triangles'],
  ['glTF 1.0', with_({ asset: { version: '1.0' } }), 'source/other-kind', '1.0'],
  ['no version', with_({ asset: {} }), 'source/damaged-file', 'asset.version'],
  [
    'a mesh without end',
    with_({
      scenes: undefined,
      scene: undefined,
      nodes: Array.from({ length: 80_000 }, () => ({ mesh: 0 })),
    }),
    'source/too-many-triangles',
    'again and again',
  ],
  [
    'a sparse place that is not there',
    accessor({
      sparse: { count: 1, indices: { bufferView: 1, byteOffset: 8, componentType: 5125 }, values: { bufferView: 99 } },
    }),
    'source/damaged-file',
    'no buffer view 99',
  ],
])('%s is refused', async (_, gltf, code, part) => {
  const fault = await refusal(gltf);
  expect(fault.code).toBe(code);
  expect(fault.message).toContain(part);
});

test('a number in another file, or in no base64, is refused with the way out', async () => {
  const text = (uri: string) =>
    new TextEncoder().encode(JSON.stringify({ ...base.json, buffers: [{ byteLength: 9, uri }] }));
  const asGltf = async (uri: string) =>
    read(text(uri), 'rock.gltf').then(
      () => null,
      (reason: CannotMake) => reason.faults[0],
    );
  expect(await asGltf('rock.bin')).toMatchObject({
    code: 'source/other-file',
    message: expect.stringContaining('rock.bin'),
  });
  expect((await asGltf('rock.bin'))?.fix).toContain('.glb');
  expect((await asGltf('data:application/octet-stream;base64,AAAA*AAA'))?.code).toBe('source/damaged-file');
  expect((await asGltf('data:application/octet-stream;base64,AAAA'))?.code).toBe('source/damaged-file');
  expect((await asGltf('data:,AAAA'))?.code).toBe('source/other-file');
});

test.each([
  ['a length beyond the file', 8, 999_999],
  ['another version', 4, 1],
  ['a chunk beyond the file', 12, 999_999],
  ['no description', 16, 0x12345678],
])('a .glb with %s is damaged', async (_, at, value) => {
  const bytes = glb(base);
  new DataView(bytes.buffer).setUint32(at, value, true);
  expect((await refusal(bytes)).code).toBe('source/damaged-file');
});

test('a name that says another kind is told; shells inside out are turned as in any file', async () => {
  const error = await read(glb(base), 'rock.stl').catch((reason: CannotMake) => reason.faults[0]);
  expect(error).toMatchObject({ code: 'source/other-kind', message: expect.stringContaining('binary glTF') });
  const { told } = await read(glb(gltfOf(insideOut(ROCK))));
  expect(told.map(({ code }) => code)).toEqual(['source/inside-out']);
  const beside = mapped(BLOCK, (x, y, z) => [x + 900, y, z]);
  const { solid: pair } = await read(glb(gltfOf(together(ROCK, beside))));
  expect(pair.isSimple).toBe(true);
});
