// Writes stack.glb beside this file: a sea stack from an invented shore, notched by the tide, with two boulders at its foot.
// node samples/sea-stack/make-stack.mjs
import { writeFileSync } from 'node:fs';

/** Half widths of the stack by height (mm): the notch that the tide cut is at 50. */
const STACK = [
  [0, 196],
  [22, 190],
  [50, 138],
  [86, 170],
  [150, 182],
  [205, 150],
  [262, 158],
  [320, 118],
  [362, 104],
  [398, 62],
];

const bodies = [
  body({ profile: STACK, around: 72, rows: 44, stretch: [1.12, 0.86], lean: [34, 18], rough: 9, seed: 3 }),
  body({ profile: boulder(74, 96), around: 36, rows: 16, stretch: [1.25, 0.9], lean: [6, -9], rough: 5, seed: 11 }),
  body({ profile: boulder(52, 64), around: 30, rows: 12, stretch: [0.9, 1.2], lean: [-4, 3], rough: 4, seed: 29 }),
];
/** Where they stand (mm): x east, y north, z up. The boulders lie against the stack, a little in it. */
const PLACES = [
  [250, 200, 0],
  [92, 96, 0],
  [438, 92, 0],
];

writeFileSync(new URL('stack.glb', import.meta.url), glb());

/** Half widths of a boulder that stands in the ground. */
function boulder(width, height) {
  return [0, 0.3, 0.6, 0.85, 1].map((t) => [height * t, width * (0.8 + 0.5 * t - 1.05 * t ** 3)]);
}

/** Rings of points from the foot to the top, and a point in the middle of each flat end. */
function body({ profile, around, rows, stretch, lean, rough, seed }) {
  const top = profile.at(-1)[0];
  const points = [[0, 0, 0]];
  for (let row = 0; row <= rows; row++) {
    const z = (top * row) / rows;
    const half = between(profile, z);
    for (let i = 0; i < around; i++) {
      const turn = (2 * Math.PI * i) / around;
      const place = [half * Math.cos(turn), half * Math.sin(turn), z];
      const bed = 2.5 * Math.sin((z + 12 * noise(place, 130, seed)) / 9);
      const far = half + rough * (noise(place, 70, seed) + 0.5 * noise(place, 26, seed + 1)) + bed;
      points.push([
        stretch[0] * far * Math.cos(turn) + (lean[0] * z) / top,
        stretch[1] * far * Math.sin(turn) + (lean[1] * z) / top,
        z,
      ]);
    }
  }
  points.push([lean[0], lean[1], top]);
  const at = (row, i) => 1 + row * around + (i % around);
  const triangles = [];
  for (let i = 0; i < around; i++) {
    triangles.push([0, at(0, i + 1), at(0, i)], [points.length - 1, at(rows, i), at(rows, i + 1)]);
    for (let row = 0; row < rows; row++) {
      triangles.push(
        [at(row, i), at(row, i + 1), at(row + 1, i + 1)],
        [at(row, i), at(row + 1, i + 1), at(row + 1, i)],
      );
    }
  }
  return { points, triangles };
}

function between(profile, z) {
  const k = Math.max(
    1,
    profile.findIndex(([height]) => height >= z),
  );
  const [[z0, a], [z1, b]] = [profile[k - 1], profile[k]];
  return a + (b - a) * smooth((z - z0) / (z1 - z0));
}

/** Smooth noise, −1 … 1, with lumps of a size. */
function noise(place, size, seed) {
  const cell = place.map((p) => Math.floor(p / size));
  const t = place.map((p, i) => smooth(p / size - cell[i]));
  let sum = 0;
  for (let corner = 0; corner < 8; corner++) {
    const step = [corner & 1, (corner >> 1) & 1, corner >> 2];
    const weight = step.reduce((w, s, i) => w * (s ? t[i] : 1 - t[i]), 1);
    sum += weight * scatter(cell[0] + step[0], cell[1] + step[1], cell[2] + step[2], seed);
  }
  return sum;
}

function smooth(t) {
  return t * t * (3 - 2 * t);
}

function scatter(x, y, z, seed) {
  let h = Math.imul(x, 374761393) ^ Math.imul(y, 668265263) ^ Math.imul(z, 2147483647) ^ Math.imul(seed, 1274126177);
  h = Math.imul(h ^ (h >>> 15), 2246822519);
  h = Math.imul(h ^ (h >>> 13), 3266489917);
  return ((h ^ (h >>> 16)) >>> 0) / 2147483648 - 1;
}

/** glTF 2.0 (Khronos), binary: metres, x east, y up, z south; each body a mesh under a node that places it. */
function glb() {
  const pieces = [];
  let length = 0;
  const views = [];
  const accessors = [];
  const add = (array, said) => {
    const bytes = new Uint8Array(array.buffer);
    const padded = new Uint8Array(Math.ceil(bytes.length / 4) * 4);
    padded.set(bytes);
    views.push({ buffer: 0, byteOffset: length, byteLength: bytes.length });
    accessors.push({ bufferView: views.length - 1, ...said });
    pieces.push(padded);
    length += padded.length;
    return accessors.length - 1;
  };
  const meshes = bodies.map(({ points, triangles }) => {
    const metres = points.map(([x, y, z]) => [x, z, -y].map((value) => Math.fround(Math.round(value * 100) / 1e5)));
    const range = (pick) => [0, 1, 2].map((axis) => pick(...metres.map((point) => point[axis])));
    const POSITION = add(Float32Array.from(metres.flat()), {
      componentType: 5126,
      count: points.length,
      type: 'VEC3',
      min: range(Math.min),
      max: range(Math.max),
    });
    const corners = Uint16Array.from(triangles.flat());
    const indices = add(corners, { componentType: 5123, count: corners.length, type: 'SCALAR' });
    return { primitives: [{ attributes: { POSITION }, indices }] };
  });
  const nodes = PLACES.map(([x, y, z], mesh) => ({ mesh, translation: [x / 1000, z / 1000, -y / 1000] }));
  const json = JSON.stringify({
    asset: { version: '2.0', generator: 'make-stack.mjs' },
    scene: 0,
    scenes: [{ nodes: nodes.map((_, i) => i) }],
    nodes,
    meshes,
    accessors,
    bufferViews: views,
    buffers: [{ byteLength: length }],
  });
  const text = new TextEncoder().encode(json.padEnd(Math.ceil(json.length / 4) * 4));
  const bytes = new Uint8Array(28 + text.length + length);
  const view = new DataView(bytes.buffer);
  [0x46546c67, 2, bytes.length, text.length, 0x4e4f534a].forEach((word, i) => {
    view.setUint32(4 * i, word, true);
  });
  bytes.set(text, 20);
  view.setUint32(20 + text.length, length, true);
  view.setUint32(24 + text.length, 0x004e4942, true);
  let at = 28 + text.length;
  for (const piece of pieces) {
    bytes.set(piece, at);
    at += piece.length;
  }
  return bytes;
}
