// Writes rock.stl beside this file: a rock from an invented shore, split along its beds and undercut by the tide.
// node samples/shoreline-rock/make-rock.mjs
import { writeFileSync } from 'node:fs';

const CENTRE = [452, 356, 236]; // mm; the rock stands on z = 0
const SPLITS = 5; // of each triangle of an icosahedron into four: 20,480 triangles

/** Faces along which the rock broke: a direction, and how far from the centre (mm). */
const FACES = [
  [0, 0, -1, 236],
  [0.08, -0.05, 1, 246],
  [1, 0.22, 0.18, 418],
  [0.62, 0.74, 0.3, 372],
  [-0.2, 1, 0.12, 318],
  [-0.86, 0.44, 0.38, 376],
  [-1, -0.3, -0.08, 402],
  [-0.5, -0.84, 0.3, 352],
  [0.34, -1, 0.26, 326],
  [0.84, -0.6, 0.42, 372],
  // Undercut on the side of the sea (south), and a little to the west.
  [0.2, -0.78, -0.66, 236],
  [-0.72, -0.42, -0.6, 288],
  [0.5, 0.3, 0.86, 300],
].map(([x, y, z, far]) => {
  const length = Math.hypot(x, y, z);
  return [x / length, y / length, z / length, far];
});

const { points, triangles } = sphere();
const rock = points.map(onRock);
const least = [0, 1].map((axis) => Math.min(...rock.map((point) => point[axis])));
for (const point of rock) for (const axis of [0, 1]) point[axis] -= least[axis];
writeFileSync(new URL('rock.stl', import.meta.url), stl());

/** The point of the rock in a direction from its centre. */
function onRock(direction) {
  let far = Infinity;
  let next = Infinity;
  let isBase = false;
  for (const [x, y, z, distance] of FACES) {
    const towards = x * direction[0] + y * direction[1] + z * direction[2];
    if (towards <= 0.05) continue;
    const at = distance / towards;
    if (at < far) {
      next = far;
      far = at;
      isBase = z === -1;
    } else if (at < next) next = at;
  }
  if (isBase) return [CENTRE[0] + far * direction[0], CENTRE[1] + far * direction[1], 0];
  // Edges are worn, faces are rough, and the beds stand out by turns.
  far -= 16 * Math.exp(-(next - far) / 22);
  const height = CENTRE[2] + far * direction[2];
  const foot = Math.min(1, Math.max(0, height / 30));
  const place = direction.map((d) => d * far);
  far += foot * (13 * noise(place, 120) + 6 * noise(place, 41) + 3 * noise(place, 15));
  far += foot * 5 * Math.sin((height + 14 * noise(place, 160)) / 11);
  return CENTRE.map((c, axis) => (axis === 2 ? Math.max(0, c + far * direction[2]) : c + far * direction[axis]));
}

/** Smooth noise, −1 … 1, with lumps of a size. */
function noise(place, size) {
  const cell = place.map((p) => Math.floor(p / size));
  const t = place.map((p, i) => smooth(p / size - cell[i]));
  let sum = 0;
  for (let corner = 0; corner < 8; corner++) {
    const step = [corner & 1, (corner >> 1) & 1, corner >> 2];
    const weight = step.reduce((w, s, i) => w * (s ? t[i] : 1 - t[i]), 1);
    sum += weight * scatter(cell[0] + step[0], cell[1] + step[1], cell[2] + step[2], size);
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

/** Directions and triangles, counter-clockwise from outside. */
function sphere() {
  const g = (1 + Math.sqrt(5)) / 2;
  const unit = (p) => p.map((v) => v / Math.hypot(...p));
  const points = [
    ...[-1, 1].flatMap((a) => [-g, g].map((b) => [0, a, b])),
    ...[-1, 1].flatMap((a) => [-g, g].map((b) => [a, b, 0])),
    ...[-1, 1].flatMap((a) => [-g, g].map((b) => [b, 0, a])),
  ].map(unit);
  const apart = (a, b) => Math.hypot(...[0, 1, 2].map((i) => points[a][i] - points[b][i]));
  const edge = 2 / Math.hypot(1, g);
  let triangles = [];
  for (let a = 0; a < 12; a++) {
    for (let b = 0; b < 12; b++) {
      for (let c = 0; c < 12; c++) {
        if (a >= b || a >= c || [apart(a, b), apart(b, c), apart(c, a)].some((d) => Math.abs(d - edge) > 1e-9))
          continue;
        const [p, q, r] = [points[a], points[b], points[c]];
        const volume =
          p[0] * (q[1] * r[2] - q[2] * r[1]) + p[1] * (q[2] * r[0] - q[0] * r[2]) + p[2] * (q[0] * r[1] - q[1] * r[0]);
        if (volume > 0) triangles.push([a, b, c]);
      }
    }
  }
  for (let split = 0; split < SPLITS; split++) {
    const between = new Map();
    const middle = (a, b) => {
      const key = a < b ? `${a} ${b}` : `${b} ${a}`;
      if (!between.has(key)) {
        between.set(key, points.length);
        points.push(unit([0, 1, 2].map((i) => points[a][i] + points[b][i])));
      }
      return between.get(key);
    };
    triangles = triangles.flatMap(([a, b, c]) => {
      const [ab, bc, ca] = [middle(a, b), middle(b, c), middle(c, a)];
      return [
        [a, ab, ca],
        [ab, b, bc],
        [ca, bc, c],
        [ab, bc, ca],
      ];
    });
  }
  return { points, triangles };
}

function stl() {
  const bytes = new Uint8Array(84 + 50 * triangles.length);
  bytes.set(new TextEncoder().encode('shoreline rock, millimetres, z up'));
  const view = new DataView(bytes.buffer);
  view.setUint32(80, triangles.length, true);
  triangles.forEach((corners, i) => {
    corners.forEach((v, k) => {
      rock[v].forEach((value, axis) => {
        view.setFloat32(84 + 50 * i + 12 + 12 * k + 4 * axis, Math.round(value * 100) / 100, true);
      });
    });
  });
  return bytes;
}
