import { expect, test } from 'vitest';
import { type Random, stream } from '../../src/geometry/random.ts';
import { readGltf } from '../../src/source/mesh/gltf.ts';
import { type Gltf, GltfBuffer, glb } from '../help/gltf-files.ts';

// Reference: the glTF loader of three 0.187, which keeps seven digits, on files without pictures (with them it needs a browser).

interface Attribute {
  readonly count: number;
  getX(i: number): number;
}
interface Thing {
  readonly isMesh?: boolean;
  readonly geometry: {
    toNonIndexed(): Thing['geometry'];
    readonly index: unknown;
    getAttribute(name: string): Attribute;
  };
  readonly drawMode?: number;
  readonly matrixWorld: unknown;
  traverse(visit: (thing: Thing) => void): void;
  updateMatrixWorld(force: boolean): void;
}

// Named by a variable: the types of three that are kept here do not know it.
const LOADER = 'three/addons/loaders/GLTFLoader.js';
const { GLTFLoader } = (await import(LOADER)) as {
  GLTFLoader: new () => { parseAsync(data: ArrayBuffer, path: string): Promise<{ scene: Thing }> };
};
const THREE = 'three';
const { Matrix4, Quaternion, Vector3 } = (await import(THREE)) as {
  Matrix4: new () => { compose(way: unknown, turn: unknown, scale: unknown): { elements: number[] } };
  Quaternion: new (...four: readonly number[]) => unknown;
  Vector3: new () => {
    set(...three: readonly number[]): unknown;
    x: number;
    y: number;
    z: number;
    fromBufferAttribute(from: Attribute, i: number): { applyMatrix4(m: unknown): void };
  };
};

/** Points of all triangles in the world, y up. */
async function known(bytes: Uint8Array): Promise<number[]> {
  const { scene } = await new GLTFLoader().parseAsync(bytes.slice().buffer as ArrayBuffer, '');
  scene.updateMatrixWorld(true);
  const points: number[] = [];
  const at = new Vector3();
  scene.traverse((thing) => {
    if (!thing.isMesh) return;
    const flat = thing.geometry.index ? thing.geometry.toNonIndexed() : thing.geometry;
    const positions = flat.getAttribute('position');
    for (let i = 0; i < positions.count; i++) {
      at.fromBufferAttribute(positions, i).applyMatrix4(thing.matrixWorld);
      points.push(at.x, at.y, at.z);
    }
  });
  return points;
}

/** Nodes in a tree, some with a matrix and some with a way, a turn and a scale; meshes of all ways to count. */
function randomFile(random: Random): Gltf {
  const between = (low: number, high: number) => low + (high - low) * random();
  const buffer = new GltfBuffer();
  const meshes = Array.from({ length: 3 }, () => {
    const count = 6 + 3 * Math.floor(3 * random());
    const POSITION = buffer.add(
      Float32Array.from({ length: 3 * count }, () => between(-2, 3)),
      'VEC3',
    );
    const corners = Array.from({ length: count }, () => Math.floor(random() * count));
    const mode = [4, 5, 6][Math.floor(3 * random())];
    const list = random() < 0.5 ? Uint16Array.from(corners) : Uint32Array.from(corners);
    return {
      primitives: [
        { attributes: { POSITION }, indices: random() < 0.8 ? buffer.add(list, 'SCALAR') : undefined, mode },
      ],
    };
  });
  const turn = () => {
    const four = [0, 1, 2, 3].map(() => between(-1, 1));
    const length = Math.sqrt(four.reduce((sum, value) => sum + value * value, 0));
    return four.map((value) => value / length);
  };
  const nodes = Array.from({ length: 7 }, (_, i) => {
    const [translation, rotation, scale] = [[between(-9, 9), 2, 4], turn(), [between(0.5, 2), 1.3, between(-2, -0.5)]];
    return {
      ...(random() < 0.8 && { mesh: Math.floor(3 * random()) }),
      ...(i < 3 && { children: [2 * i + 1, 2 * i + 2] }),
      ...(random() < 0.4 ? { matrix: matrixOf(translation, rotation, scale) } : { translation, rotation, scale }),
    };
  });
  return buffer.done({ scene: 0, scenes: [{ nodes: [0] }], nodes, meshes });
}

/** Column by column; the specification wants matrices that are a way, a turn and a scale. */
const matrixOf = (way: readonly number[], turn: readonly number[], scale: readonly number[]): number[] =>
  new Matrix4().compose(new Vector3().set(...way), new Quaternion(...turn), new Vector3().set(...scale)).elements;

test.each([1, 2, 3, 4, 5, 6, 7, 8])('random scene %i: the same triangles in the same places', async (seed) => {
  const bytes = glb(randomFile(stream(seed, 'scene')));
  const { points } = readGltf(bytes, true, 'scene.glb');
  const wanted = await known(bytes);
  expect(points.length).toBe(wanted.length);
  expect(points.length).toBeGreaterThan(0);
  // Mirrored triangles start at another corner, and both walk the tree in their own order: the nearest is looked for.
  const cornersOf = (list: ArrayLike<number>, at: number) =>
    [0, 3, 6].map((k) => [list[at + k], list[at + k + 1], list[at + k + 2]]);
  const theirs = Array.from({ length: wanted.length / 9 }, (_, i) =>
    cornersOf(wanted, 9 * i).map(([x, y, z]) => [x, -z, y]),
  );
  for (let i = 0; i < points.length; i += 9) {
    const own = cornersOf(points, i);
    const off = theirs.map((other) => {
      const turns = [0, 1, 2].map((start) =>
        Math.max(
          ...own.flatMap((corner, k) => corner.map((value, axis) => Math.abs(value - other[(start + k) % 3][axis]))),
        ),
      );
      const back = [0, 1, 2].map((start) =>
        Math.max(
          ...own.flatMap((corner, k) =>
            corner.map((value, axis) => Math.abs(value - other[(start + 3 - k) % 3][axis])),
          ),
        ),
      );
      return Math.min(...turns, ...back);
    });
    const nearest = Math.min(...off);
    expect(nearest).toBeLessThan(1e-4);
    theirs.splice(off.indexOf(nearest), 1);
  }
});
