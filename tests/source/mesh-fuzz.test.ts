import fc from 'fast-check';
import { beforeAll, expect, test } from 'vitest';
import { CannotMake } from '../../src/findings.ts';
import type { Solid } from '../../src/model/landform.ts';
import { judgeOpenings } from '../../src/slice/layers/openings.ts';
import { solidOutlines } from '../../src/slice/layers/solid.ts';
import { mesh } from '../../src/source/mesh.ts';
import { walkNow } from '../../src/walk.ts';
import { damaged, FUZZ, readsOrRefuses } from '../help/fuzz.ts';
import { embedded, glb, gltfOf } from '../help/gltf-files.ts';
import { binaryStl, joined, obj, PLY_FORMATS, ply, textStl } from '../help/solid-files.ts';
import { turned } from '../help/solids.ts';

const ROCK = turned(
  [
    [0, 4],
    [130, 4],
    [170, 71],
    [96, 152.5],
    [0, 181],
  ],
  7,
  200,
  310,
);

const FILES: readonly (readonly [file: string, what: string, bytes: Uint8Array])[] = [
  ['rock.stl', 'binary', binaryStl(ROCK)],
  ['rock.stl', 'text', textStl(ROCK)],
  ['rock.obj', 'text', obj(ROCK)],
  ...PLY_FORMATS.map((format) => ['rock.ply', format, ply(ROCK, format)] as const),
  ['rock.glb', 'binary', glb(gltfOf(ROCK))],
  ['rock.gltf', 'text', embedded(gltfOf(ROCK))],
];

/** Hold the reader to many inputs: a refusal says why and what to do; what is read is a body that can be cut. */
async function fuzzed(file: string, inputs: fc.Arbitrary<Uint8Array>) {
  const bodies: Solid[] = [];
  const outcomes = await readsOrRefuses(inputs, async (bytes) => {
    try {
      bodies.push(await readOne(file, bytes));
    } catch (error) {
      if (!(error instanceof CannotMake)) throw error;
      for (const { fix, message } of error.faults) expect([fix === '', message === '']).toEqual([false, false]);
      throw error;
    }
  });
  for (const body of bodies) cutThrough(body);
  return outcomes;
}

const readOne = (file: string, bytes: Uint8Array) =>
  mesh.run(
    new Map([[file, bytes]]),
    { file, unit: 'mm', close: 10 },
    { facts: {}, others: {}, tell: () => {}, random: () => 0.5 },
  ) as Promise<Solid>;

function cutThrough(body: Solid): void {
  try {
    judgeOpenings(body, [0, 90, 190], () => {});
  } catch (error) {
    if (!(error instanceof CannotMake)) throw error;
  }
  for (const cut of ['proud', 'shy'] as const) {
    for (const ring of walkNow(solidOutlines(body, [0, 90, 190], cut)).flat(2)) {
      expect(ring.every(Number.isFinite)).toBe(true);
    }
  }
}

// The libraries are loaded before anything is timed.
beforeAll(async () => {
  for (const [file, , bytes] of FILES) cutThrough(await readOne(file, bytes));
});

test.each(FILES)('%s, %s, damaged in some places', async (file, _, whole) => {
  const { refused } = await fuzzed(file, damaged(whole));
  expect(refused).toBeGreaterThan(FUZZ / 20);
});

test.each(FILES)('%s, %s: any bytes at all, and any after its own beginning', async (file, _, whole) => {
  const bytes = fc.oneof(
    fc.uint8Array({ maxLength: 600 }),
    fc
      .tuple(fc.integer({ min: 4, max: 300 }), fc.uint8Array({ maxLength: 400 }))
      .map(([kept, rest]) => joined(whole.slice(0, kept), rest)),
  );
  await fuzzed(file, bytes);
});

/** Numbers of a text replaced by what a person, or someone worse, may write there. */
const ODD = ['-1', '0', '1e9', '4294967295', '1e400', '1.5', 'NaN', '""', '[]', '{}', 'null', '99', '1e15', '-0'];

test.each(FILES.filter(([, what]) => what === 'text' || what === 'ascii'))(
  '%s, %s, with odd numbers in the place of others',
  async (file, _, whole) => {
    const text = new TextDecoder().decode(whole);
    const places = [...text.matchAll(/-?\d+(\.\d+)?(e-?\d+)?/g)];
    const place = fc.oneof(fc.nat({ max: Math.min(places.length, 40) - 1 }), fc.nat({ max: places.length - 1 }));
    const changes = fc.array(fc.tuple(place, fc.constantFrom(...ODD)), { minLength: 1, maxLength: 3 });
    const bytes = changes.map((list) => {
      let written = text;
      // From the back, so that places before stay where they are.
      for (const [at, odd] of [...list].sort((a, b) => b[0] - a[0])) {
        const { 0: number, index } = places[at];
        written = written.slice(0, index) + odd + written.slice(index + number.length);
      }
      return new TextEncoder().encode(written);
    });
    await fuzzed(file, bytes);
  },
);

test('the description of a glTF of any make', async () => {
  const small = fc.oneof(fc.integer({ min: -1, max: 6 }), fc.constantFrom(4e9, 2 ** 53, 0.5, 5121, 5123, 5125, 5126));
  const list = <T>(of: fc.Arbitrary<T>) => fc.array(of, { maxLength: 3 });
  const some = (model: Record<string, fc.Arbitrary<unknown>>) => fc.record(model, { requiredKeys: [] });
  const vector = (length: number) =>
    fc.array(fc.double({ min: -9, max: 9, noNaN: true }), { minLength: length, maxLength: length });
  const document = some({
    asset: fc.constant({ version: '2.0' }),
    scene: small,
    scenes: list(some({ nodes: list(small) })),
    nodes: list(
      some({
        mesh: small,
        children: list(small),
        translation: vector(3),
        rotation: vector(4),
        scale: vector(3),
        matrix: vector(16),
      }),
    ),
    meshes: list(
      some({
        primitives: list(some({ attributes: some({ POSITION: small }), indices: small, mode: small })),
      }),
    ),
    accessors: list(
      some({
        bufferView: small,
        byteOffset: small,
        componentType: fc.constantFrom(5120, 5121, 5122, 5123, 5125, 5126),
        count: small,
        type: fc.constantFrom('VEC3', 'SCALAR'),
        normalized: fc.boolean(),
        sparse: some({
          count: small,
          indices: some({ bufferView: small, componentType: small }),
          values: some({ bufferView: small }),
        }),
      }),
    ),
    bufferViews: list(
      some({ buffer: small, byteOffset: small, byteLength: fc.integer({ min: 0, max: 90 }), byteStride: small }),
    ),
  });
  const file = fc
    .tuple(document, fc.uint8Array({ maxLength: 90 }))
    .map(([json, bytes]) => glb({ json: { asset: { version: '2.0' }, ...json }, bytes }));
  await fuzzed('rock.glb', file);
});
